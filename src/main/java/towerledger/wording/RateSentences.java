package towerledger.wording;

import java.util.Map;

/** What rates and bills are refused for. */
final class RateSentences {

  private RateSentences() {}

  static void add(Map<String, String> s) {
    part1(s);
    part2(s);
    part3(s);
  }

  private static void part1(Map<String, String> s) {
    s.put(
        "refused.credit-word",
        "evaporation_credit '{t}' is not known; use none, makeup-minus-blowdown, "
            + "credit-meter, percent-of-makeup, engineered or blowdown-as-sewer");
    s.put(
        "refused.percentage",
        "{n} of {n} is outside 0 to 100; give the percentage the utility prints");
    s.put(
        "refused.credit-least",
        "credit_minimum_units of {n} is below 0; give the smallest use that earns the " + "credit");
    s.put(
        "refused.credit-percent",
        "evaporation_credit percent-of-makeup needs credit_percent; give the share of "
            + "makeup the utility deems evaporated, 0 to 100");
    s.put(
        "refused.size-text",
        "meter size '{t}' is not a size in inches; write it as 2, 0.75 or 1 1/2");
    s.put(
        "refused.size-range",
        "meter size of {n} in is outside 0 to {n} in; give the size printed in the "
            + "rate table");
    s.put(
        "refused.size-zero",
        "meter size of {n} mm is not above zero; give the size printed in the rate " + "table");
    s.put("refused.escalation", "escalation of {n} % a year is outside -50 to 100; choose another");
    s.put(
        "refused.projection", "projection over {n} years is outside 1 to 30; choose fewer or more");
    s.put(
        "refused.schedule-credit",
        "schedule {t} bills water, where no evaporation_credit is given; put it on the "
            + "sewer schedule");
    s.put(
        "refused.schedule-empty",
        "schedule {t} has no version; give the rates of at least one effective_from");
    s.put(
        "refused.schedule-twice",
        "schedule {t} has two versions from {d}; keep one or change its effective_from");
    s.put(
        "refused.schedule-no-version",
        "schedule {t} has no version from {d}; add or mend its row in rate_schedules " + "first");
    s.put(
        "refused.charge-twice-of",
        "charge '{t}' of schedule {t} from {d} is given twice, {n} and {n}; keep one " + "amount");
    s.put(
        "refused.blocks-begin",
        "the blocks of schedule {t} from {d} do not begin at 0; add the row with "
            + "from_units 0");
    s.put(
        "refused.blocks-twice",
        "two blocks of schedule {t} from {d} begin at {n} units, at rates {n} and {n}; "
            + "keep one");
  }

  private static void part2(Map<String, String> s) {
    s.put(
        "refused.schedule-service",
        "schedule {t} bills {w}; give the {w} rates a schedule of their own");
    s.put("refused.schedule-of", "schedule {t} from {d}: {s}");
    s.put("refused.charge-name", "a charge has no name; give the one on the bill");
    s.put(
        "refused.block-order",
        "block {n} begins at {n} units, not above block {n} at {n}; put the blocks in "
            + "rising order");
    s.put("refused.from-units", "from_units of {n} is below 0; the first block begins at 0");
    s.put(
        "refused.minimum-charge",
        "minimum_charge of {n} is below 0; leave it empty where there is none");
    s.put(
        "refused.months-per-bill",
        "months_per_bill of {n} is outside 1 to 12; give the months a regular bill " + "covers");
    s.put(
        "refused.rate",
        "rate of {n} is below 0; write a rebate as a charge with a negative amount");
    s.put("refused.first-block", "the first block begins at {n} units; it has to begin at 0");
    s.put("refused.season-text", "months '{t}' cannot be read; write for instance 12-2");
    s.put(
        "refused.season-months",
        "season {n}-{n} is not made of months 1 to 12; write for instance 11-3 for "
            + "November to March");
    s.put(
        "refused.season-half",
        "a season has first_month {n} and last_month {n}; give both or neither");
    s.put("refused.service", "service '{t}' is not known; use water or sewer");
    s.put(
        "refused.sewer-basis",
        "sewer_basis '{t}' is not known; use metered-water, percent-of-water, "
            + "return-meter or winter-average");
    s.put(
        "refused.sewer-percent",
        "sewer_basis percent-of-water needs sewer_percent; give the share of water the "
            + "utility charges sewer on, 0 to 100");
    s.put(
        "refused.sewer-winter",
        "sewer_basis winter-average needs winter_months; give the months that make the "
            + "average, for instance 12-2");
  }

  private static void part3(Map<String, String> s) {
    s.put(
        "refused.sewer-rule",
        "schedule {t} bills water; give sewer_basis, sewer_percent and "
            + "evaporation_credit on the sewer schedule");
    s.put(
        "refused.period",
        "bill period ends {d}, not after its start {d}; give the first day no longer "
            + "included");
    s.put(
        "refused.tower-water",
        "{q} of system {t} is {L}, below 0; correct the readings of the period");
    s.put(
        "refused.usage", "usage of {n} {n} is below 0; a bill counts what went through the meter");
    s.put(
        "refused.bill-ends",
        "{w} bill ends {d}, not after its start {d}; give the first day no longer " + "billed");
    s.put("refused.bill-units", "{w} bill from {d} has {n} units, below 0; give the units charged");
    s.put(
        "refused.bill-credit",
        "{w} bill from {d} has a credit_amount of {n}, below 0; give the credit as a "
            + "positive amount");
    s.put("refused.charge-twice", "charge '{t}' is given twice; keep one amount");
    s.put("refused.charge-twice-size", "charge '{t}' for {t} is given twice; keep one amount");
    s.put(
        "refused.season-gap",
        "no block table holds in month {n}; extend a season or add blocks without one");
    s.put(
        "refused.season-gap-size",
        "no block table for meter size {t} holds in month {n}; extend a season or add "
            + "blocks without one");
    s.put(
        "refused.seasons-meet",
        "two block tables hold in month {n}; make first_month and last_month of the "
            + "seasons meet without overlap");
    s.put(
        "refused.seasons-meet-size",
        "two block tables for meter size {t} hold in month {n}; make first_month and "
            + "last_month of the seasons meet without overlap");
  }
}
