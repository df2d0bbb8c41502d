package towerledger.meter;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import towerledger.balance.facts.IntervalVolumes;

/**
 * Interval volumes of one meter as they arrived: in any order, with repeats, gaps and overlapping
 * steps. Instants are in UTC, so a change to or from daylight saving is no special case.
 */
final class IntervalLog {

  private long[] start;
  private int[] minutes;
  private double[] litres;
  private int size;

  IntervalLog() {
    start = new long[64];
    minutes = new int[64];
    litres = new double[64];
  }

  /**
   * Adds an interval.
   *
   * @param startEpochSecond begin, seconds since 1970 UTC
   * @param lengthMinutes length, at least 1
   * @param volumeLitres volume, not negative
   */
  void add(long startEpochSecond, int lengthMinutes, double volumeLitres) {
    if (lengthMinutes < 1 || !(volumeLitres >= 0) || Double.isInfinite(volumeLitres)) {
      throw new IllegalArgumentException(
          "interval at %s has %d minutes and %s L; it needs at least 1 minute and 0 L"
              .formatted(Instant.ofEpochSecond(startEpochSecond), lengthMinutes, volumeLitres));
    }
    if (size == start.length) {
      int larger = size * 2;
      start = Arrays.copyOf(start, larger);
      minutes = Arrays.copyOf(minutes, larger);
      litres = Arrays.copyOf(litres, larger);
    }
    start[size] = startEpochSecond;
    minutes[size] = lengthMinutes;
    litres[size] = volumeLitres;
    size++;
  }

  /**
   * Volumes in order and without overlap, with what was done to get there.
   *
   * @param volumes in order, without overlap
   * @param remarks one for each stretch of overlap
   */
  record Tidy(IntervalVolumes volumes, List<Remark> remarks) {}

  /**
   * Sorts, and settles overlaps: of two intervals with the same begin and length the later added
   * stands; a longer interval wholly covered by shorter ones gives way to them; a longer one not
   * wholly covered stands and the shorter ones inside it give way, so that no water is counted
   * twice and none is lost; of two equally long ones that overlap in part the earlier stands.
   */
  Tidy tidy() {
    int[] order = order();
    var remarks = new ArrayList<Remark>();
    var keep = new ArrayList<Integer>();
    int[] kept = new int[size];
    int count = 0;
    int i = 0;
    while (i < order.length) {
      int from = i;
      long end = end(order[i]);
      i++;
      while (i < order.length && start[order[i]] < end) {
        end = Math.max(end, end(order[i]));
        i++;
      }
      if (i - from == 1) {
        kept[count++] = order[from];
      } else {
        keep.clear();
        settle(Arrays.copyOfRange(order, from, i), keep, remarks);
        for (int index : keep) {
          kept[count++] = index;
        }
      }
    }
    return new Tidy(volumes(Arrays.copyOf(kept, count)), remarks);
  }

  private int[] order() {
    if (isAscending()) {
      int[] order = new int[size];
      Arrays.setAll(order, i -> i);
      return order;
    }
    Integer[] boxed = new Integer[size];
    Arrays.setAll(boxed, i -> i);
    Arrays.sort(
        boxed,
        (a, b) -> {
          int byStart = Long.compare(start[a], start[b]);
          return byStart != 0 ? byStart : Integer.compare(a, b);
        });
    return Arrays.stream(boxed).mapToInt(Integer::intValue).toArray();
  }

  private boolean isAscending() {
    for (int i = 1; i < size; i++) {
      if (start[i] < start[i - 1]) {
        return false;
      }
    }
    return true;
  }

  private long end(int index) {
    return start[index] + 60L * minutes[index];
  }

  /** Decides which intervals of a stretch of overlaps stand. */
  private void settle(int[] stretch, List<Integer> keep, List<Remark> remarks) {
    var standing = new TreeMap<Long, Integer>();
    Integer[] shortestFirst =
        Arrays.stream(stretch)
            .boxed()
            .sorted(
                (a, b) -> {
                  int byLength = Integer.compare(minutes[a], minutes[b]);
                  return byLength != 0 ? byLength : Integer.compare(a, b);
                })
            .toArray(Integer[]::new);
    double worst = 0;
    for (int index : shortestFirst) {
      Integer twin = standing.get(start[index]);
      if (twin != null && minutes[twin] == minutes[index]) {
        standing.put(start[index], index);
        continue;
      }
      List<Integer> inside = overlapping(standing, index);
      long covered = 0;
      double sum = 0;
      boolean sameLength = false;
      for (int other : inside) {
        boolean whole = start[other] >= start[index] && end(other) <= end(index);
        covered += whole ? minutes[other] : 0;
        sum += litres[other];
        sameLength |= minutes[other] == minutes[index];
      }
      if (sameLength) {
        if (start[index] < start[inside.get(0)]) {
          inside.forEach(o -> standing.remove(start[o]));
          standing.put(start[index], index);
        }
      } else if (!inside.isEmpty() && covered == minutes[index]) {
        worst = Math.max(worst, Math.abs(sum - litres[index]));
      } else {
        inside.forEach(o -> standing.remove(start[o]));
        standing.put(start[index], index);
      }
    }
    keep.addAll(standing.values());
    remarks.add(
        new Remark(
            Remark.Kind.OVERLAP,
            Instant.ofEpochSecond(start[stretch[0]]),
            "%d interval volumes overlap from here on; %d of them stand. Shorter steps go before longer ones that they cover wholly%s"
                .formatted(
                    stretch.length,
                    standing.size(),
                    worst > 0 ? "; the two differ by up to %.1f L".formatted(worst) : "")));
  }

  private List<Integer> overlapping(TreeMap<Long, Integer> standing, int index) {
    var found = new ArrayList<Integer>();
    Map.Entry<Long, Integer> before = standing.lowerEntry(start[index]);
    if (before != null && end(before.getValue()) > start[index]) {
      found.add(before.getValue());
    }
    found.addAll(standing.subMap(start[index], true, end(index), false).values());
    return found;
  }

  private IntervalVolumes volumes(int[] indexes) {
    long[] starts = new long[indexes.length];
    int[] lengths = new int[indexes.length];
    float[] volumes = new float[indexes.length];
    for (int i = 0; i < indexes.length; i++) {
      starts[i] = start[indexes[i]];
      lengths[i] = minutes[indexes[i]];
      volumes[i] = (float) litres[indexes[i]];
    }
    return new IntervalVolumes(starts, lengths, volumes);
  }
}
