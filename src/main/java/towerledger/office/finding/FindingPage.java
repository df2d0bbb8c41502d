package towerledger.office.finding;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Viewer;
import towerledger.balance.Cause;
import towerledger.drawing.FigureText;
import towerledger.finding.Finding;
import towerledger.finding.FindingStatus;
import towerledger.finding.Findings;
import towerledger.finding.Range;
import towerledger.logsheet.LogRecords;
import towerledger.office.SystemEvents;
import towerledger.quantity.Money;
import towerledger.quantity.Span;
import towerledger.quantity.Volume;
import towerledger.site.Sites;
import towerledger.wording.Cautions;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Composes the pages of findings. */
@Component
class FindingPage {

  static final Map<String, Set<FindingStatus>> GROUPS = groups();
  private static final int ROWS = 50;

  /** So many visits are shown, the newest. */
  private static final int VISITS = 8;

  private final Findings findings;
  private final Sites sites;
  private final LogRecords records;
  private final MessageSource messages;
  private final Clock clock;

  FindingPage(
      Findings findings, Sites sites, LogRecords records, MessageSource messages, Clock clock) {
    this.findings = findings;
    this.sites = sites;
    this.records = records;
    this.messages = messages;
    this.clock = clock;
  }

  private static Map<String, Set<FindingStatus>> groups() {
    Map<String, Set<FindingStatus>> groups = new LinkedHashMap<>();
    groups.put(
        "waiting",
        EnumSet.of(FindingStatus.OPEN, FindingStatus.ASSIGNED, FindingStatus.NO_SAVING_SEEN));
    groups.put("worked", EnumSet.of(FindingStatus.WORKED, FindingStatus.NOT_YET_PROVABLE));
    groups.put("settled", EnumSet.of(FindingStatus.VERIFIED, FindingStatus.ENDED));
    return groups;
  }

  /** The list, read in one transaction. */
  @Transactional(readOnly = true)
  FindingViews.Listing listing(Viewer viewer, String wanted, int offset, FigureText text) {
    Words words = new Words(messages, text.locale());
    String group = GROUPS.containsKey(wanted) ? wanted : "waiting";
    Set<FindingStatus> statuses = GROUPS.getOrDefault(group, Set.of());
    Map<FindingStatus, Long> counts = findings.count(viewer);
    List<FindingViews.Group> counted =
        GROUPS.entrySet().stream()
            .map(g -> new FindingViews.Group(g.getKey(), sum(counts, g.getValue())))
            .toList();
    List<Finding> found = findings.list(viewer, statuses, Math.max(0, offset), ROWS + 1);
    List<FindingViews.Row> rows =
        found.stream().limit(ROWS).map(f -> row(viewer, f, words, text)).toList();
    String lead =
        words.of(
            "finding.lead." + group,
            counted.stream()
                .filter(g -> g.name().equals(group))
                .mapToLong(FindingViews.Group::count)
                .sum(),
            counted.get(0).count());
    boolean severalCurrencies =
        viewer.canSeePrices() && found.stream().map(Finding::currency).distinct().count() > 1;
    return new FindingViews.Listing(
        severalCurrencies ? lead + " " + words.of("review.currencies") : lead,
        group,
        counted,
        rows,
        viewer.canSeePrices(),
        offset > 0 ? address(group, Math.max(0, offset - ROWS)) : null,
        found.size() > ROWS ? address(group, offset + ROWS) : null);
  }

  private static long sum(Map<FindingStatus, Long> counts, Set<FindingStatus> statuses) {
    return statuses.stream().mapToLong(status -> counts.getOrDefault(status, 0L)).sum();
  }

  private static String address(String group, int offset) {
    return "/findings?show=" + group + "&offset=" + offset;
  }

  private FindingViews.Row row(Viewer viewer, Finding finding, Words words, FigureText text) {
    return new FindingViews.Row(
        finding.id(),
        finding.of().systemName(),
        words.of("review.whose", finding.of().siteName(), finding.of().customerName()),
        causes(finding, words, text),
        since(finding, text),
        viewer.canSeePrices() ? yearly(finding, words, text) : "",
        words.of("finding.status." + finding.status().code()),
        finding.assignee().map(Finding.Assignee::name).orElse(words.of("finding.nobody")),
        finding.waste());
  }

  @Transactional(readOnly = true)
  FindingViews.Page page(
      Viewer viewer, Finding finding, FindingViews.Typed typed, FigureText text) {
    Words words = new Words(messages, text.locale());
    ZoneId zone = ZoneId.of(finding.of().zone());
    return new FindingViews.Page(
        finding.id(),
        finding.version(),
        finding.of().system(),
        finding.of().systemName(),
        words.of("review.whose", finding.of().siteName(), finding.of().customerName()),
        sentences(viewer, finding, words, text, zone),
        isPriced(viewer, finding) && finding.status().goesOn(),
        words.of("finding.status." + finding.status().code()),
        finding.causeSet().stream()
            .map(
                cause ->
                    new FindingViews.CauseAdvice(
                        words.of("cause." + cause.code()),
                        words.of("cause." + cause.code() + ".next"),
                        words.of("cause." + cause.code() + ".parts")))
            .toList(),
        figures(viewer, finding, words, text, zone),
        Cautions.of(finding.causeSet(), words),
        steps(finding, words, text, zone),
        visits(finding, words, text, zone),
        viewer.canAdminister() ? findings.listAssignable(finding) : List.of(),
        finding.assignee().map(Finding.Assignee::id).orElse(0L),
        viewer.canAdminister(),
        LocalDate.ofInstant(clock.instant(), zone).toString(),
        finding.last().toString(),
        new FindingViews.Typed(
            typed.form(),
            new ReasonText(words, text).say(typed.trouble()),
            typed.note(),
            typed.day()));
  }

  private List<String> sentences(
      Viewer viewer, Finding finding, Words words, FigureText text, ZoneId zone) {
    List<String> said = new ArrayList<>();
    String since =
        finding.onsetAt().map(at -> text.moment(at, zone)).orElseGet(() -> since(finding, text));
    boolean goesOn = finding.status().goesOn();
    String until = text.month(finding.last());
    said.add(
        words.of(
            (finding.waste() ? "finding.says.waste" : "finding.says.flagged")
                + (goesOn ? "" : ".past"),
            finding.of().systemName(),
            goesOn || since.equals(until) ? since : words.of("finding.months", since, until),
            causes(finding, words, text)));
    if (isPriced(viewer, finding)) {
      said.add(
          words.of(
              goesOn ? "finding.says.yearly" : "finding.says.yearly.past",
              yearly(finding, words, text)));
    }
    finding
        .saved()
        .ifPresentOrElse(
            saved ->
                said.add(
                    words.of(
                        "finding.says." + finding.status().code(),
                        saved.months(),
                        litres(saved.litres(), text),
                        saved
                            .amount()
                            .filter(amount -> viewer.canSeePrices())
                            .map(amount -> money(finding, amount, text))
                            .orElse(words.of("money.unpriced")))),
            () -> {
              if (finding.status() == FindingStatus.WORKED
                  || finding.status() == FindingStatus.ENDED) {
                said.add(words.of("finding.says." + finding.status().code()));
              }
            });
    return said;
  }

  /** Whether the viewer is told what the loss costs a year. */
  private static boolean isPriced(Viewer viewer, Finding finding) {
    return finding.waste() && viewer.canSeePrices() && finding.yearlyAmount().isPresent();
  }

  private List<FindingViews.Figure> figures(
      Viewer viewer, Finding finding, Words words, FigureText text, ZoneId zone) {
    List<FindingViews.Figure> figures = new ArrayList<>();
    figures.add(
        new FindingViews.Figure(
            words.of("finding.flagged"),
            finding.first().equals(finding.last())
                ? text.month(finding.first())
                : words.of(
                    "finding.months", text.month(finding.first()), text.month(finding.last()))));
    finding
        .detectedAt()
        .ifPresent(
            at ->
                figures.add(
                    new FindingViews.Figure(words.of("finding.detected"), text.moment(at, zone))));
    finding
        .lossSince()
        .ifPresent(
            range ->
                figures.add(
                    new FindingViews.Figure(words.of("finding.loss-since"), litres(range, text))));
    finding
        .yearlyLitres()
        .ifPresent(
            range ->
                figures.add(
                    new FindingViews.Figure(
                        words.of("finding.yearly-water"), litres(range, text))));
    if (viewer.canSeePrices() && finding.waste()) {
      figures.add(
          new FindingViews.Figure(words.of("finding.yearly"), yearly(finding, words, text)));
    }
    return figures;
  }

  private List<FindingViews.Step> steps(
      Finding finding, Words words, FigureText text, ZoneId zone) {
    return findings.listSteps(finding).stream()
        .map(
            step ->
                new FindingViews.Step(
                    text.stamp(step.at(), zone),
                    words.of("finding.step." + step.kind()),
                    step.actor().equals("ledger") ? words.of("finding.by-ledger") : step.actor(),
                    step.note()))
        .toList();
  }

  private List<SystemEvents.Visited> visits(
      Finding finding, Words words, FigureText text, ZoneId zone) {
    Instant from = finding.began();
    Instant until =
        LocalDate.ofInstant(finding.workedAt().orElseGet(clock::instant), zone)
            .plusDays(1)
            .atStartOfDay(zone)
            .toInstant();
    if (!from.isBefore(until)) {
      return List.of();
    }
    long system = sites.getSystem(finding.of().system()).id();
    return SystemEvents.visits(
        records
            .listVisitNotes(List.of(system), Span.of(from, until))
            .getOrDefault(system, List.of()),
        VISITS,
        zone,
        words,
        text);
  }

  private static String causes(Finding finding, Words words, FigureText text) {
    String odds = text.odds(finding.probability());
    if (finding.causeSet().size() > 1) {
      return words.of(
          "verdict.cannot-separate",
          finding.causeSet().stream()
              .map(cause -> cause(cause, words))
              .collect(Collectors.joining(words.of("verdict.or"))),
          odds);
    }
    return words.of("verdict.likeliest", cause(finding.likeliest(), words), odds);
  }

  private static String cause(Cause cause, Words words) {
    return words.of("cause." + cause.code());
  }

  private static String since(Finding finding, FigureText text) {
    return text.month(finding.onset().orElse(finding.first()));
  }

  private static String yearly(Finding finding, Words words, FigureText text) {
    if (!finding.waste()) {
      return words.of("money.none");
    }
    return finding
        .yearlyAmount()
        .map(range -> money(finding, range, text))
        .orElse(words.of("money.unpriced"));
  }

  private static String litres(Range range, FigureText text) {
    return text.estimate(
        Volume.ofLitres(range.value()),
        Volume.ofLitres(range.low()),
        Volume.ofLitres(range.high()));
  }

  private static String money(Finding finding, Range range, FigureText text) {
    return text.estimate(
        money(finding, range.value()), money(finding, range.low()), money(finding, range.high()));
  }

  private static Money money(Finding finding, double amount) {
    return new Money(
        BigDecimal.valueOf(amount).setScale(2, RoundingMode.HALF_EVEN), finding.currency());
  }
}
