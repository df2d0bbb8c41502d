package towerledger.balance;

import java.time.Duration;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.OperatingSettings;
import towerledger.balance.facts.OperatingSettings.BlowdownControl;
import towerledger.balance.facts.OperatingSettings.LevelControl;
import towerledger.balance.facts.SystemFacts;

/**
 * What the shape of the day says where the makeup is logged: a leak that never rests flows at night
 * and while the tower stands, a hose in working hours, a basin that runs over at the stop in the
 * hours after it, a valve stuck open at all hours alike. Each story foretells the figures of a
 * {@link DayProfile} from how a sound system of this model would spread its flow and how its own
 * loss would; how far this tower's days differ from the model's is learned along each story.
 *
 * <p>Totals are weighed elsewhere: here only shares count, so that no litre speaks twice.
 */
final class DayShapes {

  /** Deviation of the sound figures from the model's where heat is told by the hour. */
  private static final double[] HOURLY = {0.10, 0.05, 0.03};

  /** The same where the day is spread by the told use or hours of the plant. */
  private static final double[] TOLD = {0.2, 0.12, 0.06};

  /** The same where nobody told when the plant runs. */
  private static final double[] UNTOLD = {0.5, 0.4, 0.3};

  /** How much wider a day scatters whose model follows other hours than the plant. */
  private static final double UNTOLD_SCATTER = 1.25;

  /** Bleeds that flow on while the tower stands: what flows then need not be a leak. */
  private static final Set<BlowdownControl> BY_CLOCK =
      EnumSet.of(BlowdownControl.TIMER, BlowdownControl.NONE);

  private static final Duration BY_THE_HOUR = Duration.ofHours(3);

  /**
   * Scatter of the sound figures from one stretch to the next. Twice what one stretch strays by: a
   * season goes on straying to the same side, and what it says again is no new evidence.
   */
  private static final double[] SCATTER = {0.10, 0.06, 0.03};

  /** Wander of the sound figures in a month; a judgement. */
  private static final double[] WANDER = {0.03, 0.02, 0.01};

  /** Part of the loop's water by which the level may differ over hours: floats, and switches. */
  private static final double FLOAT_LEVEL = 0.004;

  private static final double SWITCH_LEVEL = 0.02;

  private static final int FLOAT_HOURS = 4;
  private static final int SWITCH_HOURS = 8;

  /** Deviation of the habit above which a figure only teaches. */
  private static final double KNOWN = 0.25;

  private static final double BLUNDER_ODDS = 0.05;
  private static final double BLUNDER = 0.3;

  /** How far the loss of one story may stray from its shape, as a part of it. */
  private static final double LOOSE = 0.15;

  /** The same where it begins or ends: a median sees all of it or nothing. */
  private static final double LOOSE_AT_ONSET = 1;

  /** Lowest mean flow whose shape says anything, as a part of the reference evaporation. */
  private static final double LEAST_FLOW = 0.05;

  /**
   * One logged period.
   *
   * @param measured figures of the meter; NaN where not known
   * @param noise variance of each figure from one stretch to the next
   * @param sound figures of the sound model
   * @param loss by shape of the loss, its figures
   * @param passing by number of the response, figures of the whole flow where fill passes; null
   *     elsewhere
   */
  private record Day(
      double[] measured,
      double[] noise,
      double[] sound,
      double[][] loss,
      double @Nullable [] @Nullable [] passing) {}

  private final List<Response> responses;
  private final LackedWater lacked;
  private final @Nullable Day[] days;
  private final double[] unknown;
  private final boolean none;

  private DayShapes(
      List<Response> responses, LackedWater lacked, @Nullable Day[] days, double[] unknown) {
    this.responses = responses;
    this.lacked = lacked;
    this.days = days;
    this.unknown = unknown;
    this.none = Arrays.stream(days).allMatch(Objects::isNull);
  }

  /** The shapes of a system's logged periods; without a logger there are none. */
  static DayShapes of(
      SystemFacts facts,
      SystemHours hours,
      ControlPlan plan,
      MeteredWater makeup,
      double[] logged,
      double[] sound,
      List<Period> periods,
      List<Response> responses,
      LackedWater lacked,
      double referencePerHourL) {
    @Nullable Day[] days = new Day[periods.size()];
    double[] unknown = unknown(facts);
    if (logged.length > 0) {
      new Reader(facts, hours, plan, responses, logged, sound, referencePerHourL, unknown == UNTOLD)
          .read(periods, makeup, days);
    }
    return new DayShapes(responses, lacked, days, unknown);
  }

  private static double[] unknown(SystemFacts facts) {
    boolean byClock =
        facts.settings().stream()
            .map(OperatingSettings::blowdownControl)
            .anyMatch(control -> control.filter(BY_CLOCK::contains).isPresent());
    if (byClock) {
      return UNTOLD;
    }
    if (facts.heat().stream().anyMatch(h -> h.span().duration().compareTo(BY_THE_HOUR) <= 0)) {
      return HOURLY;
    }
    boolean told =
        facts.attributes().occupiedFrom().isPresent()
            || facts.attributes().buildingUse().isPresent();
    return told ? TOLD : UNTOLD;
  }

  /** The habit of a tower of which nothing is known yet; null where nothing is logged. */
  @Nullable DayHabit unknown() {
    if (none) {
      return null;
    }
    DayHabit habit = new DayHabit();
    for (int f = 0; f < DayProfile.FIGURES; f++) {
      habit.widen(f, unknown[f] * unknown[f]);
    }
    return habit;
  }

  /** Weighs a story by the shape of one period; a period without a shape says nothing. */
  void weigh(Hypothesis h, int p, Period period) {
    DayHabit habit = h.days;
    if (habit == null) {
      return;
    }
    double months = period.days() / 30.4;
    for (int f = 0; f < DayProfile.FIGURES; f++) {
      habit.widen(f, WANDER[f] * WANDER[f] * months);
    }
    Day day = days[p];
    if (day == null) {
      return;
    }
    int number = h.responseIn(p);
    Response response = responses.get(number);
    double part = h.partIn(p);
    double scale = Math.exp(h.load());
    double drawn = responses.get(h.way).makeup[p];
    double base = lacked.makeup(h, p, scale * drawn);
    double sound = Math.max(1, scale * drawn + base);
    double clocked = h.way == 0 ? 0 : Math.max(0, drawn - responses.get(0).makeup[p]) / drawn;
    double lost = part * scale * response.lost[p] * response.lossFactor(h.size());
    double added = response.makeup[p] - responses.get(0).makeup[p];
    double whole =
        Math.max(
            sound * 0.2,
            scale * (drawn + part * Response.grown(added, h.size(), response.makeupBySize(p)))
                + base);
    double lostPart = Math.min(0.98, lost / Math.max(whole, lost));
    double[] loss = day.loss[response.signature.shape().ordinal()];
    double @Nullable [] passing =
        day.passing == null || number >= day.passing.length ? null : day.passing[number];
    for (int f = 0; f < DayProfile.FIGURES; f++) {
      if (Double.isNaN(day.measured[f])) {
        continue;
      }
      double plain = day.sound[f] + habit.mean(f);
      // What a clock bleeds beyond the load flows day and night.
      plain += clocked * (day.loss[Signature.Shape.BASIN_ALWAYS.ordinal()][f] - plain);
      double effect;
      double slope = (1 - lostPart) * (1 - clocked);
      if (passing != null) {
        effect = part * (passing[f] - day.sound[f]) - lostPart * habit.mean(f);
      } else {
        effect = lostPart * (loss[f] - plain);
      }
      double loose = (h.turnsIn(p) ? LOOSE_AT_ONSET : LOOSE) * effect;
      boolean known = habit.variance(f) < KNOWN * KNOWN;
      double likely =
          habit.update(
              f,
              day.measured[f] - plain - effect,
              slope,
              day.noise[f] + loose * loose,
              BLUNDER_ODDS,
              BLUNDER * BLUNDER);
      // A day of which nothing is known yet teaches and does not judge.
      h.logWeight += known ? likely : 0;
    }
  }

  /** Reads the figures of every logged period in one pass over the hours. */
  private static final class Reader {

    private final DayHours kinds;
    private final List<Response> responses;
    private final double[] logged;
    private final double referencePerHourL;
    private final boolean untold;
    private final int window;
    private final double levelL;
    private final double[] flow;
    private final double[] load;
    private final double[] scratch;

    Reader(
        SystemFacts facts,
        SystemHours hours,
        ControlPlan plan,
        List<Response> responses,
        double[] logged,
        double[] sound,
        double referencePerHourL,
        boolean untold) {
      this.untold = untold;
      this.responses = responses;
      this.logged = logged;
      this.referencePerHourL = referencePerHourL;
      kinds = DayHours.of(hours, facts.zone());
      boolean floats =
          !facts.settings().isEmpty()
              && facts.settings().get(0).levelControl().orElse(LevelControl.OTHER)
                  == LevelControl.MECHANICAL_FLOAT;
      window = floats ? FLOAT_HOURS : SWITCH_HOURS;
      levelL = (floats ? FLOAT_LEVEL : SWITCH_LEVEL) * plan.volumeL();
      load = hours.load();
      flow = sound;
      scratch = new double[flow.length];
    }

    void read(List<Period> periods, MeteredWater makeup, @Nullable Day[] days) {
      for (int p = 0; p < days.length; p++) {
        Period period = periods.get(p);
        if (makeup.byInterval(period.from(), period.to())) {
          int from = (int) Math.round(period.from() * QuarterDays.HOURS);
          int to = (int) Math.round(period.to() * QuarterDays.HOURS);
          days[p] = day(from, Math.min(to, flow.length));
        }
      }
    }

    private @Nullable Day day(int from, int to) {
      double total = 0;
      for (int h = from; h < to; h++) {
        total += logged[h];
      }
      double mean = total / (to - from);
      if (!(mean > LEAST_FLOW * referencePerHourL)) {
        return null;
      }
      double[] measured = new double[DayProfile.FIGURES];
      double[] sound = new double[DayProfile.FIGURES];
      DayProfile.of(logged, kinds, from, to, window, measured);
      DayProfile.of(flow, kinds, from, to, window, sound);
      double[] noise = new double[DayProfile.FIGURES];
      for (int f = 0; f < noise.length; f++) {
        double scatter = untold ? UNTOLD_SCATTER * SCATTER[f] : SCATTER[f];
        noise[f] = scatter * scatter;
        if (Double.isNaN(sound[f])) {
          measured[f] = Double.NaN;
        }
      }
      double level = levelL / window / mean;
      noise[DayProfile.FLOOR] += level * level;
      return new Day(measured, noise, sound, losses(from, to, sound), passing(from, to));
    }

    /** By shape, how the loss itself is spread: a steady rate where and while it flows. */
    private double[][] losses(int from, int to, double[] sound) {
      double running = 0;
      double runWork = 0;
      double runEdge = 0;
      double work = 0;
      double edges = 0;
      double stops = 0;
      double stopsAtWork = 0;
      double workEdge = 0;
      double loads = 0;
      double loadWork = 0;
      double loadEdge = 0;
      for (int h = from; h < to; h++) {
        boolean runs = load[h] > 0;
        boolean atWork = kinds.work(h);
        boolean edge = kinds.edge(h);
        running += runs ? 1 : 0;
        work += atWork ? 1 : 0;
        edges += edge ? 1 : 0;
        workEdge += atWork && edge ? 1 : 0;
        runWork += runs && atWork ? 1 : 0;
        runEdge += runs && edge ? 1 : 0;
        loads += load[h];
        loadWork += atWork ? load[h] : 0;
        loadEdge += edge ? load[h] : 0;
        if (h > from && !runs && load[h - 1] > 0) {
          stops++;
          stopsAtWork += atWork ? 1 : 0;
        }
      }
      double n = to - from;
      boolean restless = running > 0.97 * n;
      double[] always = {1, work / n, edges / n};
      double[] whileRunning = {restless ? 1 : 0, part(runWork, running), part(runEdge, running)};
      double[] withLoad = {
        Math.min(1, restless ? Math.max(0, sound[DayProfile.FLOOR]) : 0),
        part(loadWork, loads),
        part(loadEdge, loads)
      };
      double[] atStops = {0, part(stopsAtWork, stops), 1};
      double[] atWork = {0, 1, part(workEdge, work)};
      Signature.Shape[] shapes = Signature.Shape.values();
      double[][] losses = new double[shapes.length][];
      for (Signature.Shape shape : shapes) {
        losses[shape.ordinal()] =
            switch (shape) {
              case NOWHERE -> sound;
              case BASIN_ALWAYS, FRESH_ALWAYS, FILL_PASSING -> always;
              case BASIN_RUNNING, BLEED_RUNNING -> whileRunning;
              case BASIN_LOAD -> withLoad;
              case BASIN_STOPS -> atStops;
              case FRESH_WORKING -> atWork;
            };
      }
      return losses;
    }

    private static double part(double some, double all) {
      return all > 0 ? some / all : 0;
    }

    /** Where fill passes, at least so much flows at every hour. */
    private double @Nullable [] @Nullable [] passing(int from, int to) {
      double @Nullable [] @Nullable [] figures = new double[responses.size()][];
      for (int s = 0; s < responses.size(); s++) {
        Signature signature = responses.get(s).signature;
        if (signature.shape() != Signature.Shape.FILL_PASSING) {
          continue;
        }
        double rate = signature.size() * referencePerHourL;
        for (int h = Math.max(0, from - 24); h < to; h++) {
          scratch[h] = Math.max(rate, flow[h]);
        }
        double[] spread = new double[DayProfile.FIGURES];
        DayProfile.of(scratch, kinds, from, to, window, spread);
        figures[s] = spread;
      }
      return figures;
    }
  }
}
