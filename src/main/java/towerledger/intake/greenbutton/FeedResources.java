package towerledger.intake.greenbutton;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * First walk through a feed: which entry is what, and which entries belong together. Entries are
 * joined by their links; only this much of a feed is held in memory.
 */
final class FeedResources implements FeedHandler {

  private static final int MOST_ENTRIES = 500_000;

  /** What an entry of interval blocks belongs to. */
  record Owner(String usagePoint, String meterReading, ReadingType type) {}

  private static final class Entry {
    String kind = "";
    String self = "";
    String up = "";
    final Set<String> related = new HashSet<>(4);
    final Map<String, String> values = new LinkedHashMap<>(4);
  }

  private final List<Entry> entries = new ArrayList<>();

  @Override
  public void entry(int number) {
    if (number >= MOST_ENTRIES) {
      throw new GreenButtonFormatException(
          "the feed has more than %d entries; split it".formatted(MOST_ENTRIES));
    }
    entries.add(new Entry());
  }

  private @Nullable Entry current() {
    return entries.isEmpty() ? null : entries.get(entries.size() - 1);
  }

  @Override
  public void link(String relation, String address) {
    Entry entry = current();
    if (entry == null) {
      return;
    }
    switch (relation) {
      case "self" -> entry.self = plain(address);
      case "up" -> entry.up = plain(address);
      case "related" -> entry.related.add(plain(address));
      default -> {
        // Other relations tell nothing about what belongs together.
      }
    }
  }

  /** Addresses in the field end in slashes and stray back-ticks. */
  private static String plain(String address) {
    return address.strip().replaceAll("[/`]+$", "");
  }

  @Override
  public void start(String name) {
    Entry entry = current();
    if (entry != null && entry.kind.isEmpty()) {
      entry.kind = name;
    }
  }

  @Override
  public void value(String parent, String name, String text) {
    Entry entry = current();
    if (entry == null) {
      return;
    }
    boolean ofType = entry.kind.equals("ReadingType") && parent.equals("ReadingType");
    boolean ofService = entry.kind.equals("UsagePoint") && parent.equals("ServiceCategory");
    if (ofType || ofService) {
      entry.values.put(name, text);
    }
  }

  @Override
  public void end(String name, long line) {
    // Nothing is complete before the last link has been seen.
  }

  /** The owner of each entry of interval blocks, by the entry's number. */
  Map<Integer, Owner> owners() {
    Map<String, Entry> meterReadings = new HashMap<>();
    Map<String, Entry> usagePoints = new HashMap<>();
    Map<String, Entry> types = new HashMap<>();
    List<Entry> allReadings = new ArrayList<>();
    for (Entry entry : entries) {
      switch (entry.kind) {
        case "MeterReading" -> {
          allReadings.add(entry);
          meterReadings.put(entry.self, entry);
          entry.related.forEach(address -> meterReadings.putIfAbsent(address, entry));
        }
        case "UsagePoint" -> {
          usagePoints.put(entry.self, entry);
          entry.related.forEach(address -> usagePoints.putIfAbsent(address, entry));
        }
        case "ReadingType" -> types.put(entry.self, entry);
        default -> {
          // Blocks are looked at below; other resources tell nothing about volumes.
        }
      }
    }
    Map<Entry, Owner> byReading = new HashMap<>();
    Map<Integer, Owner> owners = new HashMap<>();
    for (int i = 0; i < entries.size(); i++) {
      Entry block = entries.get(i);
      if (block.kind.equals("IntervalBlock")) {
        Entry reading = find(meterReadings, block, "IntervalBlock", allReadings);
        owners.put(
            i,
            reading == null
                ? new Owner(
                    "", "", ReadingType.refused("its links lead to no MeterReading of this feed"))
                : byReading.computeIfAbsent(reading, r -> owner(r, usagePoints, types)));
      }
    }
    return owners;
  }

  private static Owner owner(
      Entry reading, Map<String, Entry> usagePoints, Map<String, Entry> types) {
    Entry point = find(usagePoints, reading, "MeterReading", List.copyOf(usagePoints.values()));
    Entry type = null;
    for (String address : reading.related) {
      Entry found = types.get(address);
      type = found == null ? type : found;
    }
    if (type == null && types.size() == 1) {
      type = types.values().iterator().next();
    }
    String service = point == null ? "" : point.values.getOrDefault("kind", "");
    return new Owner(
        point == null ? "" : point.self,
        reading.self,
        type == null
            ? ReadingType.refused("its meter reading names no ReadingType of this feed")
            : ReadingType.of(service, type.values));
  }

  /** By the upward link, else by the address it is below, else the only one there is. */
  private static @Nullable Entry find(
      Map<String, Entry> owners, Entry entry, String collection, List<Entry> all) {
    for (String address : List.of(entry.up, entry.self)) {
      Entry direct = owners.get(address);
      if (direct != null && direct != entry) {
        return direct;
      }
      int end = address.lastIndexOf("/" + collection);
      Entry above = end < 0 ? null : owners.get(address.substring(0, end));
      if (above != null) {
        return above;
      }
    }
    return all.stream().distinct().count() == 1 ? all.get(0) : null;
  }
}
