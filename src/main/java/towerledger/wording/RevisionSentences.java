package towerledger.wording;

import java.util.Map;

/** Why a revision was written: what marked its month to be reckoned anew. */
final class RevisionSentences {

  private RevisionSentences() {}

  static void add(Map<String, String> s) {
    s.put("note.first-reckoning", "first reckoning");
    s.put("note.priced-site", "priced under {a} on {L} of the whole site's use");
    s.put(
        "note.priced-systems",
        "priced under {a} on {L} of the systems' own makeup, since no more of the site's use"
            + " is known");
    s.put("why.bill", "utility bill of {n}");
    s.put("why.rates-from", "rates of {n} from {d} changed");
    s.put("why.rates", "rates of {t} changed");
    s.put("why.ordered", "recomputation ordered by {t}");
    s.put("why.month-ended", "the month ended");
    s.put("why.reading", "reading of meter {t}");
    s.put("why.site", "site {t} changed");
    s.put("why.sample", "water sample of system {t}");
    s.put("why.pressure", "pressure reading of system {t}");
    s.put("why.visit", "visit of system {t}");
    s.put("why.came.heat", "heat loads came in");
    s.put("why.came.intervals", "interval volumes came in");
    s.put("why.came.pressures", "pressure readings came in");
    s.put("why.came.registers", "register readings came in");
    s.put("why.came.visits", "visits came in");
    s.put("why.came.samples", "water samples came in");
    s.put("why.came.weather", "weather hours came in");
  }
}
