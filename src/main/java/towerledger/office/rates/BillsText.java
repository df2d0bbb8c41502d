package towerledger.office.rates;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import towerledger.drawing.FigureText;
import towerledger.ledger.SiteBills.Checked;
import towerledger.ledger.SiteBills.Claimed;
import towerledger.page.FigureTable;
import towerledger.quantity.Money;
import towerledger.site.Site;
import towerledger.tariff.BillCheck;
import towerledger.tariff.Claim;
import towerledger.tariff.Projection;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.UtilityBill;
import towerledger.wording.Words;

/** Puts a site's bills and claims into words and figures. */
final class BillsText {

  private static final String UNKNOWN = "–";

  private final Words words;
  private final FigureText text;

  BillsText(Words words, FigureText text) {
    this.words = words;
    this.text = text;
  }

  BillsView view(
      Site site, List<Checked> checked, List<Claimed> claimed, Optional<RateSchedule> sewer) {
    List<Claim> due =
        claimed.stream()
            .map(Claimed::claim)
            .filter(java.util.Objects::nonNull)
            .sorted(Comparator.comparing((Claim c) -> c.use().startInclusive()).reversed())
            .toList();
    long odd =
        checked.stream().filter(c -> c.check() != null && !c.check().reasons().isEmpty()).count();
    return new BillsView(
        site.code(),
        site.details().name(),
        checked.isEmpty()
            ? words.of("bills.kept", 0)
            : String.join(
                " ",
                words.of("bills.kept", checked.size()),
                words.of("bills.odd", odd),
                words.of("bills.claims", due.size())),
        checked.isEmpty() ? null : table(checked),
        Stream.concat(
                checked.stream().flatMap(this::findings), claimed.stream().flatMap(this::notes))
            .distinct()
            .toList(),
        due.stream().map(this::claim).toList(),
        projection(due, sewer));
  }

  private FigureTable table(List<Checked> checked) {
    return new FigureTable(
        Stream.of("bill", "billed", "metered", "amount", "expected", "credit-due")
            .map(key -> words.of("bills." + key))
            .toList(),
        checked.stream().map(this::row).toList());
  }

  private List<String> row(Checked checked) {
    UtilityBill bill = checked.bill();
    BillCheck check = checked.check();
    String unit = check == null ? "" : " " + check.unit();
    return List.of(
        title(bill),
        units(bill.units(), unit),
        check == null ? UNKNOWN : units(check.meteredUnits(), unit),
        bill.amount() == null ? UNKNOWN : bill.amount().toPlainString(),
        check == null || check.expected() == null
            ? UNKNOWN
            : text.exactMoney(check.expected().total()),
        check == null || check.creditDue() == null ? UNKNOWN : text.exactMoney(check.creditDue()));
  }

  private String title(UtilityBill bill) {
    return words.of(
        "bills.of",
        words.of("rates.service." + bill.service().code()),
        text.day(bill.from()),
        text.day(bill.to().minusDays(1)));
  }

  private String units(@Nullable BigDecimal units, String unit) {
    return units == null ? UNKNOWN : text.decimals(units.doubleValue(), 1) + unit;
  }

  private Stream<String> findings(Checked checked) {
    return Stream.concat(
            checked.check() == null
                ? Stream.empty()
                : checked.check().reasons().stream().map(BillCheck.Reason::text),
            checked.notes().stream())
        .map(finding -> title(checked.bill()) + ": " + finding);
  }

  private Stream<String> notes(Claimed claimed) {
    return claimed.notes().stream().map(note -> title(claimed.bill()) + ": " + note);
  }

  private BillsView.ClaimText claim(Claim claim) {
    LocalDate from = claim.use().startInclusive();
    LocalDate to = claim.use().endExclusive();
    List<BillsView.Fact> facts = new ArrayList<>();
    fact(facts, "schedule", claim.schedule());
    fact(facts, "rule", words.of("rates.credit." + claim.rule().method().code()));
    if (claim.rule().deadline() != null) {
      fact(facts, "deadline", claim.rule().deadline());
    }
    fact(
        facts,
        "volume",
        text.decimals(claim.volume().in(claim.unit()), 2) + " " + claim.unit().code());
    fact(facts, "due", text.exactMoney(claim.due()));
    Money given = claim.claimed();
    fact(facts, "given", given == null ? words.of("bills.not-known") : text.exactMoney(given));
    fact(facts, "left", text.exactMoney(claim.unclaimed()));
    return new BillsView.ClaimText(
        words.of("bills.claim", text.day(from), text.day(to.minusDays(1))),
        words.of(
            "bills.claim.says", text.exactMoney(claim.due()), text.exactMoney(claim.unclaimed())),
        facts,
        claim.working(),
        new FigureTable(
            Stream.of("source", "reading", "when").map(key -> words.of("bills." + key)).toList(),
            claim.evidence().stream()
                .map(e -> List.of(e.source(), e.reading(), e.when()))
                .toList()),
        claim.disclosures());
  }

  private void fact(List<BillsView.Fact> facts, String key, String value) {
    facts.add(new BillsView.Fact(words.of("bills." + key), value));
  }

  /** Five years of what the newest year of bills left unclaimed. */
  private @Nullable FigureTable projection(List<Claim> due, Optional<RateSchedule> sewer) {
    if (due.isEmpty()) {
      return null;
    }
    LocalDate yearBefore = due.get(0).use().endExclusive().minusYears(1);
    Money annual =
        due.stream()
            .filter(claim -> !claim.use().startInclusive().isBefore(yearBefore))
            .map(Claim::unclaimed)
            .reduce(Money.zero(due.get(0).due().currency()), Money::plus);
    if (annual.amount().signum() == 0) {
      return null;
    }
    List<Projection.Scenario> scenarios = new ArrayList<>(Projection.USUAL);
    sewer
        .flatMap(
            schedule ->
                Projection.asInThePast(schedule, due.get(0).use(), due.get(0).due().currency()))
        .ifPresent(scenarios::add);
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
}
