package towerledger.wording;

import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSourceResolvable;
import org.springframework.context.support.DefaultMessageSourceResolvable;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.quantity.Temperature;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;

/**
 * Says what a revision keeps in words (reasons, assumptions, steps, sources), and what bills,
 * claims and meters remark, in a reader's language and units. A revision keeps them for good as
 * they were written, in English and SI; those sentences are known here and said anew. A sentence
 * that is not known is said as it was kept, never dropped.
 *
 * @param words texts in the reader's language
 * @param figures figures in the reader's units
 * @param zone the site's, by whose clock moments are told; null where there is no one site, which
 *     tells them in UTC and says so
 */
public record ReasonText(Words words, FigureText figures, @Nullable ZoneId zone) {

  /** What no one site's clock tells. */
  public ReasonText(Words words, FigureText figures) {
    this(words, figures, null);
  }

  /** Each of some sentences. */
  public List<String> say(List<String> kept) {
    return kept.stream().map(this::say).toList();
  }

  /** Why something was refused. */
  public String say(RuntimeException refusal) {
    return say(String.valueOf(refusal.getMessage()));
  }

  /** One of them, or nothing where there is none. */
  public @Nullable String sayIfAny(@Nullable String kept) {
    return kept == null ? null : say(kept);
  }

  /**
   * One of them, to be said when it is shown, its gaps as they were written: for what is told on
   * the page after this one.
   */
  public static MessageSourceResolvable later(String kept) {
    return KeptSentences.find(kept).stream()
        .map(
            known ->
                new DefaultMessageSourceResolvable(
                    new String[] {known.key()},
                    known.gaps().stream().map(KeptSentences.Gap::text).toArray(),
                    kept))
        .findFirst()
        .orElseGet(() -> new DefaultMessageSourceResolvable(new String[0], kept));
  }

  /** One of them. */
  public String say(String kept) {
    return KeptSentences.find(kept).stream()
        .map(known -> words.of(known.key(), known.gaps().stream().map(this::said).toArray()))
        .findFirst()
        .orElse(kept);
  }

  private String said(KeptSentences.Gap gap) {
    return switch (gap.kind()) {
      case 'L', 'l' -> figures.volume(Volume.ofLitres(gap.number()));
      case 'C', 'c', 'T' -> figures.temperature(Temperature.ofCelsius(gap.number()));
      case 'K' ->
          figures.units() == UnitPreference.US
              ? figures.decimals(fahrenheit(gap.number()) - fahrenheit(0), 1) + "\u00a0°F"
              : figures.decimals(gap.number(), 1) + "\u00a0K";
      case 't', 'n' -> gap.text();
      case 'a' ->
          Stream.of(gap.text().split(" and ", -1))
              .reduce((one, other) -> words.of("list.and", one, other))
              .orElse(gap.text());
      case 'u' -> FigureText.unitName(VolumeUnit.ofCode(gap.text()));
      case 'd' -> figures.day(LocalDate.parse(gap.text()));
      case 'i' -> moment(Instant.parse(gap.text()));
      case 'w' -> words.or("kept." + gap.text(), gap.text());
      case 'q' -> words.or("kept." + gap.text().replace(' ', '-'), gap.text());
      case 's' -> say(gap.text());
      default -> figures.decimals(gap.number(), gap.kind() - '0');
    };
  }

  private String moment(Instant instant) {
    return zone == null
        ? figures.moment(instant, ZoneOffset.UTC) + "\u00a0UTC"
        : figures.moment(instant, zone);
  }

  private static double fahrenheit(double celsius) {
    return Temperature.ofCelsius(celsius).fahrenheit();
  }
}
