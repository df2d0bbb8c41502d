package towerledger.office.credits;

import java.time.LocalDate;
import java.time.LocalDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Component;
import towerledger.account.Customers;
import towerledger.drawing.FigureText;
import towerledger.ledger.SiteBills;
import towerledger.page.FigureTable;
import towerledger.quantity.Money;
import towerledger.quantity.Volume;
import towerledger.quantity.VolumeUnit;
import towerledger.site.Site;
import towerledger.tariff.Claim;
import towerledger.tariff.CreditRule;
import towerledger.tariff.EvaporationCredit;
import towerledger.tariff.TowerWater;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/**
 * Composes the claim of a site's year, short enough to be read by whoever decides on it: the bills
 * with their amounts first, then what each system counts for, then the readings, each said once.
 */
@Component
class ClaimPage {

  private final SiteBills bills;
  private final Customers customers;
  private final MessageSource messages;

  ClaimPage(SiteBills bills, Customers customers, MessageSource messages) {
    this.bills = bills;
    this.customers = customers;
    this.messages = messages;
  }

  CreditViews.Claims of(Site site, int year, FigureText text) {
    Words words = new Words(messages, text.locale());
    ReasonText reasons = new ReasonText(words, text);
    List<Claim> all = new ArrayList<>();
    Set<String> trouble = new LinkedHashSet<>();
    LocalDate first = LocalDate.of(year, 1, 1);
    if (site.details().sewerSchedule() == null) {
      trouble.add(words.of("credits.no-schedule"));
    }
    for (SiteBills.Claimed claimed : bills.listClaims(site, first, first.plusYears(1))) {
      if (claimed.bill().from().getYear() == year) {
        Claim claim = claimed.claim();
        if (claim != null) {
          all.add(claim);
        }
        trouble.addAll(reasons.say(claimed.notes()));
      }
    }
    if (all.isEmpty() && trouble.isEmpty()) {
      trouble.add(words.of("credits.no-bills"));
    }
    String name = site.details().name();
    return new CreditViews.Claims(
        site.code(),
        name,
        year,
        customers.get(site.customerId()).name(),
        lead(name, year, all, words, text),
        all.isEmpty() ? "" : all.get(0).schedule(),
        all.isEmpty() ? "" : rule(all.get(0).rule(), all.get(0).unit(), words, text),
        all.isEmpty() ? "" : all.get(0).rule().deadline(),
        sums(all, words, text),
        all.isEmpty() ? List.of() : total(all, words, text),
        systems(all, words, text),
        readings(all, words, text, reasons),
        disclosures(all, words, text, reasons),
        List.copyOf(trouble));
  }

  private static String lead(String name, int year, List<Claim> all, Words words, FigureText text) {
    if (all.isEmpty()) {
      return words.of("credits.claim.none", name, String.valueOf(year));
    }
    double litres = all.stream().mapToDouble(claim -> claim.volume().litres()).sum();
    return words.of(
        "credits.claim.lead",
        name,
        String.valueOf(year),
        text.volume(Volume.ofLitres(litres)),
        text.exactMoney(sum(all.stream().map(Claim::unclaimed).toList())));
  }

  private static Money sum(List<Money> amounts) {
    return amounts.stream().reduce(Money::plus).orElseThrow();
  }

  private static FigureTable sums(List<Claim> all, Words words, FigureText text) {
    String unit = all.isEmpty() ? "" : FigureText.unitName(all.get(0).unit());
    return new FigureTable(
        List.of(
            words.of("credits.period"),
            words.of("credits.metered", unit),
            words.of("credits.volume", unit),
            words.of("credits.bill-without"),
            words.of("credits.bill-with"),
            words.of("credits.due"),
            words.of("credits.credited"),
            words.of("credits.unclaimed")),
        all.stream().map(claim -> row(claim, words, text)).toList());
  }

  private static List<String> row(Claim claim, Words words, FigureText text) {
    Money credited = claim.claimed();
    return List.of(
        period(claim, words, text),
        units(claim.use().water().volume(), claim, text),
        units(claim.volume(), claim, text),
        text.exactMoney(claim.working().billWithout()),
        text.exactMoney(claim.working().billWith()),
        text.exactMoney(claim.due()),
        credited == null ? words.of("figure.unknown") : text.exactMoney(credited),
        text.exactMoney(claim.unclaimed()));
  }

  /** The foot of the table; a credit that no bill tells of leaves its sum open. */
  private static List<String> total(List<Claim> all, Words words, FigureText text) {
    double metered = 0;
    double claimed = 0;
    List<Money> credited = new ArrayList<>();
    for (Claim claim : all) {
      metered += claim.use().water().volume().litres();
      claimed += claim.volume().litres();
      Money given = claim.claimed();
      if (given != null) {
        credited.add(given);
      }
    }
    Claim one = all.get(0);
    return List.of(
        words.of("credits.total"),
        units(Volume.ofLitres(metered), one, text),
        units(Volume.ofLitres(claimed), one, text),
        text.exactMoney(sum(all.stream().map(claim -> claim.working().billWithout()).toList())),
        text.exactMoney(sum(all.stream().map(claim -> claim.working().billWith()).toList())),
        text.exactMoney(sum(all.stream().map(Claim::due).toList())),
        credited.size() < all.size() ? words.of("figure.unknown") : text.exactMoney(sum(credited)),
        text.exactMoney(sum(all.stream().map(Claim::unclaimed).toList())));
  }

  private static FigureTable systems(List<Claim> all, Words words, FigureText text) {
    String unit = all.isEmpty() ? "" : FigureText.unitName(all.get(0).unit());
    List<List<String>> rows = new ArrayList<>();
    for (Claim claim : all) {
      for (EvaporationCredit.TowerCredit credit : claim.working().credit().towers()) {
        claim.use().towers().stream()
            .filter(water -> water.system().equals(credit.system()))
            .findFirst()
            .ifPresent(water -> rows.add(row(claim, credit, water, words, text)));
      }
    }
    return new FigureTable(
        List.of(
            words.of("credits.period"),
            words.of("credits.system"),
            words.of("credits.makeup", unit),
            words.of("credits.blowdown", unit),
            words.of("credits.by-rule", unit),
            words.of("credits.model", unit),
            words.of("credits.bound", unit),
            words.of("credits.counted", unit)),
        rows);
  }

  private static List<String> row(
      Claim claim,
      EvaporationCredit.TowerCredit credit,
      TowerWater water,
      Words words,
      FigureText text) {
    return List.of(
        period(claim, words, text),
        credit.system(),
        units(water.makeup(), claim, text),
        units(water.blowdown(), claim, text),
        units(credit.byRule(), claim, text),
        units(water.modelled(), claim, text),
        units(water.modelledUpper(), claim, text),
        units(credit.credited(), claim, text));
  }

  /** In the unit that the utility bills in, for a clerk to hold beside its own figures. */
  private static String units(@Nullable Volume volume, Claim claim, FigureText text) {
    return volume == null ? "–" : text.decimals(volume.in(claim.unit()), 2);
  }

  /**
   * One table a meter and a system; a reading that ends one bill and begins the next stands once.
   */
  private static List<CreditViews.Readings> readings(
      List<Claim> all, Words words, FigureText text, ReasonText reasons) {
    Map<String, Set<List<String>>> bySource = new LinkedHashMap<>();
    for (Claim claim : all) {
      for (Claim.Evidence read : claim.evidence()) {
        bySource
            .computeIfAbsent(read.source(), any -> new LinkedHashSet<>())
            .add(List.of(read.when(), reasons.say(read.reading())));
      }
    }
    List<String> headings = List.of(words.of("finding.when"), words.of("credits.reading"));
    return bySource.entrySet().stream()
        .map(
            source ->
                new CreditViews.Readings(
                    reasons.say(source.getKey()),
                    new FigureTable(
                        headings,
                        source.getValue().stream()
                            .sorted((one, other) -> one.get(0).compareTo(other.get(0)))
                            .map(row -> List.of(when(row.get(0), text), row.get(1)))
                            .toList())))
        .toList();
  }

  /** A month, or a moment by the site's clock, both kept as ISO 8601 has them. */
  private static String when(String kept, FigureText text) {
    return kept.length() == "2026-10".length()
        ? text.shortMonth(YearMonth.parse(kept))
        : text.moment(
            LocalDateTime.parse(kept.replace(' ', 'T')).toInstant(ZoneOffset.UTC), ZoneOffset.UTC);
  }

  /**
   * What is not claimed, each once with the bills it is about; on all of them, with none. What the
   * tables show anyway is left out.
   */
  private static List<String> disclosures(
      List<Claim> all, Words words, FigureText text, ReasonText reasons) {
    Map<String, List<String>> about = new LinkedHashMap<>();
    List<Money> over = new ArrayList<>();
    for (Claim claim : all) {
      Money given = claim.claimed();
      if (given != null && given.minus(claim.due()).amount().signum() > 0) {
        over.add(given.minus(claim.due()));
      }
      for (Claim.Disclosure disclosed : claim.disclosures()) {
        if (disclosed.kind() == Claim.Disclosure.Kind.REMARK) {
          about
              .computeIfAbsent(reasons.say(disclosed.text()), any -> new ArrayList<>())
              .add(text.day(claim.use().startInclusive()));
        }
      }
    }
    List<String> said = new ArrayList<>();
    if (!over.isEmpty()) {
      said.add(words.of("credits.over", over.size(), text.exactMoney(sum(over))));
    }
    about.forEach(
        (what, when) ->
            said.add(
                when.size() == all.size()
                    ? what
                    : words.of("credits.of-bills", what, String.join("; ", when))));
    return said;
  }

  private static String rule(CreditRule rule, VolumeUnit unit, Words words, FigureText text) {
    String method = words.of("rates.credit." + rule.method().code());
    List<String> parts = new ArrayList<>();
    parts.add(
        rule.share() == null ? method : text.percent(rule.share().doubleValue()) + " " + method);
    if (rule.minimumUnits() != null) {
      parts.add(
          words.of(
              "rates.credit.minimum",
              text.tick(rule.minimumUnits().doubleValue()) + "\u00a0" + FigureText.unitName(unit)));
    }
    if (rule.capShare() != null) {
      parts.add(words.of("rates.credit.cap", text.percent(rule.capShare().doubleValue())));
    }
    return String.join(", ", parts);
  }

  private static String period(Claim claim, Words words, FigureText text) {
    return words.of(
        "finding.months",
        text.day(claim.use().startInclusive()),
        text.day(claim.use().endExclusive().minusDays(1)));
  }
}
