package towerledger.wording;

import java.util.Map;

/** What checked bills, claims and rates come with in words. */
final class MoneySentences {

  private static final String USAGE = "{n} {n} billed, {1} by the readings";

  private MoneySentences() {}

  static void add(Map<String, String> s) {
    usage(s);
    amounts(s);
    credits(s);
    claims(s);
    rates(s);
  }

  private static void usage(Map<String, String> s) {
    s.put(
        "note.bill.not-checked",
        "no readings of a service meter enclose these days; the units are not checked");
    s.put(
        "note.bill.own-makeup",
        "the site's whole use is not known; the towers' own makeup stands for it");
    s.put(
        "note.bill.by-months",
        "{n}: makeup by the ledger's months, since its readings do not enclose the bill");
    s.put(
        "note.bill.estimated",
        USAGE + "; the read was estimated and the next actual read should settle it");
    s.put("note.bill.times", USAGE + ", {n} times as much: {s}");
    s.put(
        "note.bill.usage",
        USAGE + "; compare the register on the bill with a photograph of the dial");
    s.put("note.times.10", "a zero too many, or a meter multiplier of 10");
    s.put("note.times.100", "two zeros too many, or a meter multiplier of 100");
    s.put("note.times.1000", "three zeros too many, or a meter multiplier of 1000");
    s.put("note.times.tenth", "a zero too few, or a meter multiplier of 10 left out");
    s.put("note.times.hundredth", "two zeros too few, or a meter multiplier of 100 left out");
    s.put("note.times.thousandth", "three zeros too few, or a meter multiplier of 1000 left out");
    s.put("note.times.kgal-as-ccf", "hundreds of cubic feet taken for thousands of gallons");
    s.put("note.times.ccf-as-kgal", "thousands of gallons taken for hundreds of cubic feet");
    s.put("note.times.ft3-as-gal", "cubic feet taken for gallons");
    s.put("note.times.gal-as-ft3", "gallons taken for cubic feet");
    s.put("note.times.double", "counted twice, or a compound meter read twice");
    s.put("note.times.half", "half of it left out, or one register of a compound meter not read");
  }

  private static void amounts(Map<String, String> s) {
    s.put("note.amount.credit", "the amount is lower by {2}, which is the evaporation credit due");
    s.put(
        "note.amount.unexplained",
        "{2} billed, {2} off its own units at schedule {n}; compare the lines of the bill with the"
            + " schedule");
    s.put(
        "note.amount.not-prorated",
        "the amount is that of the rates from {d} for the whole period, though rates changed inside"
            + " it");
    s.put(
        "note.amount.wrong-rate",
        "the amount is that of the rates from {d} for the whole period, which were not in force");
    s.put(
        "note.amount.size-unknown", "the amount is that of a meter of {t}, not of an unknown size");
    s.put("note.amount.size", "the amount is that of a meter of {t}, not of {t}");
    s.put("note.bill.no-credit", "no evaporation credit on the bill; {2} is due");
    s.put("note.bill.other-credit", "evaporation credit of {2} on the bill; {2} is due");
    s.put(
        "note.price.own",
        "priced on the towers' own water alone, since no more of the site's use is known; with"
            + " rising blocks the true price is higher");
    s.put(
        "note.price.more",
        "the losses exceed the site's metered use by {L}; only the use is priced");
  }

  private static void credits(Map<String, String> s) {
    s.put("note.credit", "evaporation credit: {s}");
    s.put(
        "note.credit.minimum", "the site used less than the rule's minimum, so no credit is given");
    s.put(
        "note.credit.site",
        "the towers' credit exceeds the water of the whole site and is limited to it; check which"
            + " meter feeds the towers");
    s.put(
        "note.credit.not-measured",
        "a meter or estimate the rule needs is missing, so nothing is credited");
    s.put(
        "note.credit.unmetered",
        "no meter shows the makeup, so what evaporated is not claimed before the water is metered");
    s.put(
        "note.credit.blowdown",
        "blowdown exceeds makeup, so nothing is credited; check both meters");
    s.put("note.credit.makeup", "more was counted than the makeup; limited to the makeup");
    s.put(
        "note.credit.held",
        "the meters count more than evaporation and drift can be; what lies beyond the model's upper"
            + " bound (overflow, leaks) is disclosed and not claimed");
    s.put(
        "note.credit.above",
        "the utility's figure is above the model's upper bound of evaporation and drift; disclosed");
    s.put(
        "note.credit.unchecked",
        "evaporation and drift could not be modelled, so the meters stand unchecked");
    s.put("note.credit.cap", "limited to the cap of the rule");
  }

  private static void claims(Map<String, String> s) {
    s.put("note.claim.evaporation", "evaporation and drift of {L}, heat evidence {t}");
    s.put("note.claim.cycles", "{2} cycles of concentration");
    s.put("note.claim.beyond", "{n}: {n} {n} lie beyond the model's upper bound");
    s.put(
        "note.claim.back",
        "the bill gave {2} more than the rule allows; the difference is not claimed and may be asked"
            + " back");
    s.put("note.claim.meter", "meter {t} ({w})");
    s.put("note.claim.samples", "{n}, water samples");
    s.put("note.claim.model", "{n}, model {n}");
    s.put("note.claim.read", "{n} × 1 {u}, {w}");
    s.put("note.claim.read-times", "{n} × {n} {u}, {w}");
  }

  private static void rates(Map<String, String> s) {
    s.put(
        "note.rates.no-water",
        "site {n} names no water schedule that is kept; set water_schedule and load its rates");
    s.put(
        "note.rates.no-sewer",
        "site {n} names no sewer schedule that is kept; set sewer_schedule and load its rates");
    s.put("note.rates.no-credit", "schedule {n} gives no evaporation credit on {d}");
    s.put("note.rates.none", "schedule {n} has no rates on {d}; add the version that was in force");
    s.put(
        "note.rates.before",
        "schedule {n} has no rates before {d} and the bill begins {d}; add the version that was in"
            + " force then");
    s.put(
        "note.rates.sewer-by",
        "schedule {n} bills sewer by {t}, which is not known for the bill from {d}; give it");
    s.put(
        "note.rates.size",
        "{t} of schedule {n} from {d} depends on the meter size and has none for {t}; give one of"
            + " {t}");
    s.put(
        "note.rates.scaled",
        "{n} days are {n} regular bills of schedule {n} ({n} months per bill); charges, minimum and"
            + " block limits are scaled by that");
  }
}
