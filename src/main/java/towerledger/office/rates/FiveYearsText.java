package towerledger.office.rates;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.page.FigureTable;
import towerledger.page.TypedNumber;
import towerledger.quantity.Money;
import towerledger.tariff.Projection;
import towerledger.tariff.Projection.Scenario;
import towerledger.wording.Words;

/** What yearly amounts of a site come to in five years, as rates stay or rise. */
final class FiveYearsText {

  private static final double LEAST_PERCENT = -50;
  private static final double MOST_PERCENT = 100;

  private final Words words;
  private final FigureText text;
  private final String typed;
  private final @Nullable BigDecimal own;

  /**
   * @param typed what the reader asks for, percent a year; empty for the usual scenarios alone
   */
  FiveYearsText(Words words, FigureText text, @Nullable String typed) {
    this.words = words;
    this.text = text;
    this.typed = typed == null ? "" : typed.strip();
    this.own = percent(this.typed);
  }

  /**
   * The tables.
   *
   * @param past the yearly rise that the site's own schedule has shown
   */
  BillsView.FiveYears view(List<Yearly> amounts, Optional<Scenario> past) {
    List<Scenario> scenarios =
        new ArrayList<>(
            Projection.usual(
                words.of("bills.rates.stay"), percent -> words.of("bills.rates.up", percent)));
    past.ifPresent(
        rise ->
            scenarios.add(
                new Scenario(
                    words.of("bills.rates.past", shown(rise.escalation())), rise.escalation())));
    if (own != null) {
      BigDecimal share = own.movePointLeft(2);
      scenarios.add(0, new Scenario(words.of("bills.rates.own", shown(share)), share));
    }
    boolean wrong = own == null && !typed.isEmpty();
    return new BillsView.FiveYears(
        amounts.stream()
            .filter(yearly -> yearly.amount().amount().signum() > 0)
            .map(
                yearly ->
                    new BillsView.Course(
                        words.of("bills.years." + yearly.what()),
                        words.of(
                            "bills.years." + yearly.what() + ".says",
                            text.money(yearly.amount().rounded())),
                        table(yearly.amount(), scenarios)))
            .toList(),
        typed,
        wrong ? words.of("bills.rise.wrong") : null);
  }

  /**
   * An amount of a year at today's rates.
   *
   * @param what {@code bills}, {@code waste} or {@code credit}
   */
  record Yearly(String what, Money amount) {}

  private FigureTable table(Money annual, List<Scenario> scenarios) {
    Projection projection = Projection.of(annual, Projection.FIVE_YEARS, scenarios);
    List<String> headings = new ArrayList<>(List.of(words.of("bills.scenario")));
    for (int year = 1; year <= Projection.FIVE_YEARS; year++) {
      headings.add(words.of("bills.year", year));
    }
    headings.add(words.of("bills.five-years"));
    return new FigureTable(
        headings,
        projection.courses().stream()
            .map(
                course ->
                    Stream.of(
                            Stream.of(course.scenario().name()),
                            course.years().stream().map(text::money),
                            Stream.of(text.money(course.total())))
                        .flatMap(part -> part)
                        .toList())
            .toList());
  }

  private String shown(BigDecimal share) {
    return text.decimals(share.movePointRight(2).doubleValue(), 1);
  }

  /** Percent a year as typed; null for what is none, or too low or high. */
  private static @Nullable BigDecimal percent(String typed) {
    OptionalDouble percent = TypedNumber.find(typed);
    return percent.isEmpty()
            || percent.getAsDouble() < LEAST_PERCENT
            || percent.getAsDouble() > MOST_PERCENT
        ? null
        : BigDecimal.valueOf(percent.getAsDouble());
  }
}
