package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import towerledger.balance.facts.MeterFacts;

/**
 * The water that the meters of one role measured together, told for any stretch of time. Every
 * meter is told by itself and the meters are summed: a meter that is in service and tells nothing
 * of a stretch leaves that stretch partly covered, and never passes for zero.
 */
final class MeteredWater {

  /**
   * Water over a stretch.
   *
   * @param litres volume over the covered part
   * @param deviation standard deviation, L
   * @param covered part of the stretch's time that readings cover, 0–1
   * @param lastFact instant of the last reading used; empty stretch: the start of time
   */
  record Amount(double litres, double deviation, double covered, Instant lastFact) {

    /** The whole stretch, the missing part taken to have passed at the same rate. */
    double wholeL() {
      return litres / covered;
    }

    /** Deviation of the whole, L: what is missing may be off by a third of itself. */
    double wholeDeviation() {
      return Math.hypot(deviation, 0.3 * (1 - covered) * wholeL());
    }
  }

  /** Part of a stretch that interval data must cover to speak for it; loggers drop hours. */
  static final double LEAST_LOGGED = 0.9;

  private static final Duration SLACK = Duration.ofMinutes(61);

  /** A meter that begins so long before or after another's record ends may have replaced it. */
  private static final Duration EARLIEST_SUCCESSOR = Duration.ofDays(8);

  private static final Duration LATEST_SUCCESSOR = Duration.ofDays(62);

  private final QuarterDays blocks;
  private final boolean present;
  private final double accuracy;
  private final List<MeterWater> meters;
  private final List<double[]> service;

  private MeteredWater(
      QuarterDays blocks, boolean present, double accuracy, List<MeterWater> meters) {
    this.blocks = blocks;
    this.present = present;
    this.accuracy = accuracy;
    this.meters = meters;
    this.service = meters.stream().map(this::service).toList();
  }

  /**
   * The meters of one role together.
   *
   * @param meters meters that measure different water: none below another of its role
   * @param mostPerHourL volume per hour above which a reading must be wrong and is left out, L
   */
  static MeteredWater of(
      List<MeterFacts> meters, MeterFacts.Role role, QuarterDays blocks, double mostPerHourL) {
    List<MeterFacts> own = meters.stream().filter(meter -> meter.role() == role).toList();
    return new MeteredWater(
        blocks,
        !own.isEmpty(),
        own.stream()
            .mapToDouble(meter -> meter.accuracyFraction().orElse(MeterWater.ASSUMED_ACCURACY))
            .max()
            .orElse(MeterWater.ASSUMED_ACCURACY),
        own.stream()
            .map(meter -> MeterWater.of(meter, blocks, mostPerHourL))
            .filter(MeterWater::told)
            .toList());
  }

  /** From where to where a meter serves, in blocks: on and on unless it was removed or replaced. */
  private double[] service(MeterWater meter) {
    double end = meter.end();
    if (meter.removed() > end) {
      end = meter.removed();
    } else if (Double.isNaN(meter.removed()) && !replaced(meter)) {
      end = Double.MAX_VALUE;
    }
    return new double[] {meter.begin(), end};
  }

  private boolean replaced(MeterWater meter) {
    return meters.stream()
        .anyMatch(
            other ->
                other != meter
                    && other.begin() >= meter.end() - blocks(EARLIEST_SUCCESSOR)
                    && other.begin() <= meter.end() + blocks(LATEST_SUCCESSOR)
                    && other.end() > meter.end());
  }

  private static double blocks(Duration duration) {
    return duration.toMinutes() / 60.0 / QuarterDays.HOURS;
  }

  /** Whether there is a meter of the role at all. */
  boolean present() {
    return present;
  }

  /** Limit of error of the least accurate meter as a fraction. */
  double accuracy() {
    return accuracy;
  }

  /** Largest volume left out of a stretch because no fill could pass it, L; 0 without any. */
  double impossibleL(double from, double to) {
    return meters.stream().mapToDouble(meter -> meter.impossibleL(from, to)).max().orElse(0);
  }

  /** Instants of readings, as positions in blocks, in order; ends of unknown stretches included. */
  double[] readingPositions() {
    return meters.stream()
        .flatMapToDouble(MeterWater::readingPositions)
        .sorted()
        .distinct()
        .toArray();
  }

  /** Whether interval data speak for a stretch: for every meter in service. */
  boolean byInterval(double from, double to) {
    boolean any = false;
    for (int i = 0; i < meters.size(); i++) {
      double left = Math.max(from, service.get(i)[0]);
      double right = Math.min(to, service.get(i)[1]);
      if (right > left) {
        if (!meters.get(i).byInterval(left, right)) {
          return false;
        }
        any = true;
      }
    }
    return any;
  }

  /**
   * Water of each hour as logged, told where {@link #byInterval} says so; hours that a logger
   * dropped repeat the one before. Empty where nothing is logged.
   */
  double[] loggedL() {
    if (meters.stream().noneMatch(MeterWater::logged)) {
      return new double[0];
    }
    double[] hourly = new double[blocks.count * QuarterDays.HOURS];
    meters.forEach(meter -> meter.addLogged(hourly));
    return hourly;
  }

  /** Volume between two positions, L; NaN where no meter tells it or too little is covered. */
  double wholeL(double from, double to, double[] runningUse, double leastCovered) {
    Amount amount = between(from, to, runningUse);
    return present() && amount.covered() >= leastCovered ? amount.wholeL() : Double.NaN;
  }

  /**
   * Water between two positions.
   *
   * @param runningUse running total of modelled use by block, which shares out register volumes
   */
  Amount between(double from, double to, double[] runningUse) {
    double litres = 0;
    double variance = 0;
    double covered = 0;
    double wanted = 0;
    Instant lastFact = Instant.MIN;
    for (int i = 0; i < meters.size(); i++) {
      double left = Math.max(from, service.get(i)[0]);
      double right = Math.min(to, service.get(i)[1]);
      if (right <= left) {
        continue;
      }
      Amount amount = meters.get(i).between(left, right, runningUse);
      litres += amount.litres();
      variance += amount.deviation() * amount.deviation();
      covered += amount.covered() * (right - left);
      wanted += right - left;
      lastFact = amount.lastFact().isAfter(lastFact) ? amount.lastFact() : lastFact;
    }
    double outside = Math.max(0, to - from - union(from, to));
    double share = wanted + outside <= 0 ? 0 : Math.min(1, covered / (wanted + outside));
    return new Amount(litres, Math.sqrt(variance), share, lastFact);
  }

  /** Blocks of a stretch in which any meter was in service. */
  private double union(double from, double to) {
    double slack = blocks(SLACK);
    double sum = 0;
    double reached = from;
    List<double[]> inOrder = new ArrayList<>(service);
    inOrder.sort((x, y) -> Double.compare(x[0], y[0]));
    for (double[] window : inOrder) {
      double left = Math.max(reached, window[0] - slack);
      double right = Math.min(to, window[1] + slack);
      if (right > left) {
        sum += right - left;
        reached = right;
      }
    }
    return sum;
  }
}
