package towerledger.wording;

import java.time.ZoneId;
import java.util.Optional;
import java.util.stream.Collectors;
import towerledger.balance.Cause;
import towerledger.balance.VolumeEstimate;
import towerledger.drawing.FigureText;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.LedgerVerdict;
import towerledger.ledger.MonthWorking;

/**
 * Says a verdict in words.
 *
 * @param words texts in the reader's language
 * @param figures figures in the reader's units
 */
public record VerdictText(Words words, FigureText figures) {

  /** Name of a cause. */
  public String cause(Cause cause) {
    return words.of("cause." + cause.code());
  }

  /** What to look at first when this cause is likeliest. */
  public String next(Cause cause) {
    return words.of("cause." + cause.code() + ".next");
  }

  /** What is the matter: losing water, something wrong, sound, or not to be told. */
  public String verdict(LedgerEntry entry) {
    return words.of("verdict." + kind(entry));
  }

  /** Kind of the verdict: {@code waste}, {@code flagged}, {@code sound} or {@code missing}. */
  public static String kind(LedgerEntry entry) {
    LedgerVerdict verdict = entry.verdict();
    if (verdict.isMissing()) {
      return "missing";
    }
    return verdict.waste() ? "waste" : verdict.flagged() ? "flagged" : "sound";
  }

  /**
   * The likeliest cause with its odds, or all that the evidence cannot separate; empty for a sound
   * month.
   */
  public String causes(LedgerEntry entry) {
    LedgerVerdict verdict = entry.verdict();
    if (!verdict.flagged()) {
      return "";
    }
    String odds = figures.odds(verdict.probability());
    if (verdict.causeSet().size() > 1) {
      return words.of(
          "verdict.cannot-separate",
          verdict.causeSet().stream()
              .map(this::cause)
              .collect(Collectors.joining(words.of("verdict.or"))),
          odds);
    }
    return words.of("verdict.likeliest", cause(verdict.likeliest()), odds);
  }

  /** What the verdict comes to, in a sentence; empty where nothing is measured to judge by. */
  public Optional<String> sentence(LedgerEntry entry) {
    if (entry.verdict().waste()) {
      return Optional.of(
          words.of(
              entry.money().lossAmount() == null
                  ? "system.sentence.waste.unpriced"
                  : "system.sentence.waste",
              MoneyText.loss(entry, figures, words),
              causes(entry)));
    }
    if (entry.verdict().flagged()) {
      return Optional.of(words.of("system.sentence.flagged", causes(entry)));
    }
    return entry.water().makeup() == null
        ? Optional.empty()
        : Optional.of(words.of("system.sentence.sound"));
  }

  /** What to look at first; empty where nothing is wrong or nothing can be told. */
  public Optional<String> next(LedgerEntry entry) {
    return entry.verdict().flagged()
        ? Optional.of(words.of("system.sentence.next", next(entry.verdict().likeliest())))
        : Optional.empty();
  }

  /** Since when, and what was lost since; empty where no fault is followed. */
  public Optional<String> since(MonthWorking working, ZoneId zone) {
    VolumeEstimate lost = working.lossSinceOnset();
    if (working.onset() == null || lost == null) {
      return Optional.empty();
    }
    return Optional.of(
        words.of(
            "system.sentence.since",
            working.onsetAt() == null
                ? figures.month(working.onset())
                : figures.moment(working.onsetAt(), zone),
            figures.estimate(lost.value(), lost.low(), lost.high())));
  }

  /** Grade of the heat evidence in a few words. */
  public String evidence(LedgerEntry entry) {
    return entry.evidence() == null
        ? words.of("evidence.none")
        : words.of("evidence." + entry.evidence());
  }
}
