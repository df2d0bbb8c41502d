package towerledger.simulation.demo;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.quantity.VolumeUnit;
import towerledger.simulation.Chance;
import towerledger.simulation.HourGrid;
import towerledger.simulation.demo.DemoTariffs.Block;
import towerledger.simulation.demo.DemoTariffs.Charge;
import towerledger.simulation.demo.DemoTariffs.Schedule;

/** Rate schedules and utility bills as files. */
final class BillFiles {

  private final DemoBundle bundle;
  private final CsvFolder csv;

  BillFiles(DemoBundle bundle, CsvFolder csv) {
    this.bundle = bundle;
    this.csv = csv;
  }

  void write() {
    csv.write(
        "rate_schedules.csv",
        "schedule,service,effective_from,billing_unit,name,months_per_bill,minimum_charge,"
            + "surcharge_percent,tax_percent,sewer_basis,sewer_percent,winter_months,"
            + "evaporation_credit,credit_percent,credit_minimum_units,credit_cap_percent,"
            + "credit_deadline",
        rows -> {
          for (Schedule s : DemoTariffs.all()) {
            rows.add(
                s.code(),
                s.service(),
                s.from(),
                s.unit(),
                s.name(),
                s.monthsPerBill(),
                s.minimum(),
                s.surchargePercent(),
                s.taxPercent(),
                s.sewerBasis(),
                s.sewerPercent(),
                s.winterMonths(),
                s.credit(),
                s.creditPercent(),
                s.creditMinimum(),
                s.creditCap(),
                s.creditDeadline());
          }
        });
    csv.write(
        "rate_charges.csv",
        "schedule,effective_from,charge,meter_size_in,amount",
        rows -> {
          for (Schedule s : DemoTariffs.all()) {
            for (Charge c : s.charges()) {
              rows.add(s.code(), s.from(), c.name(), c.meterIn(), c.amount());
            }
          }
        });
    csv.write(
        "rate_blocks.csv",
        "schedule,effective_from,first_month,last_month,meter_size_in,from_units,rate",
        rows -> {
          for (Schedule s : DemoTariffs.all()) {
            for (Block b : s.blocks()) {
              rows.add(
                  s.code(),
                  s.from(),
                  b.firstMonth() == 0 ? null : b.firstMonth(),
                  b.lastMonth() == 0 ? null : b.lastMonth(),
                  null,
                  b.fromUnits(),
                  b.rate());
            }
          }
        });
    csv.write(
        "utility_bills.csv",
        "site,service,from,to,units,amount,credit_amount,estimated",
        rows -> DemoBook.sites().forEach(site -> bills(site, rows)));
  }

  private void bills(DemoSite site, CsvFolder.Rows rows) {
    Chance chance = new Chance(7).branch("bills " + site.code());
    int months = DemoTariffs.inForce(site.waterSchedule(), DemoBook.FROM).monthsPerBill();
    BigDecimal owed = BigDecimal.ZERO;
    for (LocalDate from = DemoBook.FROM;
        from.isBefore(DemoBook.TO);
        from = from.plusMonths(months)) {
      LocalDate to = from.plusMonths(months);
      double litres = otherUse(site, from, to, chance) + makeup(site, from, to);
      Schedule water = DemoTariffs.inForce(site.waterSchedule(), to.minusDays(1));
      double unitL = VolumeUnit.ofCode(water.unit()).litres();
      BigDecimal exact = BigDecimal.valueOf(litres / unitL).add(owed);
      BigDecimal units = exact.setScale(0, RoundingMode.DOWN);
      owed = exact.subtract(units);
      rows.add(
          site.code(),
          "water",
          from,
          to,
          units,
          DemoTariffs.amount(water, site.serviceMeterIn(), units, from.getMonthValue()),
          null,
          false);
      String sewerCode = site.sewerSchedule();
      if (sewerCode == null) {
        continue;
      }
      Schedule sewer = DemoTariffs.inForce(sewerCode, to.minusDays(1));
      if ("winter-average".equals(sewer.sewerBasis())) {
        // The winter before the record is not known here, so no sewer bill is invented.
        continue;
      }
      BigDecimal credited = credit(site, sewer, from, to, unitL, units);
      BigDecimal gross =
          DemoTariffs.amount(sewer, site.serviceMeterIn(), units, from.getMonthValue());
      @Nullable BigDecimal creditAmount = null;
      BigDecimal net = gross;
      if (credited != null && claimed(site, from)) {
        net =
            DemoTariffs.amount(
                sewer, site.serviceMeterIn(), units.subtract(credited), from.getMonthValue());
        creditAmount = gross.subtract(net);
      }
      rows.add(site.code(), "sewer", from, to, units, net, creditAmount, false);
    }
  }

  /** Two sites claim every month, one forgot the first half year, the food plant every month. */
  private static boolean claimed(DemoSite site, LocalDate from) {
    return switch (site.code()) {
      case "MMC-CAMPUS" -> from.isAfter(LocalDate.of(2025, 10, 15));
      case "NLR-MESA", "VOF-PLANT" -> true;
      default -> false;
    };
  }

  /** Units that never reached the sewer, as the site claims them; null where no rule allows it. */
  private @Nullable BigDecimal credit(
      DemoSite site,
      Schedule sewer,
      LocalDate from,
      LocalDate to,
      double unitL,
      BigDecimal billed) {
    double litres =
        switch (sewer.credit() == null ? "none" : sewer.credit()) {
          case "makeup-minus-blowdown" ->
              metered(site, from, to, true) - metered(site, from, to, false);
          case "percent-of-makeup" -> 0.70 * metered(site, from, to, true);
          default -> 0;
        };
    if (sewer.creditCap() != null) {
      litres =
          Math.min(litres, sewer.creditCap().doubleValue() / 100 * metered(site, from, to, true));
    }
    BigDecimal units = BigDecimal.valueOf(litres / unitL).setScale(0, RoundingMode.DOWN);
    BigDecimal least = sewer.creditMinimum() == null ? BigDecimal.ONE : sewer.creditMinimum();
    return units.compareTo(least) < 0 ? null : units;
  }

  private double otherUse(DemoSite site, LocalDate from, LocalDate to, Chance chance) {
    long days = to.toEpochDay() - from.toEpochDay();
    double season = 1 + 0.10 * Math.sin((from.getDayOfYear() + 15 - 105) / 365.0 * 2 * Math.PI);
    return site.otherGalPerDay() * 3.785411784 * days * season * chance.factor(0.04);
  }

  /** Makeup of the site's systems: what the service pipe carried. */
  private double makeup(DemoSite site, LocalDate from, LocalDate to) {
    double litres = 0;
    for (DemoRun run : runsOf(site)) {
      HourGrid grid = run.water().operation().hours().grid();
      int end = grid.indexOf(to.atStartOfDay(site.zone()).toInstant());
      for (int h = grid.indexOf(from.atStartOfDay(site.zone()).toInstant()); h < end; h++) {
        litres += run.water().makeupL(h);
      }
    }
    return litres;
  }

  /** Makeup or bleed of the systems that meter both, or the makeup alone where none is asked. */
  private double metered(DemoSite site, LocalDate from, LocalDate to, boolean makeup) {
    double litres = 0;
    boolean both = "MB-SEWER".equals(site.sewerSchedule());
    for (DemoRun run : runsOf(site)) {
      if (run.system().evidence().meter() == null
          || (both && !run.system().evidence().bleedMeter())) {
        continue;
      }
      HourGrid grid = run.water().operation().hours().grid();
      int end = grid.indexOf(to.atStartOfDay(site.zone()).toInstant());
      for (int h = grid.indexOf(from.atStartOfDay(site.zone()).toInstant()); h < end; h++) {
        litres += makeup ? run.water().shownMakeupL(h) : run.water().shownBleedL(h);
      }
    }
    return litres;
  }

  private List<DemoRun> runsOf(DemoSite site) {
    return bundle.runs().stream().filter(run -> run.system().site().equals(site.code())).toList();
  }
}
