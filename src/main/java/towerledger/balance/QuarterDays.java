package towerledger.balance;

import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;

/**
 * The hourly model gathered into blocks of six hours, fine enough for the basin's chemistry and
 * coarse enough to walk through under a hundred hypotheses.
 */
final class QuarterDays {

  /** Hours in a block. */
  static final int HOURS = 6;

  private static final double SECONDS = HOURS * 3600.0;

  final long startEpochSecond;
  final int count;

  /** Evaporation, L; hours without weather stand in with the mean of the block or its day. */
  final double[] evaporationL;

  /**
   * What would evaporate more, or less, if the load were the same in all hours that were measured
   * together, L.
   */
  final double[] evenedL;

  /** Hours with load. */
  final double[] runHours;

  /** Hours weighted by load. */
  final double[] loadHours;

  /** Times that the system stopped within the block. */
  final double[] stops;

  /** Hours of working days, when people use water. */
  final double[] workHours;

  /** Hours without weather. */
  final double[] unknownHours;

  private QuarterDays(long startEpochSecond, int count) {
    this.startEpochSecond = startEpochSecond;
    this.count = count;
    evaporationL = new double[count];
    evenedL = new double[count];
    runHours = new double[count];
    loadHours = new double[count];
    stops = new double[count];
    workHours = new double[count];
    unknownHours = new double[count];
  }

  static QuarterDays of(SystemHours hours, ZoneId zone) {
    QuarterDays blocks = new QuarterDays(hours.startEpochSecond(), hours.count() / HOURS);
    double[] load = hours.load();
    double[] evaporation = hours.evaporationL();
    LocalHours localHours = new LocalHours(zone);
    double lastKnown = 0;
    int localHour = 0;
    int localDay = 1;
    for (int b = 0; b < blocks.count; b++) {
      double sum = 0;
      int known = 0;
      if (b % 4 == 0) {
        LocalDateTime local = localHours.at(hours.startEpochSecond() + b * (long) SECONDS);
        localHour = local.getHour();
        localDay = local.getDayOfWeek().getValue();
      }
      for (int i = 0; i < HOURS; i++) {
        int h = b * HOURS + i;
        if (load[h] > 0) {
          blocks.runHours[b]++;
          blocks.loadHours[b] += load[h];
          double evened = evaporation[h] * (hours.even()[h] / load[h] - 1);
          blocks.evenedL[b] += Double.isNaN(evened) ? 0 : evened;
        } else if (h > 0 && load[h - 1] > 0) {
          blocks.stops[b]++;
        }
        int ahead = localHour + (b % 4) * HOURS + i;
        int hourOfDay = ahead % 24;
        int day = (localDay - 1 + ahead / 24) % 7;
        if (day < 5 && hourOfDay >= 7 && hourOfDay < 17) {
          blocks.workHours[b]++;
        }
        if (Double.isNaN(evaporation[h])) {
          blocks.unknownHours[b]++;
        } else {
          sum += evaporation[h];
          known++;
        }
      }
      lastKnown = known > 0 ? sum * HOURS / known : lastKnown;
      blocks.evaporationL[b] = lastKnown;
    }
    return blocks;
  }

  /** Where an instant lies, in blocks from the start; may lie outside. */
  double position(Instant instant) {
    // Fractions count: two readings within one second have a span, if a short one.
    return (instant.getEpochSecond() - startEpochSecond + instant.getNano() * 1e-9) / SECONDS;
  }

  /** The block that holds an instant, kept inside the grid. */
  int block(Instant instant) {
    return Math.max(0, Math.min(count - 1, (int) Math.floor(position(instant))));
  }

  /** Begin of a block. */
  Instant at(double position) {
    return Instant.ofEpochSecond(startEpochSecond + Math.round(position * SECONDS));
  }
}
