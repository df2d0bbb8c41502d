package towerledger.portal;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.YearMonth;
import java.util.List;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.ledger.Ledger;
import towerledger.ledger.SiteYears;
import towerledger.ledger.SiteYears.SiteYear;
import towerledger.quantity.Money;
import towerledger.wording.MoneyText;
import towerledger.wording.WaterText;
import towerledger.wording.Words;

/** Composes a year's sewer credits: what evaporated, what it deserves, what was credited. */
@Component
class CreditsPage {

  /** More than any one customer has. */
  private static final int MOST_SITES = 1000;

  private final Ledger ledger;
  private final SiteYears years;
  private final MessageSource messages;
  private final Clock clock;

  CreditsPage(Ledger ledger, SiteYears years, MessageSource messages, Clock clock) {
    this.ledger = ledger;
    this.years = years;
    this.messages = messages;
    this.clock = clock;
  }

  PortalView.Credits compose(Viewer viewer, @Nullable Integer wanted, FigureText text) {
    Words words = new Words(messages, text.locale());
    Ledger.Reach reach =
        ledger
            .findReach(viewer)
            .orElseGet(
                () -> {
                  YearMonth now = YearMonth.from(clock.instant().atZone(clock.getZone()));
                  return new Ledger.Reach(now, now);
                });
    int year = wanted == null ? reach.newest().getYear() : wanted;
    List<SiteYear> sites = years.list(viewer, year, 0, MOST_SITES);
    return new PortalView.Credits(
        Integer.toString(year),
        reach.yearBefore(year).map(String::valueOf).orElse(null),
        reach.yearAfter(year).map(String::valueOf).orElse(null),
        lead(year, sites, words, text),
        text.volumeUnitName(),
        sites.stream().map(site -> row(site, words, text)).toList());
  }

  private static String lead(int year, List<SiteYear> sites, Words words, FigureText text) {
    List<SiteYear> known = sites.stream().filter(site -> site.due() != null).toList();
    if (known.isEmpty()) {
      return words.of("portal.credits.none", Integer.toString(year));
    }
    BigDecimal open =
        known.stream()
            .map(SiteYear::unclaimed)
            .filter(Objects::nonNull)
            .reduce(BigDecimal.ZERO, BigDecimal::add);
    return words.of(
        open.signum() > 0 ? "portal.credits.lead" : "portal.credits.lead.claimed",
        Integer.toString(year),
        text.money(new Money(open, known.get(0).currency())));
  }

  private static PortalView.CreditRow row(SiteYear site, Words words, FigureText text) {
    return new PortalView.CreditRow(
        site.name(),
        new WaterText(words, text).bareEvaporated(site),
        MoneyText.credit(site.due(), site.currency(), text, words),
        MoneyText.amount(site.credited(), site.currency(), text, words),
        MoneyText.credit(site.unclaimed(), site.currency(), text, words));
  }
}
