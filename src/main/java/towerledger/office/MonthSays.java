package towerledger.office;

import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.CauseOpinion;
import towerledger.balance.VolumeEstimate;
import towerledger.drawing.FigureText;
import towerledger.drawing.Medium;
import towerledger.drawing.Swatch;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.WaterBar;
import towerledger.drawing.WaterPart;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerWater;
import towerledger.ledger.MonthWorking;
import towerledger.office.SystemView.Beside;
import towerledger.office.SystemView.Opinion;
import towerledger.office.SystemView.Part;
import towerledger.quantity.Volume;
import towerledger.wording.BarText;
import towerledger.wording.Cautions;
import towerledger.wording.MoneyText;
import towerledger.wording.ReasonText;
import towerledger.wording.VerdictText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Says what one month of one system amounts to. */
record MonthSays(Words words, FigureText text) {

  SystemView.Says say(LedgerEntry entry, MonthWorking working, ZoneId zone) {
    LedgerWater water = entry.water();
    WaterBar bar = SystemMonths.bar(water);
    ReasonText reasons = new ReasonText(words, text, zone);
    return new SystemView.Says(
        sentences(entry, working, zone),
        words.of(
            "system.status",
            words.of("status." + entry.status().code()),
            entry.revision(),
            text.stamp(entry.createdAt(), zone),
            entry.modelVersion()),
        new VerdictText(words, text).evidence(entry),
        BarText.draw(entry, WaterBar.Style.BROAD, bar.reach(), words, text),
        parts(water, bar, working.evaporation()),
        footing(water, bar),
        beside(entry),
        opinions(working, reasons),
        reasons.say(working.assumptions()),
        reasons.say(working.whatToAdd()),
        entry.verdict().flagged() ? Cautions.of(entry.verdict().causeSet(), words) : List.of(),
        "/systems/" + entry.of().system() + "/working/" + entry.month(),
        entry.verdict().waste());
  }

  private List<String> sentences(LedgerEntry entry, MonthWorking working, ZoneId zone) {
    LedgerWater water = entry.water();
    WaterText figures = new WaterText(words, text);
    VerdictText verdict = new VerdictText(words, text);
    List<String> said = new ArrayList<>();
    String month = text.month(entry.month());
    if (water.makeup() != null && water.unaccounted() != null) {
      boolean less = water.unaccounted() < 0;
      said.add(
          words.of(
              less ? "system.sentence.less" : "system.sentence",
              month,
              figures.volume(water.makeup()),
              figures.expected(water),
              less
                  ? figures.estimate(
                      -water.unaccounted(),
                      subtract(0, water.unaccountedHigh()),
                      subtract(0, water.unaccountedLow()))
                  : figures.unaccounted(water)));
    } else if (water.expectedMakeup() != null) {
      said.add(words.of("system.sentence.unmetered", month, figures.expected(water)));
    } else {
      said.add(words.of("system.sentence.nothing", month));
    }
    verdict.sentence(entry).ifPresent(said::add);
    verdict.next(entry).ifPresent(said::add);
    verdict.since(working, zone).ifPresent(said::add);
    return said;
  }

  private static @Nullable Double subtract(double from, @Nullable Double what) {
    return what == null ? null : from - what;
  }

  private List<Part> parts(LedgerWater water, WaterBar bar, @Nullable VolumeEstimate evaporation) {
    List<Part> parts = new ArrayList<>();
    for (WaterPart part : WaterPart.values()) {
      bar.part(part)
          .filter(volume -> Math.abs(volume.litres()) >= 0.5)
          .ifPresent(
              volume ->
                  parts.add(
                      new Part(
                          Swatch.of(part, Medium.PAGE),
                          words.of(part.messageKey()),
                          text.barePart(volume, bar.reach()),
                          doubt(part, volume, water, evaporation),
                          water.makeup() == null || water.makeup() <= 0
                              ? ""
                              : text.percent(volume.litres() / water.makeup()),
                          part.isLoss())));
    }
    return parts;
  }

  /** What a modelled part may be off by, 95 %; empty where its interval is not kept. */
  private String doubt(
      WaterPart part, Volume volume, LedgerWater water, @Nullable VolumeEstimate evaporation) {
    return switch (part) {
      case EVAPORATION -> evaporation == null ? "" : halfWidth(evaporation, 1);
      case NEEDED_BLOWDOWN ->
          evaporation == null || water.targetCycles() == null || water.targetCycles() <= 1
              ? ""
              // B = E ÷ (C* − 1) − D moves with E alone: C* is a setting
              : halfWidth(evaporation, 1 / (water.targetCycles() - 1));
      case EXCESS_LOSS, FRESH_LOSS ->
          water.loss() == null || water.lossLow() == null || water.lossHigh() == null
              ? ""
              : text.halfWidth(
                  Volume.ofLitres(
                      (water.lossHigh() - water.lossLow())
                          / 2
                          * Math.min(1, volume.litres() / water.loss())));
      default -> "";
    };
  }

  private String halfWidth(VolumeEstimate estimate, double factor) {
    return text.halfWidth(Volume.ofLitres(factor * estimate.halfWidthLitres()));
  }

  private String footing(LedgerWater water, WaterBar bar) {
    return water.makeup() == null
        ? words.of("figure.unknown")
        : text.barePart(Volume.ofLitres(water.makeup()), bar.reach());
  }

  private List<Beside> beside(LedgerEntry entry) {
    LedgerWater water = entry.water();
    WaterText figures = new WaterText(words, text);
    List<Beside> beside = new ArrayList<>();
    add(beside, "system.expected", figures.expected(water));
    add(beside, "system.unaccounted", figures.unaccounted(water));
    if (entry.verdict().waste()) {
      add(beside, "system.loss", figures.loss(water));
      add(beside, "system.gross-loss", figures.volume(water.grossLoss()));
      add(beside, "system.cost", MoneyText.loss(entry, text, words));
    }
    add(beside, "system.blowdown", figures.volume(water.blowdown()));
    add(
        beside,
        "system.cycles",
        water.cycles() == null
            ? words.of("figure.unknown")
            : words.of(
                "system.cycles.of",
                text.cycles(water.cycles()),
                water.targetCycles() == null
                    ? words.of("figure.unknown")
                    : text.cycles(water.targetCycles())));
    add(
        beside,
        "system.credit",
        MoneyText.credit(entry.money().creditAmount(), entry.money().currency(), text, words));
    return beside;
  }

  private void add(List<Beside> beside, String key, String figure) {
    beside.add(new Beside(words.of(key), figure, words.of(key + ".note")));
  }

  private List<Opinion> opinions(MonthWorking working, ReasonText reasons) {
    List<Opinion> opinions = new ArrayList<>();
    for (CauseOpinion opinion : working.opinions()) {
      if (opinion.probability() >= 0.01 && opinions.size() < 6) {
        opinions.add(
            new Opinion(
                words.of("cause." + opinion.cause().code()),
                text.odds(opinion.probability()),
                reasons.say(opinion.evidenceFor()),
                reasons.say(opinion.evidenceAgainst())));
      }
    }
    return opinions;
  }
}
