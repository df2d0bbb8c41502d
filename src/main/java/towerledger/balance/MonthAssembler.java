package towerledger.balance;

import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import towerledger.quantity.Volume;
import towerledger.statistics.NormalMixture;

/** Puts the figures and the verdict of one month together. */
final class MonthAssembler {

  private static final double LEAST_COVERED = 0.85;

  /** Probability below which a cause is listed without its reasons. */
  private static final double LEAST_ARGUED = 0.005;

  private static final double MOST_UNKNOWN_HOURS = 0.1;

  private final SystemPass pass;
  private double[] netMakeups = new double[0];

  MonthAssembler(SystemPass pass) {
    this.pass = pass;
  }

  MonthVerdict assemble(Posterior posterior) {
    MonthDraft draft = new MonthDraft(pass, posterior);
    draft.readMeters(LEAST_COVERED);
    draft.readModel(MOST_UNKNOWN_HOURS);
    if (!draft.modelled || !draft.metered) {
      return notEnough(draft);
    }
    return judged(draft);
  }

  private MonthVerdict notEnough(MonthDraft draft) {
    WaterFigures water =
        new WaterFigures(
            draft.makeupEstimate(),
            draft.modelled
                ? Optional.of(draft.estimate(draft.expected, draft.expectedDeviation))
                : Optional.empty(),
            Optional.empty(),
            draft.modelled
                ? Optional.of(draft.estimate(draft.evaporation, draft.evaporationDeviation))
                : Optional.empty(),
            draft.modelled ? volume(draft.drift) : Optional.empty(),
            draft.modelled ? volume(draft.neededBleed()) : Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            volume(draft.otherUse),
            volume(draft.storage),
            Optional.empty(),
            Optional.empty(),
            volume(draft.bleedFigure()),
            Optional.empty(),
            Optional.empty(),
            optional(draft.chemistry.cycles()),
            optional(draft.chemistry.targetCycles()));
    CauseOpinion missing = new CauseOpinion(Cause.MISSING_DATA, 1, draft.missing(), List.of());
    Judgement judgement =
        new Judgement(
            false,
            false,
            List.of(missing),
            List.of(Cause.MISSING_DATA),
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Optional.empty());
    return new MonthVerdict(
        draft.name(),
        draft.grade,
        water,
        judgement,
        draft.assumptions(),
        List.of(),
        draft.whatToAdd(),
        draft.working());
  }

  private MonthVerdict judged(MonthDraft draft) {
    List<Hypothesis> hypotheses = draft.posterior.hypotheses();
    int month = draft.month;
    double makeup = draft.makeup;
    NormalMixture loss = pass.losses.month(hypotheses, month, draft.netMakeup(), draft.floor());
    VerdictRule.Measure measure =
        pass.measure(
            month,
            makeup,
            draft.expected > 0 ? 1 - draft.netMakeup() / draft.expected : Double.NaN,
            draft.grade);
    Map<Cause, Double> causes = pass.rule.causes(hypotheses, month, measure);
    boolean waste = pass.rule.wastes(hypotheses, month, measure, loss, draft.surplus());
    Cause suspect = VerdictRule.ranked(causes, true).get(0).getKey();
    boolean flagged =
        waste
            || (pass.rule.faulty(causes, measure)
                && pass.rule.sized(suspect, draft.netMakeup() - draft.expected, measure));
    List<Map.Entry<Cause, Double>> ranked = VerdictRule.ranked(causes, flagged);
    List<Cause> set = VerdictRule.set(ranked, flagged);
    draft.settle(flagged, waste, ranked.get(0).getKey(), loss);
    List<CauseOpinion> opinions = new ArrayList<>();
    Reasons.Signs signs = Reasons.Signs.of(draft);
    double total = ranked.stream().mapToDouble(Map.Entry::getValue).sum();
    for (Map.Entry<Cause, Double> entry : ranked) {
      double probability = Math.min(1, entry.getValue() / total);
      opinions.add(
          probability < LEAST_ARGUED
              ? new CauseOpinion(entry.getKey(), probability, List.of(), List.of())
              : Reasons.of(draft, signs, entry.getKey(), probability));
    }
    Optional<LoggedDays.Onset> byDays =
        waste ? loggedOnset(hypotheses, month, ranked.get(0).getKey()) : Optional.empty();
    Judgement judgement =
        new Judgement(
            flagged,
            waste,
            opinions,
            set,
            flagged ? Optional.of(detectedAt(draft, byDays)) : Optional.empty(),
            flagged ? onset(hypotheses, month) : Optional.empty(),
            byDays.map(LoggedDays.Onset::onset),
            waste ? Optional.of(since(hypotheses, month, draft.floor())) : Optional.empty());
    return new MonthVerdict(
        draft.name(),
        draft.grade,
        draft.figures(),
        judgement,
        draft.assumptions(),
        draft.budget(),
        draft.whatToAdd(),
        draft.working());
  }

  /** The last fact that the verdict needed: of the days of a logged meter if they said it first. */
  private Instant detectedAt(MonthDraft draft, Optional<LoggedDays.Onset> byDays) {
    Instant known = draft.posterior.detectedAt();
    Instant byPeriods = known.equals(Instant.MIN) ? draft.lastFact : known;
    return byDays
        .flatMap(LoggedDays.Onset::detected)
        .filter(day -> day.isBefore(byPeriods))
        .orElse(byPeriods);
  }

  /** What the days of a logged meter say of the likeliest story of a cause. */
  private Optional<LoggedDays.Onset> loggedOnset(
      List<Hypothesis> hypotheses, int month, Cause cause) {
    return hypotheses.stream()
        .filter(h -> pass.responses.get(h.was).signature.cause() == cause)
        .filter(h -> pass.losses.active(h, month) > 0)
        .max(Comparator.comparingDouble(h -> h.logWeight))
        .filter(h -> h.onset != Hypothesis.ALWAYS)
        .map(h -> pass.periods.get(h.onset))
        .flatMap(p -> pass.loggedDays.find(p.from(), p.to(), pass.frame.to(month)));
  }

  /** Month by which half of the probability of a fault had begun. */
  private Optional<YearMonth> onset(List<Hypothesis> hypotheses, int month) {
    List<double[]> onsets = new ArrayList<>();
    double sum = 0;
    for (Hypothesis h : hypotheses) {
      if (!pass.responses.get(h.was).signature.sane() && pass.losses.active(h, month) > 0) {
        double weight = h.weight();
        onsets.add(new double[] {pass.losses.onset(h), weight});
        sum += weight;
      }
    }
    onsets.sort(Comparator.comparingDouble(o -> o[0]));
    double reached = 0;
    for (double[] onset : onsets) {
      reached += onset[1];
      if (reached >= 0.5 * sum) {
        int at = onset[0] < 0 ? 0 : Math.min(month, Math.max(0, pass.frame.at(onset[0])));
        return Optional.of(pass.frame.months().get(at));
      }
    }
    return Optional.empty();
  }

  private VolumeEstimate since(List<Hypothesis> hypotheses, int month, double floorL) {
    return bounded(pass.losses.since(hypotheses, month, netMakeups(), floorL));
  }

  /** Metered makeup without other use of every month; NaN where it is not known. */
  private double[] netMakeups() {
    if (netMakeups.length == 0) {
      netMakeups = new double[pass.frame.months().size()];
      for (int m = 0; m < netMakeups.length; m++) {
        double from = pass.frame.from(m);
        double to = pass.frame.to(m);
        netMakeups[m] =
            MonthDraft.net(
                pass.makeup.wholeL(from, to, pass.soundUse, LEAST_COVERED),
                pass.otherUse.wholeL(from, to, pass.soundUse, LEAST_COVERED));
      }
    }
    return netMakeups;
  }

  static VolumeEstimate bounded(NormalMixture mixture) {
    double low = mixture.quantileFrom(0, 0.025);
    double high = mixture.quantileFrom(0, 0.975);
    double value = Math.max(low, Math.min(high, mixture.mean()));
    return VolumeEstimate.ofLitres(value, low, high);
  }

  static Optional<Volume> volume(double litres) {
    return Double.isNaN(litres) ? Optional.empty() : Optional.of(Volume.ofLitres(litres));
  }

  static OptionalDouble optional(double value) {
    return Double.isNaN(value) ? OptionalDouble.empty() : OptionalDouble.of(value);
  }
}
