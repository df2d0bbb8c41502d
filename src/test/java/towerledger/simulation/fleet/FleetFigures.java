package towerledger.simulation.fleet;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.function.Predicate;
import java.util.stream.DoubleStream;
import java.util.stream.Stream;
import towerledger.simulation.Fault;

/** The figures by which a fleet's verdicts are judged. */
final class FleetFigures {

  /** Months before which the load multiplier is still settling. */
  static final int CALIBRATED_FROM = 6;

  private FleetFigures() {}

  private static Stream<ScoredMonth> months(List<ScoredPlant> plants) {
    return plants.stream().flatMap(p -> p.months().stream());
  }

  private static double ratio(Stream<ScoredMonth> months, Predicate<ScoredMonth> good) {
    long[] counts = new long[2];
    months.forEach(
        m -> {
          counts[1]++;
          if (good.test(m)) {
            counts[0]++;
          }
        });
    return counts[1] == 0 ? Double.NaN : (double) counts[0] / counts[1];
  }

  /** Part of the months flagged that are positive. */
  static double precision(List<ScoredPlant> plants, Predicate<ScoredMonth> flag) {
    return ratio(months(plants).filter(flag), ScoredMonth::positive);
  }

  /**
   * The same where months of a smaller loss count for neither: from a hundredth of the makeup on,
   * up to where a month is positive.
   */
  static double precisionOfClear(List<ScoredPlant> plants, Predicate<ScoredMonth> flag) {
    return ratio(
        months(plants).filter(flag).filter(m -> m.positive() || m.netShare() < 0.01),
        ScoredMonth::positive);
  }

  /** Part of the positive months that are flagged. */
  static double recall(List<ScoredPlant> plants, Predicate<ScoredMonth> flag) {
    return ratio(months(plants).filter(ScoredMonth::positive), flag);
  }

  static double recall(List<ScoredPlant> plants, String grades, double from, double to) {
    return ratio(
        plants.stream()
            .filter(p -> grades.indexOf(p.grade()) >= 0)
            .flatMap(p -> p.months().stream())
            .filter(m -> m.positive() && m.netShare() >= from && m.netShare() < to),
        ScoredMonth::wasteFlag);
  }

  /** Runs of flagged months a year and sound plant. */
  static double falseEpisodes(List<ScoredPlant> plants, Predicate<ScoredMonth> flag) {
    double episodes = 0;
    double years = 0;
    for (ScoredPlant plant : plants) {
      if (plant.fault().isEmpty()) {
        episodes += plant.episodes(flag);
        years += plant.months().size() / 12.0;
      }
    }
    return years == 0 ? Double.NaN : episodes / years;
  }

  static double medianDelay(List<ScoredPlant> plants) {
    return median(plants.stream().map(ScoredPlant::delayDays).flatMapToDouble(d -> d.stream()));
  }

  static double medianDetection(List<ScoredPlant> plants) {
    return median(
        plants.stream()
            .filter(ScoredPlant::intervals)
            .map(ScoredPlant::detectionDays)
            .flatMapToDouble(d -> d.stream()));
  }

  static double medianLossError(List<ScoredPlant> plants, boolean flaggedOnly) {
    return median(
        months(plants)
            .filter(m -> m.positive() && (!flaggedOnly || m.wasteFlag()))
            .map(ScoredMonth::lossError)
            .flatMap(Optional::stream)
            .mapToDouble(d -> d));
  }

  static double coverage(List<ScoredPlant> plants, boolean positiveOnly) {
    return ratio(
        months(plants).filter(m -> m.covered().isPresent() && (!positiveOnly || m.positive())),
        m -> m.covered().orElse(false));
  }

  static double evaporationError(List<ScoredPlant> plants, char grade) {
    return plants.stream()
        .filter(p -> p.grade() == grade)
        .flatMap(p -> p.months().stream())
        .filter(m -> m.number() >= CALIBRATED_FROM)
        .map(ScoredMonth::evaporationError)
        .flatMap(Optional::stream)
        .mapToDouble(d -> d)
        .average()
        .orElse(Double.NaN);
  }

  /** What a judge asks of a flagged month of a known fault. */
  interface Naming {
    double of(ScoredMonth month, Fault fault);
  }

  /** Average over flagged months in which the fault acted. */
  static double naming(List<ScoredPlant> plants, Predicate<ScoredPlant> which, Naming naming) {
    return plants.stream()
        .filter(which)
        .flatMapToDouble(
            p ->
                p.fault().stream()
                    .flatMapToDouble(
                        fault ->
                            p.months().stream()
                                .filter(m -> m.flagged() && m.faultActive())
                                .mapToDouble(m -> naming.of(m, fault))))
        .average()
        .orElse(Double.NaN);
  }

  private static double median(DoubleStream values) {
    double[] sorted = values.toArray();
    if (sorted.length == 0) {
      return Double.NaN;
    }
    Arrays.sort(sorted);
    return sorted[sorted.length / 2];
  }
}
