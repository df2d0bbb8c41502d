package towerledger.balance;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import towerledger.balance.facts.SystemAttributes;
import towerledger.balance.facts.SystemFacts;

/** What is written beside a month's figures: assumptions, budget, derivation, what to add. */
final class Notes {

  private Notes() {}

  static List<String> assumptions(MonthDraft draft) {
    List<String> notes = new ArrayList<>();
    SystemFacts facts = draft.pass.facts;
    notes.addAll(draft.pass.modelAssumptions);
    if (draft.grade == EvidenceGrade.D) {
      notes.add("heat load guessed from nameplate, weather and schedule");
    }
    if (facts.attributes().volumeLitres().isEmpty()) {
      notes.add(
          "water in the loop taken as %.0f L from the nominal tons"
              .formatted(draft.pass.plan.volumeL()));
    }
    if (Double.isNaN(draft.chemistry.targetCycles())) {
      notes.add(
          "no target cycles or conductivity set-point known: habit of the samples, from %.0f cycles"
              .formatted(ControlPlanner.ASSUMED_CYCLES));
    }
    if (draft.chemistry.samples() == 0) {
      notes.add("no water sample this month: cycles carried on from the earlier ones");
    }
    if (draft.metered && draft.covered < 0.995) {
      notes.add(
          "makeup readings cover %.0f %% of the month; the rest in proportion"
              .formatted(100 * draft.covered));
    }
    if (facts.weather().typicalYear()) {
      notes.add(
          "the weather is a typical year's, not that of this month: evaporation is what is usual at the place, not what was");
    } else if (draft.filledWeather > 0.01 && draft.filledWeather > draft.unknownHours) {
      notes.add(
          "%.0f %% of the hours' weather was filled in (from neighbouring hours, or the station's usual hours of the month)"
              .formatted(100 * draft.filledWeather));
    }
    if (draft.unknownHours > 0) {
      notes.add(
          "weather missing for %.1f %% of the hours, taken from the hours around"
              .formatted(100 * draft.unknownHours));
    }
    if (facts.attributes().kind() != SystemAttributes.Kind.OPEN) {
      notes.add("closed-circuit evaporation is modelled on the spray water, with wider bounds");
    }
    if (draft.gross > 1.15 * (draft.excess + draft.fresh)) {
      notes.add(
          "%.0f L leak in all; the bleed gives way for part of it, only %.0f L are drawn on top and priced"
              .formatted(draft.gross, draft.excess + draft.fresh));
    }
    if (draft.pass.vague(draft.month)) {
      notes.add(
          "in much of the month the tower may have run dry or cooled without the chiller: evaporation is uncertain");
    }
    if (facts.attributes().watersideEconomizer()) {
      notes.add("a waterside economizer may load the tower while the chiller stands");
    }
    return notes;
  }

  static List<String> whatToAdd(MonthDraft draft) {
    List<String> wants = new ArrayList<>();
    if (!draft.pass.makeup.present()) {
      wants.add("a makeup meter, read at least monthly");
    }
    if (draft.implausible) {
      wants.add("a correction of the makeup reading: digits, unit, or a swap that was not entered");
    } else if (draft.pass.makeup.present() && !draft.metered) {
      wants.add("makeup meter readings that enclose the whole month");
    }
    if (!draft.modelled) {
      wants.add("weather hours of the station for the month");
    }
    if (draft.chemistry.weakSamples() > 0) {
      wants.add(
          "a correction of the water sample that shows the basin weaker than the makeup: cycles below"
              + " 1 cannot be");
    }
    if (draft.chemistry.samples() == 0) {
      wants.add("conductivity of makeup and basin, at least once a month");
    }
    if (draft.grade.compareTo(EvidenceGrade.C) >= 0) {
      wants.add("chiller electricity or ton-hours, by the month or finer");
    }
    if (Double.isNaN(draft.chemistry.targetCycles())) {
      wants.add("target cycles or the controller's conductivity set-point");
    }
    if (!draft.pass.bleed.present()) {
      wants.add("a blowdown meter: it tells bleed from overflow, leak and drift");
    }
    return wants;
  }

  static List<BudgetLine> budget(MonthDraft draft) {
    List<BudgetLine> lines = new ArrayList<>();
    lines.add(
        new BudgetLine(
            "load multiplier",
            draft.multiplierDeviation,
            draft.multiplierDeviation * draft.expected,
            "sequential calibration on this system's own months"));
    lines.add(
        new BudgetLine(
            "scatter of the heat evidence",
            draft.scatterDeviation,
            draft.scatterDeviation * draft.expected,
            "grade " + draft.grade + ", month to month"));
    lines.add(
        new BudgetLine(
            "bleed",
            draft.bleedDeviation,
            draft.bleedDeviation * draft.expected,
            "habit of the basin, and how far it strays between samples"));
    double accuracy = 0.5 * draft.pass.makeup.accuracy();
    lines.add(
        new BudgetLine(
            "makeup meter", accuracy, accuracy * draft.makeup, "limit of error of the meter"));
    double read =
        Math.sqrt(
            Math.max(
                0,
                draft.makeupDeviation * draft.makeupDeviation
                    - accuracy * accuracy * draft.makeup * draft.makeup));
    lines.add(
        new BudgetLine(
            "reading and sharing out to the month",
            read / draft.makeup,
            read,
            "resolution, time of reading, modelled use"));
    lines.add(
        new BudgetLine(
            "water in the basin",
            0.02,
            0.02 * draft.pass.plan.volumeL(),
            "level at the readings, 2 % of the loop"));
    lines.sort(Comparator.comparingDouble(line -> -line.contributionLitres()));
    return lines;
  }

  static List<WorkingStep> working(MonthDraft draft) {
    List<WorkingStep> steps = new ArrayList<>();
    step(
        steps, "metered makeup", draft.makeup, "L", "", "makeup meter, shared out by modelled use");
    step(steps, "other use", draft.otherUse, "L", "", "sub-meters");
    step(steps, "modelled evaporation", draft.modelEvaporation, "L", "sum of hours", "tower model");
    step(
        steps,
        "load multiplier",
        draft.multiplier,
        "",
        "posterior mean",
        "calibration on earlier months and this one");
    step(
        steps,
        "load multiplier of this month",
        (draft.evaporation - draft.besideShape) / draft.modelEvaporation,
        "",
        "posterior mean",
        "the multiplier and what this month strays from it");
    step(
        steps,
        "evaporation beside the load's shape",
        draft.besideShape,
        "L",
        "posterior mean",
        "base and evenness of the load");
    step(
        steps,
        "evaporation",
        draft.evaporation,
        "L",
        "multiplier of this month × modelled + beside the shape",
        "");
    step(
        steps, "drift", draft.drift, "L", "drift × circulation × load hours", "setting or assumed");
    step(
        steps,
        "cycles",
        draft.chemistry.cycles(),
        "",
        "basin ÷ makeup conductivity",
        "samples of the month");
    step(steps, "target cycles", draft.chemistry.targetCycles(), "", "", "settings in force");
    step(steps, "needed blowdown", draft.neededBleed(), "L", "E ÷ (C* − 1) − D", "water balance");
    step(steps, "storage change", draft.storage, "L", "drains and refills", "visits");
    if (!draft.expectedByRest) {
      step(
          steps,
          "bleed and refill of the sound system",
          draft.expected - draft.evaporation - draft.drift,
          "L",
          "what the basin draws beyond E and D",
          "walk through the basin at the settings in force");
      step(steps, "expected makeup", draft.expected, "L", "E + D + B of the sound system", "");
    }
    step(steps, "excess loss", draft.excess, "L", "posterior mean", "");
    step(steps, "fresh loss", draft.fresh, "L", "posterior mean", "");
    step(steps, "meter correction", draft.meterCorrection, "L", "posterior mean", "");
    if (draft.expectedByRest) {
      step(steps, "loss", draft.loss, "L", "what is lost, within its interval", "");
      step(
          steps,
          "expected makeup",
          draft.expected,
          "L",
          "metered makeup − other use − loss",
          "where water is lost, the rest tells best what a sound system takes");
    }
    return steps;
  }

  private static void step(
      List<WorkingStep> steps,
      String name,
      double value,
      String unit,
      String formula,
      String source) {
    if (!Double.isNaN(value)) {
      steps.add(new WorkingStep(name, value, unit, formula, source));
    }
  }
}
