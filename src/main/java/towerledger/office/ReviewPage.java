package towerledger.office;

import jakarta.servlet.ServletContext;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.drawing.Medium;
import towerledger.drawing.Series;
import towerledger.drawing.Sparkline;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.WaterBar;
import towerledger.finding.Finding;
import towerledger.finding.Findings;
import towerledger.ledger.CustomerLosses;
import towerledger.ledger.CustomerNames;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthEnds;
import towerledger.ledger.MonthReview;
import towerledger.ledger.RememberedReview;
import towerledger.ledger.ReviewFilter;
import towerledger.ledger.TrendMonth;
import towerledger.page.Html;
import towerledger.page.SelectOptions;
import towerledger.page.SelectOptions.Choice;
import towerledger.page.WaterLegend;
import towerledger.quantity.Volume;
import towerledger.query.Answers;
import towerledger.query.Question;
import towerledger.query.Questions;
import towerledger.wording.BarText;
import towerledger.wording.MoneyText;
import towerledger.wording.SumText;
import towerledger.wording.VerdictText;
import towerledger.wording.Words;

/** Composes the month review. */
@Component
class ReviewPage {

  static final int ROWS = 50;
  private static final int MONTHS = 13;

  /** So many calls are a morning's work; the list below has the rest. */
  private static final int CALLS = 5;

  /** Beyond these the search finds a customer sooner than a list. */
  private static final int CUSTOMERS = 300;

  private final Ledger ledger;
  private final Questions questions;
  private final MonthReview review;
  private final RememberedReview remembered;
  private final CustomerNames names;
  private final MessageSource messages;
  private final ServletContext servlets;
  private final Findings findings;

  ReviewPage(
      Ledger ledger,
      Questions questions,
      MonthReview review,
      RememberedReview remembered,
      CustomerNames names,
      MessageSource messages,
      ServletContext servlets,
      Findings findings) {
    this.ledger = ledger;
    this.questions = questions;
    this.review = review;
    this.remembered = remembered;
    this.names = names;
    this.messages = messages;
    this.servlets = servlets;
    this.findings = findings;
  }

  /**
   * The review; empty as long as no month is reckoned.
   *
   * <p>In one transaction: the figures of a page are those of one moment, over one connection.
   *
   * @param listOnly whether only the list is shown
   */
  @Transactional(readOnly = true)
  Optional<ReviewView> find(Viewer viewer, ReviewChoice choice, boolean listOnly, FigureText text) {
    Question<Optional<Ledger.Reach>> reach = ledger.reach(viewer);
    Question<Long> changes = RememberedReview.changes();
    Question<Map<String, String>> customers = names.first(viewer, CUSTOMERS);
    Answers first = questions.ask(reach, changes, customers);
    return first
        .to(reach)
        .map(
            months ->
                compose(
                    viewer,
                    months,
                    first.to(changes),
                    customers(viewer, first.to(customers), choice.customer()),
                    choice,
                    listOnly,
                    text));
  }

  /** Customers to choose from; the chosen one is among them however many there are. */
  private String customers(Viewer viewer, Map<String, String> first, @Nullable String chosen) {
    Map<String, String> named = new LinkedHashMap<>(first);
    if (chosen != null && first.size() == CUSTOMERS && !first.containsKey(chosen)) {
      named.putAll(questions.answer(names.one(viewer, chosen)));
    }
    return SelectOptions.html(
        named.entrySet().stream()
            .map(customer -> new Choice(customer.getKey(), customer.getValue()))
            .toList(),
        chosen);
  }

  private ReviewView compose(
      Viewer viewer,
      Ledger.Reach reach,
      long changes,
      String customers,
      ReviewChoice choice,
      boolean listOnly,
      FigureText text) {
    YearMonth month =
        choice.chosenMonth().orElseGet(() -> ledger.newestEnded(viewer, reach.newest()));
    Words words = new Words(messages, text.locale());
    ReviewFilter filter = choice.filter();
    RememberedReview.Portfolio portfolio =
        remembered.portfolio(
            viewer,
            changes,
            month.minusMonths(MONTHS - 1L),
            month,
            filter,
            ReviewMoney.CUSTOMERS_IN_TABLE);
    int found = portfolio.sums().stream().mapToInt(MonthReview.Sum::systems).sum();
    int pages = Math.max(1, (found + ROWS - 1) / ROWS);
    int page = Math.min(choice.pageNumber(), pages);
    Question<List<LedgerEntry>> rows = review.rows(viewer, month, filter, (page - 1) * ROWS, ROWS);
    Question<List<CustomerLosses>> dearest = MonthReview.named(portfolio.customers());
    Question<Integer> closable = MonthEnds.closable(month);
    Answers answers = questions.ask(rows, dearest, closable);
    List<LedgerEntry> entries = answers.to(rows);
    Volume scale = scale(entries);
    ReviewMoney money = new ReviewMoney(words, text);
    return new ReviewView(
        month.toString(),
        text.month(month),
        reach.before(month).map(choice::inMonth).orElse(null),
        reach.after(month).map(choice::inMonth).orElse(null),
        months(reach, month, text),
        reach.holds(month)
            ? null
            : words.of(
                "review.beyond",
                text.month(month),
                text.month(reach.oldest()),
                text.month(reach.newest())),
        portfolio.sums().stream().map(sum -> sums(sum, month, words, text)).toList(),
        listOnly || choice.isNarrowed() || page > 1 ? List.of() : calls(entries, words, text),
        money.plates(month, portfolio.months(), answers.to(dearest)),
        choice,
        customers,
        WaterLegend.of(
            entries.stream().map(entry -> SystemMonths.bar(entry.water())).toList(), words),
        portfolio.sums().size() < 2
            ? words.of("review.scale", text.volume(scale))
            : words.of("review.scale", text.volume(scale)) + " " + words.of("review.currencies"),
        rows(changes, entries, month, (page - 1) * ROWS, scale, words, text),
        turning(found, page, pages, choice, words),
        "/api/v1/ledger.csv?from=%s&to=%s".formatted(month, month),
        listOnly ? 0 : answers.to(closable));
  }

  private List<ReviewView.Call> calls(List<LedgerEntry> entries, Words words, FigureText text) {
    VerdictText verdict = new VerdictText(words, text);
    List<LedgerEntry> dearest =
        entries.stream().filter(entry -> entry.verdict().waste()).limit(CALLS).toList();
    Map<String, Finding> underWay =
        findings.findUnderWay(dearest.stream().map(entry -> entry.of().system()).toList());
    return dearest.stream()
        .map(
            entry ->
                new ReviewView.Call(
                    entry.of().customerName(),
                    path(entry),
                    entry.of().systemName(),
                    verdict.causes(entry),
                    verdict.next(entry.verdict().likeliest()),
                    MoneyText.loss(entry, text, words),
                    sent(underWay.get(entry.of().system()), words)))
        .toList();
  }

  /** Who is on it already; null where nobody is. */
  private static @Nullable String sent(@Nullable Finding finding, Words words) {
    if (finding == null) {
      return null;
    }
    return finding.status().awaitsWork()
        ? finding.assignee().map(who -> words.of("review.call.sent", who.name())).orElse(null)
        : words.of("review.call.worked");
  }

  private static String path(LedgerEntry entry) {
    return "/systems/" + entry.of().system() + "?month=" + entry.month();
  }

  private static Volume scale(List<LedgerEntry> entries) {
    return Volume.ofLitres(
        entries.stream()
            .mapToDouble(entry -> SystemMonths.bar(entry.water()).reach().litres())
            .max()
            .orElse(1));
  }

  private static String months(Ledger.Reach reach, YearMonth chosen, FigureText text) {
    List<Choice> months = new ArrayList<>();
    for (YearMonth month = reach.newest();
        !month.isBefore(reach.oldest());
        month = month.minusMonths(1)) {
      months.add(new Choice(month.toString(), text.month(month)));
    }
    return SelectOptions.html(months, chosen.toString());
  }

  private static ReviewView.Sums sums(
      MonthReview.Sum sum, YearMonth month, Words words, FigureText text) {
    SumText said = new SumText(words, text);
    String unknown = words.of("figure.unknown");
    String none = words.of("money.none");
    return new ReviewView.Sums(
        String.join(" ", said.sentences("review", sum, month, sum.metered())),
        sum.creditToClaim()
            .map(credit -> words.of("review.sentence.credit", text.money(credit)))
            .orElse(""),
        sum.metered() == 0 ? unknown : said.makeup(sum),
        sum.metered() == 0 ? unknown : said.explained(sum),
        sum.metered() == 0 ? unknown : sum.wasting() == 0 ? none : said.wasted(sum),
        sum.metered() == 0 ? unknown : sum.wasting() == 0 ? none : said.cost(sum),
        sum.creditKnown().map(text::money).orElse(unknown),
        sum.wasting() > 0);
  }

  private String rows(
      long changes,
      List<LedgerEntry> entries,
      YearMonth month,
      int before,
      Volume scale,
      Words words,
      FigureText text) {
    YearMonth first = month.minusMonths(MONTHS - 1L);
    Map<Long, List<TrendMonth>> lines =
        remembered.lines(
            changes, entries.stream().map(e -> e.of().systemId()).toList(), first, month);
    String unaccounted = words.of("review.unaccounted", text.volumeUnitName());
    String cost = words.of("review.cost");
    Html rows = new Html(entries.size() * 6_000);
    int rank = before;
    for (LedgerEntry entry : entries) {
      rank++;
      String line = line(entry, lines.getOrDefault(entry.of().systemId(), List.of()), first, words);
      row(entry, rank, scale, line, words, text).write(rows, unaccounted, cost);
    }
    return rows.toString();
  }

  private ReviewView.Row row(
      LedgerEntry entry, int rank, Volume scale, String line, Words words, FigureText text) {
    VerdictText verdict = new VerdictText(words, text);
    boolean flagged = entry.verdict().flagged();
    return new ReviewView.Row(
        rank,
        servlets.getContextPath() + path(entry),
        entry.of().systemName(),
        words.of("review.whose", entry.of().siteName(), entry.of().customerName()),
        BarText.draw(entry, WaterBar.Style.LIST, scale, words, text),
        unaccounted(entry, words, text),
        entry.verdict().waste() ? MoneyText.loss(entry, text, words) : "",
        entry.verdict().waste(),
        verdict.verdict(entry),
        verdict.causes(entry),
        flagged ? verdict.next(entry.verdict().likeliest()) : "",
        verdict.evidence(entry),
        line);
  }

  /** The months up to this one in the width of a word; a scale of its own, so litres will do. */
  private static String line(
      LedgerEntry entry, List<TrendMonth> months, YearMonth first, Words words) {
    double[] makeup = unknown();
    double[] low = unknown();
    double[] high = unknown();
    double[] waste = unknown();
    long wasting = 0;
    for (TrendMonth month : months) {
      int slot = (int) first.until(month.month(), ChronoUnit.MONTHS);
      makeup[slot] = number(month.makeup());
      low[slot] = number(month.expectedLow());
      high[slot] = number(month.expectedHigh());
      waste[slot] = month.waste() ? 1 : 0;
      wasting += month.waste() ? 1 : 0;
    }
    return Sparkline.draw(
        Medium.PAGE,
        Series.of(makeup),
        Series.of(low),
        Series.of(high),
        Series.of(waste),
        words.of("review.trend.title", entry.of().systemName(), wasting));
  }

  private static double[] unknown() {
    double[] months = new double[MONTHS];
    Arrays.fill(months, Double.NaN);
    return months;
  }

  private static double number(@Nullable Double value) {
    return value == null ? Double.NaN : value;
  }

  private static String unaccounted(LedgerEntry entry, Words words, FigureText text) {
    Double value = entry.water().unaccounted();
    Double low = entry.water().unaccountedLow();
    Double high = entry.water().unaccountedHigh();
    return value == null || low == null || high == null
        ? words.of("review.not-metered")
        : text.bareEstimate(Volume.ofLitres(value), Volume.ofLitres(low), Volume.ofLitres(high));
  }

  private static ReviewView.Turning turning(
      int found, int page, int pages, ReviewChoice choice, Words words) {
    int first = found == 0 ? 0 : (page - 1) * ROWS + 1;
    return new ReviewView.Turning(
        words.of("review.turning", first, Math.min(found, page * ROWS), found),
        page > 1 ? choice.turnedTo(page - 1) : null,
        page < pages ? choice.turnedTo(page + 1) : null);
  }
}
