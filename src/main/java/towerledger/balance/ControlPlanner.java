package towerledger.balance;

import java.time.Instant;
import java.time.Month;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalDouble;
import java.util.Set;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.OperatingSettings.BlowdownControl;
import towerledger.balance.facts.SystemFacts;
import towerledger.balance.facts.TowerFacts;
import towerledger.balance.facts.Visit;
import towerledger.balance.facts.WaterSample;

/**
 * Works out, block by block and from what was known by then, at which concentration a sound system
 * would be held. Later samples and settings never reach back.
 */
final class ControlPlanner {

  /** Cycles assumed where nothing else is known; common practice, no source. */
  static final double ASSUMED_CYCLES = 4;

  /**
   * Water in the loop per watt of nominal heat, L/W, where the volume is not known: about 10 US
   * gallons a tower ton; common practice, no source.
   */
  static final double ASSUMED_VOLUME_L_PER_WATT = 10 * 3.785411784 / 4396;

  /**
   * Drift assumed where it is not known: 0.002 % of the circulation, where the older cellular
   * eliminators end and today's begin (CTI, 'Best practices for minimizing drift loss': 0.002 to
   * 0.008 % and 0.0005 to 0.002 %).
   */
  static final double ASSUMED_DRIFT = 0.00002;

  /** Circulation per watt of nominal heat, L/h: 3 gpm a tower ton, the trade's convention. */
  static final double CIRCULATION_L_PER_HOUR_WATT = 3 * 3.785411784 * 60 / 4396;

  private static final double FRESH_MEMORY_BLOCKS = 21 * 4;
  private static final double LONG_MEMORY_BLOCKS = 365 * 4;

  /**
   * Most water that a system can draw, as a multiple of the evaporation at nominal heat: a fill
   * valve stuck wide open passes two to four times the makeup of full load (common practice, no
   * source).
   */
  private static final double MOST_DRAWN = 12;

  private static final double LATENT_J_PER_L = 2.43e6;

  private ControlPlanner() {}

  /** Volume per hour above which a reading of the makeup must be wrong, L. */
  static double mostPerHourL(SystemFacts facts) {
    return MOST_DRAWN * nominalWatts(facts) * 3600 / LATENT_J_PER_L;
  }

  static ControlPlan plan(SystemFacts facts, QuarterDays blocks) {
    int n = blocks.count;
    double[] fresh = freshWater(facts, blocks, FRESH_MEMORY_BLOCKS);
    double[] longFresh = freshWater(facts, blocks, LONG_MEMORY_BLOCKS);
    double[] aim = new double[n];
    double[] target = new double[n];
    BlowdownControl[] control = new BlowdownControl[n];
    List<OperatingSettings> settings = facts.settings();
    int next = 0;
    OperatingSettings now =
        settings.isEmpty()
            ? OperatingSettings.unknownFrom(Instant.EPOCH)
            : OperatingSettings.unknownFrom(settings.get(0).effectiveFrom());
    double drift = ASSUMED_DRIFT;
    for (int b = 0; b < n; b++) {
      Instant end = blocks.at(b + 1.0);
      while (next < settings.size() && settings.get(next).effectiveFrom().isBefore(end)) {
        now = settings.get(next++);
      }
      control[b] = now.blowdownControl().orElse(BlowdownControl.CONDUCTIVITY);
      OptionalDouble cycles = now.targetCycles();
      OptionalDouble setpoint = now.conductivitySetpointUsCm();
      boolean measured = !Double.isNaN(fresh[b]);
      boolean byConductivity = control[b] == BlowdownControl.CONDUCTIVITY;
      double ratio = cycles.orElse(ASSUMED_CYCLES);
      if (setpoint.isPresent() && (byConductivity || cycles.isEmpty())) {
        aim[b] = setpoint.getAsDouble();
        if (!measured) {
          fresh[b] = aim[b] / ratio;
        }
      } else if (!measured) {
        fresh[b] = 1;
        aim[b] = ratio;
      } else {
        aim[b] = ratio * (byConductivity ? longFresh[b] : fresh[b]);
      }
      fresh[b] = Math.min(fresh[b], aim[b] / 1.1);
      boolean known = cycles.isPresent() || setpoint.isPresent();
      target[b] = known ? aim[b] / fresh[b] : Double.NaN;
      if (b == 0 || now.driftFraction().isPresent()) {
        drift = now.driftFraction().orElse(ASSUMED_DRIFT);
      }
    }
    double volume = volume(facts);
    boolean[] idle = idle(facts, blocks);
    boolean[] moved = new boolean[n];
    double[] drained = new double[n];
    for (Visit visit : facts.visits()) {
      double position = blocks.position(visit.at());
      if (position < 0 || position >= n) {
        continue;
      }
      int block = (int) position;
      Set<Visit.Event> events = visit.events();
      moved[block] |=
          events.contains(Visit.Event.SETPOINT_CHANGED)
              || events.contains(Visit.Event.TREATMENT_CHANGED);
      if (visit.drainedLitres().isPresent()) {
        drained[block] += visit.drainedLitres().getAsDouble();
      } else if (events.contains(Visit.Event.BASIN_DRAINED)) {
        drained[block] += 0.8 * volume;
      }
    }
    return new ControlPlan(
        fresh,
        aim,
        target,
        control,
        drift * circulation(facts),
        drained,
        startsUp(idle, drained),
        idle,
        moved,
        volume);
  }

  static double nominalWatts(SystemFacts facts) {
    return facts.towers().stream().mapToDouble(TowerFacts::nominalHeatWatts).sum();
  }

  private static double circulation(SystemFacts facts) {
    return facts.towers().stream()
        .mapToDouble(
            tower ->
                tower.waterFlowKgPerSecond().isPresent()
                    ? tower.waterFlowKgPerSecond().getAsDouble() * 3600
                    : tower.nominalHeatWatts() * CIRCULATION_L_PER_HOUR_WATT)
        .sum();
  }

  private static double volume(SystemFacts facts) {
    if (facts.attributes().volumeLitres().isPresent()) {
      return facts.attributes().volumeLitres().getAsDouble();
    }
    double basins = facts.towers().stream().mapToDouble(t -> t.basinVolumeLitres().orElse(0)).sum();
    return Math.max(1.3 * basins, nominalWatts(facts) * ASSUMED_VOLUME_L_PER_WATT);
  }

  private static boolean[] idle(SystemFacts facts, QuarterDays blocks) {
    boolean[] idle = new boolean[blocks.count];
    if (!facts.attributes().idleMonths().isEmpty()) {
      LocalHours localHours = new LocalHours(facts.zone());
      for (int b = 0; b < blocks.count; b++) {
        Month month = localHours.at(blocks.at(b).getEpochSecond()).getMonth();
        idle[b] = facts.attributes().idleMonths().contains(month);
      }
    }
    return idle;
  }

  /** A system that stands for its idle months may be drained for them and filled as it starts. */
  private static boolean[] startsUp(boolean[] idle, double[] drained) {
    boolean[] startsUp = new boolean[idle.length];
    for (int b = 1; b < idle.length; b++) {
      startsUp[b] = idle[b - 1] && !idle[b] && drained[b] == 0;
    }
    return startsUp;
  }

  /** Makeup conductivity by exponential smoothing of the samples so far; NaN before the first. */
  private static double[] freshWater(SystemFacts facts, QuarterDays blocks, double memoryBlocks) {
    double[] fresh = new double[blocks.count];
    Arrays.fill(fresh, Double.NaN);
    double log = Double.NaN;
    double weight = 0;
    int from = 0;
    double at = 0;
    for (WaterSample sample : facts.samples()) {
      if (sample.makeupConductivityUsCm().isEmpty() || sample.weakerThanMakeup()) {
        continue;
      }
      double position = blocks.position(sample.takenAt());
      if (position >= blocks.count) {
        break;
      }
      double value = Math.log(sample.makeupConductivityUsCm().getAsDouble());
      double kept = weight * Math.exp((at - position) / memoryBlocks);
      fill(fresh, from, (int) Math.max(0, Math.floor(position)), log);
      log = Double.isNaN(log) ? value : (kept * log + value) / (kept + 1);
      weight = kept + 1;
      at = position;
      from = (int) Math.max(0, Math.floor(position));
    }
    fill(fresh, from, blocks.count, log);
    return fresh;
  }

  private static void fill(double[] column, int from, int to, double log) {
    if (!Double.isNaN(log) && from < to) {
      Arrays.fill(column, from, to, Math.exp(log));
    }
  }
}
