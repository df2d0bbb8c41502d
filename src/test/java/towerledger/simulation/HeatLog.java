package towerledger.simulation;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import towerledger.simulation.EvidencePlan.HeatEvidence;
import towerledger.simulation.Observations.Heat;
import towerledger.simulation.Observations.HeatForm;

/** Heat evidence as a building's automation, an electricity meter or a logbook keeps it. */
final class HeatLog {

  private static final double J_PER_MMBTU = 1.05505585262e9;
  private static final double W_PER_TON = 3516.8528;

  private final WaterRun run;
  private final EvidencePlan plan;
  private final Chance chance;
  private final List<Heat> rows = new ArrayList<>();

  private HeatLog(WaterRun run, EvidencePlan plan, Chance chance) {
    this.run = run;
    this.plan = plan;
    this.chance = chance;
  }

  static List<Heat> of(
      WaterRun run, EvidencePlan plan, Chance chance, LocalDate from, LocalDate toExclusive) {
    HeatLog log = new HeatLog(run, plan, chance);
    ZoneId zone = run.operation().hours().zone();
    HourGrid grid = run.operation().hours().grid();
    HeatEvidence heat = plan.heat();
    if (heat == HeatEvidence.NONE) {
      return List.of();
    }
    if (heat == HeatEvidence.HOURLY_TEMPERATURES) {
      int first = grid.indexOf(from.atStartOfDay(zone).toInstant());
      int last = grid.indexOf(toExclusive.atStartOfDay(zone).toInstant());
      for (int h = first; h < last; h++) {
        log.row(grid, h, h + 1);
      }
      return log.rows;
    }
    LocalDate day = from;
    while (day.isBefore(toExclusive)) {
      LocalDate next =
          switch (heat) {
            case DAILY_HEAT, DAILY_TON_HOURS, DAILY_CHILLER_KWH -> day.plusDays(1);
            case WEEKLY_TON_HOURS -> day.plusDays(7);
            default -> day.plusMonths(1).withDayOfMonth(1);
          };
      if (next.isAfter(toExclusive)) {
        next = toExclusive;
      }
      log.row(
          grid,
          grid.indexOf(day.atStartOfDay(zone).toInstant()),
          grid.indexOf(next.atStartOfDay(zone).toInstant()));
      day = next;
    }
    return log.rows;
  }

  private void row(HourGrid grid, int first, int end) {
    Operation operation = run.operation();
    double heatJ = 0;
    double coolingJ = 0;
    double kwh = 0;
    int running = 0;
    for (int h = first; h < end; h++) {
      double factor = run.heatFactor(h) * plan.heatBias();
      heatJ += operation.heatW(h) * 3600 * factor;
      coolingJ += operation.coolingW(h) * 3600 * factor;
      kwh += operation.chillerKw(h) * factor;
      running += operation.running(h) ? 1 : 0;
    }
    double noise = chance.factor(plan.heatScatter());
    double kwPerTon = run.spec().load().kwPerTon();
    switch (plan.heat()) {
      case DAILY_HEAT ->
          add(grid, first, end, HeatForm.HEAT_REJECTED, heatJ * noise / J_PER_MMBTU, 0, 0, 3);
      case DAILY_TON_HOURS, WEEKLY_TON_HOURS ->
          add(
              grid,
              first,
              end,
              HeatForm.TON_HOURS,
              coolingJ * noise / W_PER_TON / 3600,
              kwPerTon,
              0,
              0);
      case DAILY_CHILLER_KWH, MONTHLY_CHILLER_KWH ->
          add(grid, first, end, HeatForm.CHILLER_KWH, kwh * noise, kwPerTon, 0, 0);
      case MONTHLY_RUNNING_HOURS -> {
        double percent =
            running == 0
                ? 0
                : 100 * heatJ * noise / 3600 / running / run.spec().rating().nominalW();
        // Written down by eye, to the next five percent.
        add(grid, first, end, HeatForm.RUNNING_HOURS, running, 5 * Math.round(percent / 5), 0, 0);
      }
      case HOURLY_TEMPERATURES -> {
        double range = heatJ * noise / 3600 / (run.spec().rating().waterKgS() * Air.CP_WATER);
        double cold = running == 0 ? operation.weather().dryBulbC(first) : operation.coldC(first);
        double gpm = running == 0 ? 0 : run.spec().rating().nominalTons() * 3;
        add(grid, first, end, HeatForm.TEMPERATURES, f(cold + range), f(cold), gpm, 2);
      }
      default -> throw new IllegalStateException("no heat evidence to log");
    }
  }

  private void add(
      HourGrid grid,
      int first,
      int end,
      HeatForm form,
      double one,
      double two,
      double three,
      int decimals) {
    double grain = Math.pow(10, decimals);
    double second = form == HeatForm.TEMPERATURES ? Math.round(two * 100) / 100.0 : two;
    rows.add(
        new Heat(
            grid.at(first),
            grid.at(end),
            form,
            Math.round(one * grain) / grain,
            second,
            Math.round(three)));
  }

  private static double f(double celsius) {
    return celsius * 1.8 + 32;
  }
}
