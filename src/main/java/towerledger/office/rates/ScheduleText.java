package towerledger.office.rates;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.office.rates.RatesView.Blocks;
import towerledger.office.rates.RatesView.Fact;
import towerledger.page.FigureTable;
import towerledger.tariff.CreditRule;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Season;
import towerledger.tariff.Service;
import towerledger.tariff.SewerRule;
import towerledger.wording.Words;

/**
 * Says the rates of a schedule in words and tables.
 *
 * @param currency ISO code of its money
 */
record ScheduleText(Words words, FigureText text, String currency) {

  /** Since when the schedule holds, in a sentence. */
  String says(RateSchedule schedule, LocalDate today) {
    RateVersion first = schedule.versions().get(0);
    return schedule
        .findVersion(today)
        .map(
            version ->
                words.of(
                    "rates.says",
                    schedule.name(),
                    FigureText.unitName(version.billingUnit()),
                    text.day(version.effectiveFrom())))
        .orElseGet(
            () ->
                words.of(
                    "rates.says.not-yet",
                    schedule.name(),
                    FigureText.unitName(first.billingUnit())));
  }

  List<RatesView.Version> versions(RateSchedule schedule, LocalDate today) {
    List<RatesView.Version> said = new ArrayList<>();
    List<RateVersion> versions = schedule.versions();
    RateVersion inForce = schedule.findVersion(today).orElse(null);
    for (int i = versions.size() - 1; i >= 0; i--) {
      RateVersion version = versions.get(i);
      LocalDate next = i + 1 < versions.size() ? versions.get(i + 1).effectiveFrom() : null;
      said.add(
          new RatesView.Version(
              version.effectiveFrom().toString(),
              holds(version.effectiveFrom(), next),
              version.equals(inForce),
              facts(schedule.service(), version),
              charges(version),
              version.tables().stream().map(table -> blocks(table, version)).toList()));
    }
    return said;
  }

  private String holds(LocalDate from, @Nullable LocalDate next) {
    return next == null
        ? words.of("rates.holds.since", text.day(from))
        : words.of("rates.holds.between", text.day(from), text.day(next.minusDays(1)));
  }

  private List<Fact> facts(Service service, RateVersion version) {
    List<Fact> facts = new ArrayList<>();
    facts.add(fact("unit", FigureText.unitName(version.billingUnit())));
    facts.add(fact("months", words.of("rates.months.of", version.monthsPerBill())));
    if (version.minimumCharge() != null) {
      facts.add(fact("minimum", amount(version.minimumCharge())));
    }
    if (version.surchargeShare().signum() != 0) {
      facts.add(fact("surcharge", percent(version.surchargeShare())));
    }
    if (version.taxShare().signum() != 0) {
      facts.add(fact("tax", percent(version.taxShare())));
    }
    if (service == Service.SEWER) {
      facts.add(fact("sewer", sewer(version.sewer())));
      facts.add(fact("credit", credit(version.credit(), version)));
    }
    return facts;
  }

  private String sewer(SewerRule rule) {
    String basis = words.of("rates.sewer." + rule.basis().code());
    if (rule.share() != null) {
      return percent(rule.share()) + " " + basis;
    }
    return rule.winterMonths() == null
        ? basis
        : words.of("rates.during", basis, season(rule.winterMonths()));
  }

  private String credit(CreditRule rule, RateVersion version) {
    List<String> parts = new ArrayList<>();
    String method = words.of("rates.credit." + rule.method().code());
    parts.add(rule.share() == null ? method : percent(rule.share()) + " " + method);
    if (rule.minimumUnits() != null) {
      parts.add(
          words.of(
              "rates.credit.minimum",
              amount(rule.minimumUnits()) + " " + FigureText.unitName(version.billingUnit())));
    }
    if (rule.capShare() != null) {
      parts.add(words.of("rates.credit.cap", percent(rule.capShare())));
    }
    if (!rule.deadline().isBlank()) {
      parts.add(rule.deadline());
    }
    return String.join("; ", parts);
  }

  private @Nullable FigureTable charges(RateVersion version) {
    if (version.charges().isEmpty()) {
      return null;
    }
    return new FigureTable(
        List.of(
            words.of("rates.charge"),
            words.of("rates.meter"),
            words.of("rates.per-bill", currency)),
        version.charges().stream()
            .map(charge -> List.of(charge.name(), meter(charge.meterSize()), rate(charge.amount())))
            .toList());
  }

  private Blocks blocks(RateVersion.BlockTable table, RateVersion version) {
    String unit = FigureText.unitName(version.billingUnit());
    List<String> holds = new ArrayList<>();
    if (table.season() != null) {
      holds.add(season(table.season()));
    }
    if (table.meterSize() != null) {
      holds.add(meter(table.meterSize()));
    }
    return new Blocks(
        holds.isEmpty()
            ? words.of("rates.blocks")
            : words.of("rates.during", words.of("rates.blocks"), String.join(", ", holds)),
        new FigureTable(
            List.of(words.of("rates.above", unit), words.of("rates.rate", unit, currency)),
            table.blocks().stream()
                .map(block -> List.of(amount(block.fromUnits()), rate(block.rate())))
                .toList()));
  }

  private String season(Season season) {
    return season.firstMonth() == season.lastMonth()
        ? month(season.firstMonth())
        : month(season.firstMonth()) + "–" + month(season.lastMonth());
  }

  private String month(int month) {
    return java.time.Month.of(month)
        .getDisplayName(java.time.format.TextStyle.SHORT_STANDALONE, text.locale());
  }

  private String meter(@Nullable MeterSize size) {
    return size == null ? words.of("rates.every-meter") : text.tick(size.inches()) + "\u00a0in";
  }

  private Fact fact(String key, String value) {
    return new Fact(words.of("rates." + key), value);
  }

  private String amount(BigDecimal amount) {
    return text.decimals(amount.doubleValue(), Math.max(0, amount.stripTrailingZeros().scale()));
  }

  private String rate(BigDecimal rate) {
    return text.decimals(rate.doubleValue(), Math.max(2, rate.stripTrailingZeros().scale()));
  }

  private String percent(BigDecimal share) {
    return amount(share.movePointRight(2)) + "\u00a0%";
  }
}
