package towerledger.meter;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import towerledger.site.Meter;
import towerledger.site.MeterRole;

/**
 * Which meters of a system make up its makeup: the makeup meters are summed, except those that
 * measure the water of another makeup meter again; other-use meters are subtracted from the makeup
 * meter above them.
 *
 * @param makeup makeup meters to sum
 * @param subtracted other-use meters below one of them
 * @param blowdown blowdown meters to sum, sub-meters left out
 * @param remarks parents that are not there or cannot be
 */
public record MeterNetwork(
    List<Meter> makeup, List<Meter> subtracted, List<Meter> blowdown, List<Remark> remarks) {

  public MeterNetwork {
    makeup = List.copyOf(makeup);
    subtracted = List.copyOf(subtracted);
    blowdown = List.copyOf(blowdown);
    remarks = List.copyOf(remarks);
  }

  /** The network of one system's meters; service meters of the site may be among them. */
  public static MeterNetwork of(Collection<Meter> meters) {
    Map<String, Meter> byCode = new LinkedHashMap<>();
    meters.forEach(meter -> byCode.put(meter.code(), meter));
    var makeup = new ArrayList<Meter>();
    var subtracted = new ArrayList<Meter>();
    var blowdown = new ArrayList<Meter>();
    var remarks = new ArrayList<Remark>();
    for (Meter meter : byCode.values()) {
      MeterRole role = meter.details().role();
      Optional<Meter> above = above(meter, byCode, remarks);
      switch (role) {
        case MAKEUP -> {
          if (above.isEmpty()) {
            makeup.add(meter);
          }
        }
        case BLOWDOWN -> {
          if (above.isEmpty()) {
            blowdown.add(meter);
          }
        }
        case OTHER_USE -> {
          // Without a parent it is taken to hang below the system's makeup: that is its role.
          if (above.isEmpty() || above.get().details().role() == MeterRole.MAKEUP) {
            subtracted.add(meter);
          }
        }
        case CREDIT, SERVICE -> {
          // Bills and credits are the tariff's; they are no part of the system's balance.
        }
      }
    }
    return new MeterNetwork(makeup, subtracted, blowdown, remarks);
  }

  /** The nearest meter above that counts the same water for the same purpose. */
  private static Optional<Meter> above(
      Meter meter, Map<String, Meter> byCode, List<Remark> remarks) {
    MeterRole role = meter.details().role();
    Meter at = meter;
    for (int steps = 0; steps <= byCode.size(); steps++) {
      String parent = at.details().parentMeter();
      if (parent == null) {
        return Optional.empty();
      }
      Meter next = byCode.get(parent);
      if (next == null) {
        remarks.add(
            unknown(
                meter,
                "meter %s names %s as its parent, which is not a meter of this system or site; correct parent_meter"
                    .formatted(at.code(), parent)));
        return Optional.empty();
      }
      if (next.details().role() == role
          || (role == MeterRole.OTHER_USE && next.details().role() == MeterRole.MAKEUP)) {
        return Optional.of(next);
      }
      at = next;
    }
    remarks.add(
        unknown(
            meter,
            "meter %s is its own parent by way of others; correct parent_meter"
                .formatted(meter.code())));
    return Optional.empty();
  }

  private static Remark unknown(Meter meter, String words) {
    Instant since = meter.details().installedAt();
    return new Remark(Remark.Kind.PARENT_UNKNOWN, since == null ? Instant.EPOCH : since, words);
  }
}
