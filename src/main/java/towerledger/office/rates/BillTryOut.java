package towerledger.office.rates;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.time.format.DateTimeParseException;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.office.rates.RatesView.BillText;
import towerledger.office.rates.RatesView.Billed;
import towerledger.office.rates.RatesView.TryOut;
import towerledger.page.FigureTable;
import towerledger.page.TypedNumber;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.Bill;
import towerledger.tariff.Billing;
import towerledger.tariff.MeterSize;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.SiteUse;
import towerledger.tariff.TariffException;
import towerledger.tariff.Usage;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/**
 * Tries a bill out on a schedule, from what somebody typed.
 *
 * @param schedule the schedule
 * @param others schedules that may be billed together with it
 * @param currency currency of the customers billed on it
 */
record BillTryOut(
    RateSchedule schedule,
    List<RateSchedule> others,
    Currency currency,
    Words words,
    FigureText text) {

  private static final int LONGEST_DAYS = 1100;

  /** The form as first seen, a month at the rates in force. */
  TryOut blank(LocalDate today) {
    LocalDate from = today.withDayOfMonth(1).minusMonths(1);
    LocalDate first = schedule.versions().get(0).effectiveFrom();
    RateVersion version =
        schedule.findVersion(today).orElse(schedule.versions().get(schedule.versions().size() - 1));
    LocalDate start = from.isBefore(first) ? first : from;
    return form(
        Map.of(
            "from",
            start.toString(),
            "to",
            start.plusMonths(version.monthsPerBill()).toString(),
            "amount",
            "",
            "unit",
            version.billingUnit().code(),
            "meter",
            version.meterSizes().isEmpty()
                ? ""
                : text.tick(version.meterSizes().get(version.meterSizes().size() / 2).inches()),
            "with",
            ""),
        Map.of(),
        null,
        null);
  }

  /** The form with its bill, or with what is wrong. */
  TryOut of(Map<String, String> typed) {
    Map<String, String> wrong = new LinkedHashMap<>();
    LocalDate from = day("from", typed, wrong);
    LocalDate to = day("to", typed, wrong);
    if (from != null && to != null) {
      if (!to.isAfter(from)) {
        wrong.put("to", words.of("rates.try.order"));
      } else if (to.isAfter(from.plusDays(LONGEST_DAYS))) {
        wrong.put("to", words.of("rates.try.long", LONGEST_DAYS));
      }
    }
    OptionalDouble amount = TypedNumber.find(typed.getOrDefault("amount", ""));
    if (amount.isEmpty()) {
      wrong.put("amount", words.of("field.number"));
    } else if (amount.getAsDouble() < 0 || amount.getAsDouble() > 1e12) {
      wrong.put("amount", words.of("field.range", "0", "1,000,000,000,000"));
    }
    MeterSize meter = meter(typed.getOrDefault("meter", ""), wrong);
    VolumeUnit unit = unit(typed.getOrDefault("unit", ""));
    if (!wrong.isEmpty() || from == null || to == null) {
      return form(typed, wrong, null, null);
    }
    SiteUse use =
        SiteUse.of(from, to, new Usage(BigDecimal.valueOf(amount.orElse(0)), unit))
            .withMeterSize(meter);
    try {
      return form(typed, wrong, null, text(Billing.bill(billed(typed), use, currency)));
    } catch (TariffException | IllegalArgumentException e) {
      return form(
          typed, wrong, words.of("rates.try.trouble", new ReasonText(words, text).say(e)), null);
    }
  }

  private List<RateSchedule> billed(Map<String, String> typed) {
    List<RateSchedule> billed = new ArrayList<>(List.of(schedule));
    others.stream().filter(o -> o.code().equals(typed.get("with"))).forEach(billed::add);
    return billed;
  }

  private @Nullable LocalDate day(
      String name, Map<String, String> typed, Map<String, String> wrong) {
    try {
      return LocalDate.parse(typed.getOrDefault(name, ""));
    } catch (DateTimeParseException e) {
      wrong.put(name, words.of("field.day"));
      return null;
    }
  }

  private @Nullable MeterSize meter(String typed, Map<String, String> wrong) {
    if (typed.isBlank()) {
      return null;
    }
    try {
      return MeterSize.parseInches(typed);
    } catch (IllegalArgumentException e) {
      wrong.put("meter", words.of("rates.try.meter.wrong"));
      return null;
    }
  }

  private VolumeUnit unit(String code) {
    return Arrays.stream(VolumeUnit.values())
        .filter(unit -> unit.code().equals(code))
        .findFirst()
        .orElse(schedule.versions().get(0).billingUnit());
  }

  private TryOut form(
      Map<String, String> typed,
      Map<String, String> wrong,
      @Nullable String trouble,
      @Nullable BillText bill) {
    return new TryOut(
        typed.getOrDefault("from", ""),
        typed.getOrDefault("to", ""),
        typed.getOrDefault("amount", ""),
        typed.getOrDefault("unit", ""),
        Arrays.stream(VolumeUnit.values()).map(VolumeUnit::code).toList(),
        typed.getOrDefault("meter", ""),
        typed.getOrDefault("with", ""),
        others.stream().map(o -> new Billed(o.code(), o.name())).toList(),
        wrong,
        trouble,
        bill);
  }

  private BillText text(Bill bill) {
    List<List<String>> lines = new ArrayList<>();
    bill.lines()
        .forEach(
            line ->
                lines.add(
                    List.of(
                        line.name(),
                        words.of("rates.service." + line.service().code()),
                        line.working(),
                        text.exactMoney(line.amount()))));
    return new BillText(
        words.of("rates.try.says", text.exactMoney(bill.total())),
        new FigureTable(
            List.of(
                words.of("rates.line"),
                words.of("rates.service"),
                words.of("rates.working"),
                words.of("rates.amount")),
            lines),
        bill.notes());
  }
}
