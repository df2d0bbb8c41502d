package towerledger.portal;

import java.time.Clock;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import towerledger.account.Customers;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.drawing.SystemMonths;
import towerledger.drawing.WaterBar;
import towerledger.finding.Finding;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthReview;
import towerledger.ledger.ReviewFilter;
import towerledger.page.WaterLegend;
import towerledger.quantity.Volume;
import towerledger.wording.BarText;
import towerledger.wording.MoneyText;
import towerledger.wording.SumText;
import towerledger.wording.VerdictText;
import towerledger.wording.Words;

/** Composes the month of all sites of a customer. */
@Component
class MonthPage {

  private static final int SHOWN = 200;

  private final Ledger ledger;
  private final MonthReview review;
  private final Customers customers;
  private final Doings doings;
  private final MessageSource messages;
  private final Clock clock;

  MonthPage(
      Ledger ledger,
      MonthReview review,
      Customers customers,
      Doings doings,
      MessageSource messages,
      Clock clock) {
    this.ledger = ledger;
    this.review = review;
    this.customers = customers;
    this.doings = doings;
    this.messages = messages;
    this.clock = clock;
  }

  PortalView.Month compose(Viewer viewer, @Nullable YearMonth wanted, FigureText text) {
    Words words = new Words(messages, text.locale());
    Optional<Ledger.Reach> reach = ledger.findReach(viewer);
    YearMonth month =
        wanted != null
            ? wanted
            : reach
                .map(months -> ledger.newestEnded(viewer, months.newest()))
                .orElseGet(() -> YearMonth.from(clock.instant().atZone(clock.getZone())));
    ReviewFilter all = ReviewFilter.all();
    List<MonthReview.Sum> sums = review.sums(viewer, month, all);
    List<LedgerEntry> entries = review.page(viewer, month, all, 0, SHOWN + 1);
    List<LedgerEntry> shown = entries.subList(0, Math.min(SHOWN, entries.size()));
    List<WaterBar> bars = shown.stream().map(entry -> SystemMonths.bar(entry.water())).toList();
    Volume scale =
        Volume.ofLitres(bars.stream().mapToDouble(bar -> bar.reach().litres()).max().orElse(1));
    return new PortalView.Month(
        customers.get(customerOf(viewer)).name(),
        text.month(month),
        reach.flatMap(months -> months.before(month)).map(YearMonth::toString).orElse(null),
        reach.flatMap(months -> months.after(month)).map(YearMonth::toString).orElse(null),
        sentences(sums, month, words, text),
        sums.stream().anyMatch(sum -> sum.wasting() > 0),
        WaterLegend.of(bars, words),
        words.of("portal.scale", text.volume(scale)),
        sites(shown, doings.all(viewer), scale, words, text),
        entries.size() > SHOWN,
        csv(month, month),
        csv(month.minusMonths(11), month));
  }

  private static long customerOf(Viewer viewer) {
    Long customer = viewer.customerId();
    if (customer == null) {
      throw new IllegalStateException(viewer.email() + " is no customer's login");
    }
    return customer;
  }

  static String csv(YearMonth from, YearMonth to) {
    return "/api/v1/ledger.csv?from=%s&to=%s".formatted(from, to);
  }

  private static List<String> sentences(
      List<MonthReview.Sum> sums, YearMonth month, Words words, FigureText text) {
    if (sums.isEmpty()) {
      return List.of(words.of("portal.sentence.nothing", text.month(month)));
    }
    List<String> said = new ArrayList<>();
    for (MonthReview.Sum sum : sums) {
      said.addAll(
          new SumText(words, text)
              .sentences("portal", sum, month, sum.metered() == 0 ? sum.systems() : sum.metered()));
      sum.creditToClaim()
          .map(credit -> words.of("portal.sentence.credit", text.money(credit)))
          .ifPresent(said::add);
    }
    return said;
  }

  private static List<PortalView.SiteRows> sites(
      List<LedgerEntry> entries,
      List<Finding> findings,
      Volume scale,
      Words words,
      FigureText text) {
    Map<String, PortalView.SiteRows> sites = new LinkedHashMap<>();
    for (LedgerEntry entry : entries) {
      sites
          .computeIfAbsent(
              entry.of().site(),
              code -> new PortalView.SiteRows(code, entry.of().siteName(), new ArrayList<>()))
          .rows()
          .add(row(entry, findings, scale, words, text));
    }
    return List.copyOf(sites.values());
  }

  private static PortalView.Row row(
      LedgerEntry entry, List<Finding> findings, Volume scale, Words words, FigureText text) {
    VerdictText verdict = new VerdictText(words, text);
    Double makeup = entry.water().makeup();
    return new PortalView.Row(
        "/portal/systems/" + entry.of().system() + "?month=" + entry.month(),
        entry.of().systemName(),
        BarText.draw(entry, WaterBar.Style.LIST, scale, words, text),
        makeup == null ? words.of("review.not-metered") : text.volume(Volume.ofLitres(makeup)),
        verdict.verdict(entry),
        verdict.causes(entry),
        entry.verdict().waste() ? MoneyText.loss(entry, text, words) : "",
        entry.verdict().waste(),
        Doings.about(entry, findings, words, text));
  }
}
