package towerledger.balance;

import java.util.ArrayList;
import java.util.List;

/** What the stories foretell of the periods of one system, to be held against the measured. */
final class Foretelling {

  private final List<Response> responses;
  private final LackedWater lacked;
  private final double volumeL;
  private final double floorPerDayL;
  private final double meterAccuracy;
  private final double bleedAccuracy;

  /** By number of the response; read anew for each period. */
  private final List<Showing> showings = new ArrayList<>();

  /**
   * @param responses what each signature would show, the sound one first
   * @param lacked what a load draws that the shape lacks
   * @param volumeL water of the loop, L
   * @param floorPerDayL daily volume below which percentages lose their meaning
   * @param meterAccuracy one standard deviation of the makeup meter, as a fraction
   * @param bleedAccuracy the same of the bleed meter
   */
  Foretelling(
      List<Response> responses,
      LackedWater lacked,
      double volumeL,
      double floorPerDayL,
      double meterAccuracy,
      double bleedAccuracy) {
    this.responses = responses;
    this.lacked = lacked;
    this.volumeL = volumeL;
    this.floorPerDayL = floorPerDayL;
    this.meterAccuracy = meterAccuracy;
    this.bleedAccuracy = bleedAccuracy;
  }

  /** How far the samples of a period lie from what a story foretells, ln; NaN without any. */
  double sampleGap(Hypothesis h, int p, Period period) {
    Response response = responses.get(h.responseIn(p));
    return period.hasSamples()
        ? period.sampleLog() - h.habit() * response.held[p] - response.sampleLog[p]
        : Double.NaN;
  }

  /** Makeup of a period over what a story foretells, L; NaN where it is not known. */
  double makeupGap(Hypothesis h, int p, Period period) {
    Response response = responses.get(h.responseIn(p));
    double byLoad = Math.exp(h.load() + period.loadScatter() * h.scatter()) * response.makeup[p];
    return period.makeupL() - byLoad - lacked.makeup(h, p, byLoad);
  }

  /**
   * What a period measured, ready to be held against each story; good until the next one is asked
   * for.
   *
   * @param strays variance of a sample, ln, for straying from the mean of its period where nobody
   *     holds the concentration
   */
  PeriodWeighing weighing(int p, Period period, double strays) {
    Response sound = responses.get(0);
    for (int r = 0; r < responses.size(); r++) {
      if (r == showings.size()) {
        showings.add(new Showing());
      }
      showings.get(r).read(responses.get(r), sound, lacked, p, period);
    }
    boolean held = strays == 0;
    double astray = BleedStray.ofBleed(held);
    double byBleed = BleedStray.ofMakeup(held, sound.bleed[p], sound.makeup[p]);
    double accuracy = 0.4 * meterAccuracy;
    double floorL = floorPerDayL * period.days();
    MeterWord makeup =
        new MeterWord(
            period.makeupL(),
            period.makeupDeviationL(),
            floorL,
            0.02 * volumeL,
            accuracy * accuracy + byBleed * byBleed,
            0.04,
            0.15 * 0.15,
            period.loadScatter(),
            period.loadNoise(),
            false);
    MeterWord bleed =
        new MeterWord(
            period.bleedL(),
            period.bleedDeviationL(),
            0.3 * floorPerDayL * period.days(),
            0.03 * volumeL,
            bleedAccuracy * bleedAccuracy + astray * astray,
            0.05,
            0.4 * 0.4,
            period.loadScatter(),
            period.loadNoise(),
            true);
    return new PeriodWeighing(p, period, showings, makeup, bleed, strays);
  }
}
