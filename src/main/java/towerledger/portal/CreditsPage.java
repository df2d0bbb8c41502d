package towerledger.portal;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.wording.Words;

/** Composes a year's sewer credits: what evaporated, what it deserves, what was credited. */
@Component
class CreditsPage {

  private final Ledger ledger;
  private final MessageSource messages;
  private final Clock clock;

  CreditsPage(Ledger ledger, MessageSource messages, Clock clock) {
    this.ledger = ledger;
    this.messages = messages;
    this.clock = clock;
  }

  /** What a site gathers over a year; null is not known. */
  private static final class SiteYear {

    private final String name;
    private final Currency currency;
    private @Nullable Double evaporatedLitres;
    private @Nullable BigDecimal deserved;
    private @Nullable BigDecimal credited;
    private BigDecimal unclaimed = BigDecimal.ZERO;

    private SiteYear(LedgerEntry first) {
      this.name = first.of().siteName();
      this.currency = first.money().currency();
    }

    private void add(LedgerEntry entry) {
      Double evaporation = entry.water().evaporation();
      Double drift = entry.water().drift();
      if (evaporation != null) {
        evaporatedLitres =
            (evaporatedLitres == null ? 0 : evaporatedLitres)
                + evaporation
                + (drift == null ? 0 : drift);
      }
      BigDecimal due = entry.money().creditAmount();
      BigDecimal given = entry.money().creditClaimed();
      deserved = plus(deserved, due);
      credited = plus(credited, given);
      BigDecimal left = entry.money().creditUnclaimed();
      if (left != null) {
        unclaimed = unclaimed.add(left);
      }
    }

    private static @Nullable BigDecimal plus(@Nullable BigDecimal sum, @Nullable BigDecimal more) {
      return more == null ? sum : sum == null ? more : sum.add(more);
    }

    private PortalView.CreditRow row(Words words, FigureText text) {
      return new PortalView.CreditRow(
          name,
          evaporatedLitres == null
              ? words.of("figure.unknown")
              : text.bareVolume(Volume.ofLitres(evaporatedLitres)),
          money(deserved, words, text),
          money(credited, words, text),
          deserved == null ? words.of("figure.unknown") : money(unclaimed, words, text));
    }

    private String money(@Nullable BigDecimal amount, Words words, FigureText text) {
      return amount == null ? words.of("figure.unknown") : text.money(new Money(amount, currency));
    }
  }

  PortalView.Credits compose(Viewer viewer, @Nullable Integer wanted, FigureText text) {
    Words words = new Words(messages, text.locale());
    int newest =
        ledger
            .findNewestMonth(viewer)
            .map(YearMonth::getYear)
            .orElseGet(() -> clock.instant().atZone(clock.getZone()).getYear());
    int year = wanted == null ? newest : wanted;
    Map<String, SiteYear> sites = new TreeMap<>();
    ledger.forEach(
        viewer,
        YearMonth.of(year, 1),
        YearMonth.of(year, 12),
        null,
        entry -> sites.computeIfAbsent(entry.of().site(), code -> new SiteYear(entry)).add(entry));
    List<PortalView.CreditRow> rows = new ArrayList<>();
    sites.values().forEach(site -> rows.add(site.row(words, text)));
    return new PortalView.Credits(
        Integer.toString(year),
        year > newest - 5 ? Integer.toString(year - 1) : null,
        year < newest ? Integer.toString(year + 1) : null,
        lead(year, List.copyOf(sites.values()), words, text),
        text.volumeUnitName(),
        rows);
  }

  private static String lead(int year, List<SiteYear> sites, Words words, FigureText text) {
    List<SiteYear> known = sites.stream().filter(site -> site.deserved != null).toList();
    if (known.isEmpty()) {
      return words.of("portal.credits.none", Integer.toString(year));
    }
    BigDecimal open =
        known.stream().map(site -> site.unclaimed).reduce(BigDecimal.ZERO, BigDecimal::add);
    return words.of(
        open.signum() > 0 ? "portal.credits.lead" : "portal.credits.lead.claimed",
        Integer.toString(year),
        text.money(new Money(open, known.get(0).currency)));
  }
}
