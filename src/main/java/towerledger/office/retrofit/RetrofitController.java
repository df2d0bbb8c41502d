package towerledger.office.retrofit;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.page.FigureTable;
import towerledger.page.TypedNumber;
import towerledger.quantity.Money;
import towerledger.retrofit.Measure;
import towerledger.retrofit.RetrofitCase;
import towerledger.retrofit.TowerRecord;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;
import towerledger.wording.Cautions;
import towerledger.wording.Words;

/** Works out a retrofit from a system's own record; made to be printed and handed over. */
@Controller
class RetrofitController {

  private static final double INTERVAL = 1.959964;

  private final SiteAccess access;
  private final Ledger ledger;
  private final MessageSource messages;

  RetrofitController(SiteAccess access, Ledger ledger, MessageSource messages) {
    this.access = access;
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

  /**
   * The page.
   *
   * @param measure what may be built in
   * @param fields what is asked
   * @param lead the answer in a sentence, or what to do
   * @param answered whether there is an answer
   * @param figures name and value of each figure
   * @param flow the cash flow
   * @param assumptions what the case rests on
   * @param cautions what to mind when working
   */
  record View(
      String system,
      String name,
      String measure,
      List<String> measures,
      List<Field> fields,
      String lead,
      boolean answered,
      FigureTable figures,
      FigureTable flow,
      List<String> assumptions,
      List<String> cautions) {}

  /** A field with what was typed and what is wrong with it. */
  record Field(String name, String unit, String typed, @Nullable String wrong) {}

  @GetMapping("/retrofit/{code}")
  String show(
      Viewer viewer,
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    CoolingSystem system =
        access
            .findSystem(viewer, code)
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    Words words = new Words(messages, text.locale());
    Measure measure = Measure.find(typed.getOrDefault("measure", "")).orElse(Measure.LEVEL_CONTROL);
    YearMonth newest = ledger.findNewestMonth(viewer).orElse(YearMonth.of(1990, 1));
    List<LedgerEntry> rows = ledger.list(system, newest.minusMonths(11), newest);
    Currency currency =
        rows.isEmpty() ? Currency.getInstance("USD") : rows.get(0).money().currency();
    Map<String, Double> numbers = new LinkedHashMap<>();
    List<Field> fields = new ArrayList<>();
    for (Ask ask : asks(currency.getCurrencyCode(), measure)) {
      String given = typed.getOrDefault(ask.name(), ask.usual());
      OptionalDouble number = TypedNumber.find(given);
      String wrong = null;
      if (number.isEmpty()) {
        wrong = words.of(given.isBlank() ? "field.missing" : "field.number");
      } else if (number.getAsDouble() < ask.lowest() || number.getAsDouble() > ask.highest()) {
        wrong = words.of("field.range", text.tick(ask.lowest()), text.tick(ask.highest()));
      } else {
        numbers.put(ask.name(), number.getAsDouble());
      }
      fields.add(new Field(ask.name(), ask.unit(), given, wrong));
    }
    Optional<TowerRecord.Basis> basis =
        fields.stream().anyMatch(field -> field.wrong() != null)
            ? Optional.empty()
            : new TowerRecord(rows).of(measure, numbers.getOrDefault("cycles", 2.0));
    model.addAttribute(
        "view", view(system, measure, fields, numbers, basis, currency, words, text));
    return "office/retrofit";
  }

  private static View view(
      CoolingSystem system,
      Measure measure,
      List<Field> fields,
      Map<String, Double> numbers,
      Optional<TowerRecord.Basis> basis,
      Currency currency,
      Words words,
      FigureText text) {
    List<String> measures = java.util.Arrays.stream(Measure.values()).map(Measure::code).toList();
    boolean wrong = fields.stream().anyMatch(field -> field.wrong() != null);
    if (basis.isEmpty()) {
      return new View(
          system.code(),
          system.details().name(),
          measure.code(),
          measures,
          fields,
          words.of(wrong ? "retrofit.wrong" : "retrofit.no-basis." + measure.code()),
          false,
          new FigureTable(List.of(""), List.of()),
          new FigureTable(List.of(""), List.of()),
          List.of(),
          List.of());
    }
    double share = numbers.getOrDefault("stops", 0.0) / 100;
    RetrofitCase worked =
        new RetrofitCase(
            numbers.getOrDefault("cost", 1.0),
            basis.get().value() * share,
            basis.get().sigma() * share,
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
    return new View(
        system.code(),
        system.details().name(),
        measure.code(),
        measures,
        fields,
        words.of(
            worked.saving() > 0 ? "retrofit.lead" : "retrofit.lead.nothing",
            system.details().name(),
            saving,
            payback,
            text.odds(worked.chanceOfBreakEven()),
            worked.years()),
        true,
        new FigureTable(
            List.of(words.of("system.figure"), words.of("equipment.value")),
            List.of(
                List.of(words.of("retrofit.saving"), saving),
                List.of(words.of("retrofit.payback"), payback),
                List.of(words.of("retrofit.value", worked.years()), value),
                List.of(words.of("retrofit.chance"), text.odds(worked.chanceOfBreakEven())))),
        flow(worked, currency, words, text),
        List.of(
            words.of("retrofit.basis." + measure.code(), basis.get().months()),
            words.of("retrofit.assumed.same"),
            words.of("retrofit.assumed.estimate")),
        Cautions.of(
            measure == Measure.CYCLES
                ? List.of(towerledger.balance.Cause.LOW_CYCLES)
                : List.of(towerledger.balance.Cause.FILL_VALVE_LEAKING_BY),
            words));
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

  private static Money money(double amount, Currency currency) {
    return new Money(BigDecimal.valueOf(amount).setScale(2, RoundingMode.HALF_EVEN), currency);
  }
}
