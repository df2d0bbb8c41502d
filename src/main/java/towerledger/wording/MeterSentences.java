package towerledger.wording;

import java.util.Map;

/** What is remarked of readings, and why one is refused. */
final class MeterSentences {

  private MeterSentences() {}

  static void add(Map<String, String> s) {
    readings(s);
    volumes(s);
    refusals(s);
  }

  private static void readings(Map<String, String> s) {
    s.put(
        "remark.not-expected",
        "meter {t} passed {L} since the reading before; {l} to {L} were expected. Taken and marked:"
            + " read the register again if you can");
    s.put("remark.rolled-over", "the register rolled over between {n} and {n}; {n} counts passed");
    s.put(
        "remark.backwards-digits",
        "meter {t} went from {n} ({i}) to {n}; a roll-over of {0} digits would mean more water than"
            + " could pass. The volume between is left open: correct the reading, give"
            + " register_digits, or record the exchange of the meter with its last and first"
            + " register");
    s.put(
        "remark.backwards",
        "meter {t} went from {n} ({i}) to {n}; register_digits is not known, so a roll-over cannot"
            + " be told. The volume between is left open: correct the reading, give"
            + " register_digits, or record the exchange of the meter with its last and first"
            + " register");
    s.put(
        "remark.outside-life",
        "register {n} was read outside the time in which meter {t} counted; left out. Correct"
            + " installed_at or removed_at, or the reading");
    s.put(
        "remark.ends-differ",
        "register {n} was read where {n} was noted at installation or removal of meter {t}; the"
            + " reading stands. Correct one of the two");
    s.put("remark.estimate", "the estimate of {n} gave way to the real readings around it");
    s.put(
        "remark.left-out-estimate",
        "register {n} contradicts {n} read at {i} and was only estimated; left out until it is"
            + " corrected");
    s.put(
        "remark.left-out-marked",
        "register {n} contradicts {n} read at {i} and was marked as outside what was expected; left"
            + " out until it is corrected");
    s.put(
        "remark.parent",
        "meter {n} names {n} as its parent, which is not a meter of this system or site; correct"
            + " parent_meter");
    s.put(
        "remark.own-parent", "meter {n} is its own parent by way of others; correct parent_meter");
  }

  private static void volumes(Map<String, String> s) {
    s.put(
        "remark.kinds",
        "meter {t}: the readings from {i} to {i} tell of {L}, the interval volumes of {L}; up to {L}"
            + " apart would be usual. Look for lost or doubled pulses and for a wrong multiplier");
    s.put(
        "remark.overlap-differ",
        "{0} interval volumes overlap from here on; {0} of them stand. Shorter steps go before longer"
            + " ones that they cover wholly; the two differ by up to {L}");
    s.put(
        "remark.overlap",
        "{0} interval volumes overlap from here on; {0} of them stand. Shorter steps go before longer"
            + " ones that they cover wholly");
    s.put(
        "remark.low-flow",
        "beside the {L} counted by the interval up to {L} may have passed meter {t} below the least"
            + " flow it counts rightly (standard uncertainty {L}); a smaller or electronic meter"
            + " would tell");
    s.put(
        "remark.volumes-outside-life",
        "{0} interval volumes from {i} on lie outside the time in which meter {t} counted; left out."
            + " Correct installed_at or removed_at, or name the meter that took its place");
  }

  private static void refusals(Map<String, String> s) {
    s.put(
        "refused.digits",
        "register of {n} does not fit on the {0} digits of meter {t}; correct the reading or"
            + " register_digits");
    s.put(
        "refused.reading-day",
        "reading of meter {t} at {i} lies outside {i} to {i}; check the date");
  }
}
