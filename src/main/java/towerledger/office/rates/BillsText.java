package towerledger.office.rates;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Comparator;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Set;
import java.util.function.Function;
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
import towerledger.tariff.UtilityBill;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Puts a site's bills and claims into words and figures. */
final class BillsText {

  private static final String UNKNOWN = "–";

  private final Words words;
  private final FigureText text;
  private final Currency currency;

  BillsText(Words words, FigureText text, Currency currency) {
    this.words = words;
    this.text = text;
    this.currency = currency;
  }

  BillsView view(
      Site site, List<Checked> checked, List<Claimed> claimed, BillsView.FiveYears fiveYears) {
    List<Checked> all = newestFirst(checked);
    List<Claim> due = claims(claimed);
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
        checked.isEmpty() ? null : table(newest(all, c -> c.bill().from())),
        checked.isEmpty() ? null : older(all, c -> c.bill().from(), this::table),
        remarks(checked, claimed),
        due.isEmpty() ? null : claimTable(newest(due, BillsText::begin)),
        due.isEmpty() ? null : older(due, BillsText::begin, this::claimTable),
        due.stream().map(claim -> claim.use().startInclusive().getYear()).distinct().toList(),
        fiveYears);
  }

  /** The claims there are, newest first. */
  static List<Claim> claims(List<Claimed> claimed) {
    return claimed.stream()
        .map(Claimed::claim)
        .filter(Objects::nonNull)
        .sorted(Comparator.comparing((Claim c) -> c.use().startInclusive()).reversed())
        .toList();
  }

  private static LocalDate begin(Claim claim) {
    return claim.use().startInclusive();
  }

  /** Of rows from the newest on, those of the newest year. */
  private static <T> List<T> newest(List<T> rows, Function<T, LocalDate> begin) {
    LocalDate yearBefore = begin.apply(rows.get(0)).minusYears(1);
    return rows.stream().filter(row -> begin.apply(row).isAfter(yearBefore)).toList();
  }

  /** The rest of them; null where there is none. */
  private static <T> @Nullable FigureTable older(
      List<T> rows, Function<T, LocalDate> begin, Function<List<T>, FigureTable> table) {
    List<T> older = rows.subList(newest(rows, begin).size(), rows.size());
    return older.isEmpty() ? null : table.apply(older);
  }

  private FigureTable table(List<Checked> checked) {
    return new FigureTable(
            Stream.of("bill", "billed", "metered", "amount", "expected", "credit-due")
                .map(key -> words.of("bills." + key))
                .toList(),
            checked.stream().map(this::row).toList())
        .withoutUnknown();
  }

  private List<String> row(Checked checked) {
    UtilityBill bill = checked.bill();
    BillCheck check = checked.check();
    BigDecimal amount = bill.amount();
    String unit = check == null ? "" : " " + check.unit();
    return List.of(
        title(bill),
        units(bill.units(), unit),
        check == null ? UNKNOWN : units(check.meteredUnits(), unit),
        amount == null ? UNKNOWN : text.exactMoney(Money.of(amount, currency)),
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

  private static List<Checked> newestFirst(List<Checked> checked) {
    return checked.stream()
        .sorted(Comparator.comparing((Checked c) -> c.bill().from()).reversed())
        .toList();
  }

  /** What is remarked of the bills; what is remarked of several is said once. */
  private List<String> remarks(List<Checked> checked, List<Claimed> claimed) {
    Map<String, Set<UtilityBill>> bills = new LinkedHashMap<>();
    for (Checked each : newestFirst(checked)) {
      Stream.concat(
              each.check() == null
                  ? Stream.empty()
                  : each.check().reasons().stream().map(BillCheck.Reason::text),
              each.notes().stream())
          .forEach(
              said -> bills.computeIfAbsent(said, s -> new LinkedHashSet<>()).add(each.bill()));
    }
    for (Claimed each : claimed) {
      each.notes()
          .forEach(
              said -> bills.computeIfAbsent(said, s -> new LinkedHashSet<>()).add(each.bill()));
    }
    ReasonText reasons = new ReasonText(words, text);
    return bills.entrySet().stream()
        .map(said -> remark(reasons.say(said.getKey()), said.getValue()))
        .toList();
  }

  private String remark(String said, Set<UtilityBill> bills) {
    if (bills.size() == 1) {
      return title(bills.iterator().next()) + ": " + said;
    }
    return words.of(
        "bills.several",
        bills.size(),
        text.day(
            bills.stream().map(UtilityBill::from).min(Comparator.naturalOrder()).orElseThrow()),
        text.day(
            bills.stream()
                .map(UtilityBill::to)
                .max(Comparator.naturalOrder())
                .orElseThrow()
                .minusDays(1)),
        said);
  }

  private FigureTable claimTable(List<Claim> due) {
    return new FigureTable(
        Stream.of("claim", "volume", "due", "given", "left")
            .map(key -> words.of("bills." + key))
            .toList(),
        due.stream().map(this::claimRow).toList());
  }

  private List<String> claimRow(Claim claim) {
    Money given = claim.claimed();
    return List.of(
        words.of(
            "finding.months",
            text.day(claim.use().startInclusive()),
            text.day(claim.use().endExclusive().minusDays(1))),
        text.decimals(claim.volume().in(claim.unit()), 2) + " " + claim.unit().code(),
        text.exactMoney(claim.due()),
        given == null ? words.of("bills.not-known") : text.exactMoney(given),
        text.exactMoney(claim.unclaimed()));
  }
}
