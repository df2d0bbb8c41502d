package towerledger.wording;

import java.util.Map;

/** What sites, meters, log sheets and weather are refused for. */
final class FactSentences {

  private FactSentences() {}

  static void add(Map<String, String> s) {
    part1(s);
    part2(s);
    part3(s);
    models(s);
  }

  /** What the models of air and tower cannot take; a calculator says it. */
  private static void models(Map<String, String> s) {
    s.put(
        "refused.wet-bulb-above",
        "wet bulb of {T} must not be above the dry bulb of {T}; check whether the two were"
            + " exchanged");
    s.put(
        "refused.wet-bulb-below",
        "wet bulb of {T} is too far below the dry bulb of {T}: even dry air has a higher one; check"
            + " both readings and their units");
    s.put(
        "refused.basin-weaker",
        "basin conductivity of {0} µS/cm must be above the makeup's {0} µS/cm; check whether the"
            + " two were exchanged");
    s.put(
        "refused.too-hot",
        "heat rejected of {K} of range at this water flow would heat the cold water above {T};"
            + " check heat and water flow against the size of the tower");
  }

  private static void part1(Map<String, String> s) {
    s.put("refused.actor-name", "name of an actor has {n} characters; 1 to 254 are allowed");
    s.put(
        "refused.report-addresses",
        "the report addresses of customer {t} take {n} characters; at most 2000 are " + "allowed");
    s.put(
        "refused.heat-kinds",
        "heat load from {t} gives {n} kinds of evidence; give one: heat rejected, "
            + "chilled-water heat, chiller electricity with kw_per_ton, running hours with "
            + "average load, or hot and cold water with flow");
    s.put(
        "refused.heat-misses",
        "heat load from {t} misses {q}, without which the rest of its group says " + "nothing");
    s.put("refused.log-empty", "{q} of system {t} at {t} holds no value; give at least one");
    s.put("refused.log-day", "{q} of system {t} at {t} lies outside {t} to {t}; check the date");
    s.put("refused.visit-code", "{q} '{t}' is not on the list; use {t}, separated by semicolons");
    s.put("refused.visit-long", "{n} has {n} characters; at most {n} are kept");
    s.put(
        "refused.interval",
        "interval at {t} has {n} minutes and {n} L; it needs at least 1 minute and 0 L");
    s.put("refused.note-long", "note of {n} characters is longer than {n}; shorten it");
    s.put(
        "refused.counts",
        "meter {t} counts {n} L at a time; unit and multiplier must give more than 0");
    s.put("refused.meter-digits", "meter {t} has {n} register digits; give 1 to 18");
    s.put("refused.reading-kind", "kind '{t}' is not known; use actual or estimated");
    s.put("refused.reading-off", "reading at {t} is off by {t}; give 0 or more");
    s.put("refused.hour-of-day", "hour {n} of the day; choose 0 to 23");
    s.put("refused.retrofit", "{q} of {n} is outside {n} to {n}");
  }

  private static void part2(Map<String, String> s) {
    s.put("refused.multiplier", "multiplier of {n} is not above 0; give volume per register count");
    s.put(
        "refused.register-digits",
        "register_digits of {n} is outside 1 to 18; count the wheels of the register");
    s.put("refused.removed", "removed_at {t} is not after installed_at {t}; check the two");
    s.put("refused.plate-above-0", "{q} is {n}; give a number above 0 or leave it empty");
    s.put("refused.plate-temperatures", "{q} of {C} is not above {q} of {C}; check the two");
    s.put(
        "refused.plate-dry-bulb",
        "design dry bulb of {C} is below the design wet bulb of {C}; check the two");
    s.put("refused.setting-number", "{n} '{t}' is not a number");
    s.put(
        "refused.setting-range",
        "{n} of {n} is outside what is possible ({n}: {n} to {n}); check the unit");
    s.put(
        "refused.meter-no-system",
        "meter '{t}' is a {w} meter and names no system; only a service meter may "
            + "stand at a site alone");
    s.put("refused.meter-nowhere", "meter '{t}' names neither system nor site; give one");
    s.put(
        "refused.meter-site",
        "meter '{t}' names site '{t}', but its system stands at '{t}'; leave the site "
            + "empty or correct it");
    s.put("refused.station", "{q} of {n}° lies outside −{n} to {n}°; check sign and order");
    s.put("refused.weather-range", "{q} of {n} {n} lies outside {n} to {n} {n}; check its unit");
    s.put(
        "refused.weather-humidity",
        "hour {t} has {n} humidities; give exactly one of wet bulb, dew point, "
            + "relative humidity");
    s.put("refused.actor-source", "source of an actor has {n} characters; 1 to 200 are allowed");
    s.put(
        "refused.moved",
        "{w} '{t}' belongs to another {w}; a row may not move it. Use another code, or "
            + "move it in the office");
    s.put(
        "refused.system-code-of-tower",
        "code '{t}' is that of a tower of another system, and a tower's code stands for its system;"
            + " give the system another code");
    s.put(
        "refused.tower-code-of-system",
        "code '{t}' is that of another system, and a tower's code stands for its system; give the"
            + " tower another code");
  }

  private static void part3(Map<String, String> s) {
    s.put(
        "refused.bill-loss",
        "loss '{t}' of system {t} is {L}, below 0; a minus is no loss to price");
    s.put(
        "refused.expected",
        "expected volume from {n} to {L} is no range; give 0 or more, lower bound first");
  }
}
