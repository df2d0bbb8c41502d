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
                        says(yearly),
                        table(yearly.amount(), scenarios)))
            .toList(),
        typed,
        wrong ? words.of("bills.rise.wrong") : null);
  }

  /**
   * What the newest year came to, at the rates then in force.
   *
   * @param what {@code bills}, {@code waste} or {@code credit}
   * @param whole whether the whole of a year is known
   */
  record Yearly(String what, Money amount, boolean whole) {}

  private String says(Yearly yearly) {
    String sum =
        words.of("bills.years." + yearly.what() + ".says", text.money(yearly.amount().rounded()));
    return yearly.whole() ? sum : sum + " " + words.of("bills.years.short");
  }

  /** A row a year, a column a scenario: five figures beside each other still fit a phone. */
  private FigureTable table(Money annual, List<Scenario> scenarios) {
    List<Projection.Course> courses =
        Projection.of(annual, Projection.FIVE_YEARS, scenarios).courses();
    List<List<String>> rows = new ArrayList<>();
    for (int year = 0; year < Projection.FIVE_YEARS; year++) {
      int at = year;
      rows.add(
          row(
              words.of("bills.year", year + 1),
              courses.stream().map(course -> course.years().get(at))));
    }
    rows.add(row(words.of("bills.five-years"), courses.stream().map(Projection.Course::total)));
    List<String> headings = new ArrayList<>(List.of(words.of("bills.scenario")));
    courses.forEach(course -> headings.add(course.scenario().name()));
    return new FigureTable(headings, rows);
  }

  private List<String> row(String name, Stream<Money> amounts) {
    return Stream.concat(Stream.of(name), amounts.map(text::money)).toList();
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
