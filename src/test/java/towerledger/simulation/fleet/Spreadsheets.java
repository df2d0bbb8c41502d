package towerledger.simulation.fleet;

import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.CalendarMonth;
import towerledger.quantity.Span;
import towerledger.quantity.Units;
import towerledger.simulation.Observations.Heat;
import towerledger.simulation.PlantSpec;

/**
 * What a spreadsheet makes of the same readings. Volumes go to months by days. The rule of thumb
 * (common practice, no single source) expects 1.8 gallons of evaporation a tower ton-hour and bleed
 * by the target cycles, and cries at 20 % above; without heat evidence it takes half of nominal
 * over the hours of use. The other compares with the same month of the year before.
 */
final class Spreadsheets {

  private static final double THRESHOLD = 1.20;

  private final FleetMember member;
  private final ZoneId zone;
  private final List<YearMonth> months;

  Spreadsheets(FleetMember member, List<YearMonth> months) {
    this.member = member;
    this.zone = member.facts().zone();
    this.months = months;
  }

  List<Boolean> ruleOfThumb() {
    List<Boolean> flags = new ArrayList<>();
    double cycles = member.spec().bleed().targetCycles();
    for (YearMonth month : months) {
      double tonHours = tonHours(month);
      double expected = 1.8 * Units.LITRES_PER_US_GALLON * tonHours * cycles / (cycles - 1);
      double makeup = makeup(month);
      flags.add(expected > 0 && makeup > THRESHOLD * expected);
    }
    return flags;
  }

  List<Boolean> lastYear() {
    List<Boolean> flags = new ArrayList<>();
    for (YearMonth month : months) {
      YearMonth before = month.minusYears(1);
      double then = months.contains(before) ? makeup(before) : 0;
      flags.add(then > 0 && makeup(month) > THRESHOLD * then);
    }
    return flags;
  }

  private double makeup(YearMonth month) {
    Span span = CalendarMonth.of(month, zone).span();
    double litres = 0;
    for (MeterFacts meter : member.facts().meters()) {
      if (meter.role() == MeterFacts.Role.MAKEUP) {
        for (RegisterVolume volume : meter.registers()) {
          litres += volume.litres() * overlap(volume.span(), span);
        }
      }
    }
    return litres;
  }

  /** Part of a span that lies in the month. */
  private static double overlap(Span of, Span month) {
    long start =
        Math.max(of.startInclusive().getEpochSecond(), month.startInclusive().getEpochSecond());
    long end = Math.min(of.endExclusive().getEpochSecond(), month.endExclusive().getEpochSecond());
    return Math.max(0, end - start) / (of.hours() * 3600);
  }

  private double tonHours(YearMonth month) {
    Span span = CalendarMonth.of(month, zone).span();
    PlantSpec spec = member.spec();
    if (member.seen().heats().isEmpty()) {
      return 0.5 * spec.rating().nominalTons() * hoursOfUse(month);
    }
    double joules = 0;
    for (Heat heat : member.seen().heats()) {
      joules += joules(heat, spec) * overlap(Span.of(heat.start(), heat.end()), span);
    }
    return joules / (Units.WATTS_PER_TOWER_TON * 3600);
  }

  private static double joules(Heat heat, PlantSpec spec) {
    double hours = (heat.end().getEpochSecond() - heat.start().getEpochSecond()) / 3600.0;
    return switch (heat.form()) {
      case HEAT_REJECTED -> heat.first() * 1e6 * Units.JOULES_PER_BTU;
      case TON_HOURS -> {
        double compressor = spec.load().chiller() ? 1 + heat.second() / 3.51685 : 1;
        yield heat.first() * Units.JOULES_PER_TON_HOUR * compressor;
      }
      case CHILLER_KWH ->
          heat.first() / heat.second() * Units.JOULES_PER_TON_HOUR
              + heat.first() * Units.JOULES_PER_KWH;
      case RUNNING_HOURS ->
          heat.first()
              * 3600
              * heat.second()
              / 100
              * spec.rating().nominalTons()
              * Units.WATTS_PER_TOWER_TON;
      case TEMPERATURES ->
          heat.third()
              * Units.LITRES_PER_US_GALLON
              / 60
              * 4186
              * (heat.first() - heat.second())
              / 1.8
              * hours
              * 3600;
    };
  }

  private double hoursOfUse(YearMonth month) {
    double hours = 0;
    for (LocalDate day = month.atDay(1);
        !day.isAfter(month.atEndOfMonth());
        day = day.plusDays(1)) {
      Instant noon = day.atTime(12, 0).atZone(zone).toInstant();
      if (!member.spec().basin().idle(noon.atZone(zone).getMonthValue())) {
        hours +=
            switch (member.spec().load().use()) {
              case OFFICE, SCHOOL -> day.getDayOfWeek().getValue() < 6 ? 12 : 0;
              case RETAIL -> 13;
              case TWO_SHIFTS -> day.getDayOfWeek().getValue() < 7 ? 16 : 0;
              default -> 24;
            };
      }
    }
    return hours;
  }
}
