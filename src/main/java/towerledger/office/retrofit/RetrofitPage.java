package towerledger.office.retrofit;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.Currency;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import java.util.stream.IntStream;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.web.util.UriComponentsBuilder;
import towerledger.account.Customers;
import towerledger.account.Viewer;
import towerledger.drawing.Chart;
import towerledger.drawing.FigureText;
import towerledger.drawing.Layer;
import towerledger.drawing.Medium;
import towerledger.drawing.Series;
import towerledger.drawing.Swatch;
import towerledger.drawing.Tone;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.page.FigureTable;
import towerledger.page.Plate;
import towerledger.page.TypedNumber;
import towerledger.quantity.Money;
import towerledger.retrofit.Measure;
import towerledger.retrofit.RetrofitCase;
import towerledger.retrofit.TowerRecord;
import towerledger.site.CoolingSystem;
import towerledger.site.Site;
import towerledger.site.Sites;
import towerledger.wording.Cautions;
import towerledger.wording.Words;

/** Works out a retrofit from a system's own record. */
@Component
class RetrofitPage {

  private static final double INTERVAL = 1.959964;
  private static final double USUAL_CYCLES = 6;

  private final Sites sites;
  private final Customers customers;
  private final Ledger ledger;
  private final MessageSource messages;

  RetrofitPage(Sites sites, Customers customers, Ledger ledger, MessageSource messages) {
    this.sites = sites;
    this.customers = customers;
    this.ledger = ledger;
    this.messages = messages;
  }

  /** A number asked for: its unit, what is usual, and within which bounds it lies. */
  private record Ask(String name, String unit, String usual, double lowest, double highest) {}

  private static List<Ask> asks(String currency, Measure measure) {
    List<Ask> asks = new ArrayList<>();
    asks.add(new Ask("cost", currency, "5000", 1, 1e9));
    asks.add(new Ask("stops", "%", "80", 0, 100));
    if (measure == Measure.CYCLES) {
      asks.add(new Ask("cycles", "", "6", 1.1, 50));
    }
    asks.add(new Ask("escalation", "%", "5", -20, 50));
    asks.add(new Ask("discount", "%", "6", 0, 50));
    asks.add(new Ask("years", "", "10", 1, 30));
    return asks;
  }

  RetrofitView compose(
      Viewer viewer,
      CoolingSystem system,
      Map<String, String> typed,
      Medium medium,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    YearMonth newest = ledger.findNewestEnded(viewer).orElse(Ledger.FIRST_MONTH);
    List<LedgerEntry> rows = ledger.list(system, newest.minusMonths(11), newest);
    Measure measure =
        Measure.find(typed.getOrDefault("measure", "")).orElseGet(() -> likeliest(rows));
    Site site = sites.findSite(system.siteId()).orElseThrow();
    Currency currency =
        rows.isEmpty()
            ? customers.get(site.customerId()).currency()
            : rows.get(0).money().currency();
    Map<String, Double> numbers = new LinkedHashMap<>();
    List<RetrofitView.Field> fields = new ArrayList<>();
    for (Ask ask : asks(currency.getCurrencyCode(), measure)) {
      String given = typed.getOrDefault(ask.name(), ask.usual());
      OptionalDouble number = TypedNumber.find(given);
      String fault = null;
      if (number.isEmpty()) {
        fault = words.of(given.isBlank() ? "field.missing" : "field.number");
      } else if (number.getAsDouble() < ask.lowest() || number.getAsDouble() > ask.highest()) {
        fault = words.of("field.range", text.tick(ask.lowest()), text.tick(ask.highest()));
      } else {
        numbers.put(ask.name(), number.getAsDouble());
      }
      String shown = medium == Medium.PAPER ? grouped(given, number, text) : given;
      fields.add(new RetrofitView.Field(ask.name(), ask.unit(), shown, fault));
    }
    boolean wrong = fields.stream().anyMatch(field -> field.wrong() != null);
    Optional<TowerRecord.Basis> basis =
        wrong
            ? Optional.empty()
            : new TowerRecord(rows).of(measure, numbers.getOrDefault("cycles", 2.0));
    String whose = site.details().name();
    List<String> measures = Arrays.stream(Measure.values()).map(Measure::code).toList();
    if (basis.isEmpty()) {
      return new RetrofitView(
          system.code(),
          system.details().name(),
          whose,
          measure.code(),
          measures,
          fields,
          words.of(wrong ? "retrofit.wrong" : "retrofit.no-basis." + measure.code()),
          new FigureTable(List.of(""), List.of()),
          null,
          null,
          List.of(),
          List.of());
    }
    return answer(
        system,
        whose,
        measure,
        measures,
        fields,
        numbers,
        basis.get(),
        currency,
        medium,
        words,
        text);
  }

  /** What would have saved most of what is on record; the first where nothing would. */
  private static Measure likeliest(List<LedgerEntry> rows) {
    TowerRecord record = new TowerRecord(rows);
    return Arrays.stream(Measure.values())
        .max(
            Comparator.comparingDouble(
                measure ->
                    record.of(measure, USUAL_CYCLES).map(TowerRecord.Basis::value).orElse(0.0)))
        .orElseThrow();
  }

  private static RetrofitView answer(
      CoolingSystem system,
      String whose,
      Measure measure,
      List<String> measures,
      List<RetrofitView.Field> fields,
      Map<String, Double> numbers,
      TowerRecord.Basis basis,
      Currency currency,
      Medium medium,
      Words words,
      FigureText text) {
    double share = numbers.getOrDefault("stops", 0.0) / 100;
    RetrofitCase worked =
        new RetrofitCase(
            numbers.getOrDefault("cost", 1.0),
            basis.value() * share,
            basis.sigma() * share,
            numbers.getOrDefault("escalation", 0.0) / 100,
            numbers.getOrDefault("discount", 0.0) / 100,
            (int) Math.round(numbers.getOrDefault("years", 1.0)));
    String saving = estimate(worked.saving(), worked.sigma(), currency, text);
    String value =
        estimate(worked.netPresentValue(), worked.netPresentValueSigma(), currency, text);
    String payback =
        worked.simplePaybackYears().isPresent()
            ? words.of(
                "retrofit.years", text.decimals(worked.simplePaybackYears().getAsDouble(), 1))
            : words.of("retrofit.never");
    boolean saves = worked.saving() > 0;
    return new RetrofitView(
        system.code(),
        system.details().name(),
        whose,
        measure.code(),
        measures,
        fields,
        words.of(
            saves ? "retrofit.lead" : "retrofit.lead.nothing",
            system.details().name(),
            saving,
            payback,
            text.odds(worked.chanceOfBreakEven()),
            worked.years()),
        new FigureTable(
            List.of(words.of("system.figure"), words.of("equipment.value")),
            List.of(
                List.of(words.of("retrofit.saving"), saving),
                List.of(words.of("retrofit.payback"), payback),
                List.of(words.of("retrofit.value", worked.years()), value),
                List.of(words.of("retrofit.chance"), text.odds(worked.chanceOfBreakEven())))),
        saves ? plate(worked, currency, medium, words, text) : null,
        saves ? pdf(system, measure, fields) : null,
        List.of(
            words.of("retrofit.basis." + measure.code(), basis.months()),
            words.of("retrofit.assumed.same"),
            words.of("retrofit.assumed.estimate")),
        Cautions.of(
            measure == Measure.CYCLES
                ? List.of(towerledger.balance.Cause.LOW_CYCLES)
                : List.of(towerledger.balance.Cause.FILL_VALVE_LEAKING_BY),
            words));
  }

  private static String pdf(
      CoolingSystem system, Measure measure, List<RetrofitView.Field> fields) {
    UriComponentsBuilder address =
        UriComponentsBuilder.fromPath("/retrofit/{code}/case.pdf")
            .queryParam("measure", measure.code());
    fields.forEach(field -> address.queryParam(field.name(), "{" + field.name() + "}"));
    Map<String, String> values = new HashMap<>(Map.of("code", system.code()));
    fields.forEach(field -> values.put(field.name(), field.typed()));
    return address.encode().buildAndExpand(values).toUriString();
  }

  /**
   * The balance from today's cost on, with its interval, and the cash flow as the table behind it.
   */
  private static Plate plate(
      RetrofitCase worked, Currency currency, Medium medium, Words words, FigureText text) {
    List<RetrofitCase.Year> years = worked.cashFlow();
    double[] middle = new double[years.size() + 1];
    double[] low = new double[middle.length];
    double[] high = new double[middle.length];
    List<String> labels = new ArrayList<>();
    for (int i = 0; i < middle.length; i++) {
      middle[i] = i == 0 ? -worked.cost() : years.get(i - 1).balance();
      double half = i == 0 ? 0 : INTERVAL * years.get(i - 1).balanceSigma();
      low[i] = middle[i] - half;
      high[i] = middle[i] + half;
      labels.add(middle.length <= 16 || i % 5 == 0 ? String.valueOf(i) : "");
    }
    String title = words.of("retrofit.balance");
    OptionalInt above =
        IntStream.range(0, middle.length).filter(year -> middle[year] >= 0).findFirst();
    String summary =
        above.isPresent()
            ? words.of("retrofit.balance.sum", above.getAsInt())
            : words.of("retrofit.balance.sum.never", worked.years());
    return new Plate(
        "balance",
        title,
        currency.getCurrencyCode(),
        Chart.over(labels)
            .ticks(text::tick)
            .with(new Layer.Band(Series.of(low), Series.of(high), Tone.SET_ASIDE))
            .with(new Layer.Line(Series.of(middle), Tone.INK, true))
            .draw(medium, title, summary),
        List.of(
            new Plate.Legend(Swatch.line(Tone.INK, false, medium), title),
            new Plate.Legend(
                Swatch.band(Tone.SET_ASIDE, medium), words.of("retrofit.balance.band"))),
        summary,
        flow(worked, currency, words, text),
        null);
  }

  private static FigureTable flow(
      RetrofitCase worked, Currency currency, Words words, FigureText text) {
    List<List<String>> rows = new ArrayList<>();
    rows.add(
        List.of(words.of("retrofit.today"), "", "", text.money(money(-worked.cost(), currency))));
    for (RetrofitCase.Year year : worked.cashFlow()) {
      rows.add(
          List.of(
              words.of("retrofit.year", year.year()),
              text.money(money(year.saving(), currency)),
              text.money(money(year.discounted(), currency)),
              text.money(money(year.balance(), currency))));
    }
    return new FigureTable(
        List.of(
            words.of("retrofit.when"),
            words.of("retrofit.saved"),
            words.of("retrofit.discounted"),
            words.of("retrofit.balance")),
        rows);
  }

  private static String estimate(double value, double sigma, Currency currency, FigureText text) {
    double half = INTERVAL * sigma;
    return text.estimate(
        money(value, currency), money(value - half, currency), money(value + half, currency));
  }

  /** A whole number with its groups of three, as figures on paper; others as they were typed. */
  private static String grouped(String given, OptionalDouble number, FigureText text) {
    return number.isPresent() && number.getAsDouble() == Math.rint(number.getAsDouble())
        ? text.decimals(number.getAsDouble(), 0)
        : given;
  }

  private static Money money(double amount, Currency currency) {
    return new Money(BigDecimal.valueOf(amount).setScale(2, RoundingMode.HALF_EVEN), currency);
  }
}
