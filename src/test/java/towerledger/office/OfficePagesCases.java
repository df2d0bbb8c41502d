package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;
import static org.assertj.core.data.Percentage.withPercentage;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.net.URI;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.regex.Pattern;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.springframework.http.MediaType;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.ledger.InventedPortfolio;

/** The office's pages as they are written, on a portfolio of sixty systems. */
abstract class OfficePagesCases extends PageCases {

  private static final int SYSTEMS = 60;
  private static final YearMonth LAST = YearMonth.of(2026, 10);
  private static final String LIST = "/?month=2026-10&search=pages";

  @Autowired ApplicationContext context;

  @BeforeEach
  void writeThePortfolioOnce() {
    if (count("SELECT COUNT(*) FROM site_system WHERE code LIKE 'PAGES-%'") == 0) {
      new InventedPortfolio(context, "PAGES-").write(SYSTEMS, LAST.minusMonths(14), LAST);
    }
  }

  @Test
  void reviewsAMonthInASentenceAndFiftyRows() throws Exception {
    String page = open(LIST);

    assertThat(page).contains("Month review, October 2026").contains("In October 2026, ");
    assertThat(rows(page)).hasSize(50);
    assertThat(page).contains("1 to 50 of 60").contains("page=2");
    assertThat(rows(open(LIST + "&page=2"))).hasSize(10);
  }

  /** Another test may have written months beside these; what the ledger holds, it says. */
  @Test
  void offersTheMonthsThatTheLedgerHasAndSaysSoBeyondThem() throws Exception {
    YearMonth oldest =
        YearMonth.from(
            jdbc.sql("SELECT MIN(month_start) FROM ledger_month").query(LocalDate.class).single());
    YearMonth newest =
        YearMonth.from(
            jdbc.sql("SELECT MAX(month_start) FROM ledger_month").query(LocalDate.class).single());

    String first = open("/?month=" + oldest);
    assertThat(groups("<option value=\"(\\d{4}-\\d\\d)\"", first))
        .startsWith(newest.toString())
        .endsWith(oldest.toString())
        .hasSize((int) oldest.until(newest, ChronoUnit.MONTHS) + 1);
    assertThat(first).doesNotContain("rel=\"prev\"").doesNotContain("The ledger holds nothing");

    String before = open("/?month=" + oldest.minusMonths(5));
    assertThat(before)
        .contains("The ledger holds nothing of ")
        .contains("href=\"/?month=" + oldest + "\"")
        .doesNotContain("rel=\"prev\"");
    assertThat(open("/?month=" + newest.plusMonths(7)))
        .contains("The ledger holds nothing of ")
        .contains("href=\"/?month=" + newest + "\"")
        .doesNotContain("rel=\"next\"");
    assertThat(open("/credits?year=" + oldest.getYear())).doesNotContain("Earlier year");
    assertThat(open("/credits?year=" + newest.getYear())).doesNotContain("Later year");
  }

  @Test
  void aSystemThatTookLessThanASoundOneIsNotSaidToBeExplainedByMore() throws Exception {
    String code =
        jdbc.sql(
                """
                SELECT MIN(y.code) FROM ledger_month m JOIN site_system y ON y.id = m.system_id
                WHERE y.code LIKE 'PAGES-%' AND m.month_start = ? AND m.unaccounted_l < 0""")
            .param(LAST.atDay(1))
            .query(String.class)
            .single();

    assertThat(open("/systems/%s?month=%s".formatted(code, LAST)))
        .contains("less than the ")
        .doesNotContain("is unaccounted for");
  }

  @Test
  void saysTheSameSumsAsTheLedger() throws Exception {
    long metered = count(STANDING + "AND r.makeup_l IS NOT NULL");
    long wasting = count(STANDING + "AND r.waste");
    long cents =
        count(
            STANDING.replace("COUNT(*)", "ROUND(SUM(r.loss_amount) * 100)")
                + "AND r.waste AND r.loss_amount IS NOT NULL");

    String sentence = lead(open(LIST));

    assertThat(wasting).isPositive();
    assertThat(sentence)
        .contains(metered + " metered systems")
        .contains(wasting + " systems wasted");
    double said = Double.parseDouble(group("cost \\$([0-9,]+)\u00a0±", sentence).replace(",", ""));
    // The sentence gives the amount to the second digit of its interval.
    assertThat(said).isCloseTo(cents / 100.0, withPercentage(5));
  }

  @Test
  void filtersByVerdictAndOrdersByCost() throws Exception {
    String page = open(LIST + "&verdict=waste");

    assertThat(rows(page))
        .isNotEmpty()
        .allSatisfy(row -> assertThat(row).contains("Losing water").contains("$"));
    List<Double> costs =
        rows(page).stream()
            .map(row -> Double.parseDouble(group("\\$([0-9,.]+)", row).replace(",", "")))
            .toList();
    assertThat(costs.get(0)).isGreaterThanOrEqualTo(costs.get(costs.size() - 1));
  }

  @Test
  void findsOneSystemByItsCode() throws Exception {
    String page = open("/?month=2026-10&search=pages-s7%20");

    assertThat(rows(page)).hasSize(1).first().asString().contains("Tower 7");
  }

  @Test
  void takesSignsOfASearchAsTheyAre() throws Exception {
    assertThat(rows(open("/?month=2026-10&search=pages%25%5F%21"))).isEmpty();
    assertThat(open("/?month=2026-10&search=%22%3E%3Cscript%3Ex"))
        .doesNotContain("<script>x")
        .contains("No system of this month passes the filter");
  }

  @Test
  void opensAnAddressWhoseChoicesMeanNothing() throws Exception {
    open("/?month=soon&verdict=odd&evidence=Z&order=up&page=-4&customer=PAGES-none");
    open("/?month=&page=9999999&search=pages");
    open("/?month=%2B999999999-12");
  }

  /** The month after the calendar's last has no name, and a list in JSON may hold nothing. */
  @Test
  void namesWhatAnAddressOrAnOrderLacks() throws Exception {
    Viewer office = signedIn.office();
    asksFor("/systems/PAGES-T3?month=%2B999999999-12", office, status().isNotFound());
    mvc.perform(
            get(URI.create("/api/v1/ledger?from=2026-01&to=%2B999999999-12"))
                .with(signedIn.api(office)))
        .andExpect(status().isBadRequest());
    mvc.perform(
            post("/api/v1/reconciliations")
                .with(signedIn.api(office))
                .contentType(MediaType.APPLICATION_JSON)
                .content("{\"systems\": [null]}"))
        .andExpect(status().isBadRequest())
        .andExpect(
            result ->
                assertThat(result.getResponse().getContentAsString()).contains("empty place"));
  }

  @Test
  void sendsThePartThatChangesAlone() throws Exception {
    String part =
        mvc.perform(get(LIST).header("HX-Request", "true").with(SignedIn.page(signedIn.office())))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsString();

    assertThat(part).doesNotContain("<html").contains("id=\"list\"");
    assertThat(rows(part)).hasSize(50);
  }

  @Test
  void writesAnotherReadersUnits() throws Exception {
    Viewer office = signedIn.office();
    Viewer metric =
        new Viewer(
            office.personId(),
            office.email(),
            office.name(),
            office.role(),
            null,
            office.scope(),
            true,
            UnitPreference.SI,
            "en");
    String page = open(LIST, metric);

    assertThat(lead(page)).contains("m³").doesNotContain("gal");
    assertThat(open("/systems/PAGES-T3?month=2026-10", metric)).contains("m³");
  }

  @Test
  void showsASystemsMonthItsPartsAndItsLedger() throws Exception {
    String code = aWastingSystem();
    String page = open("/systems/" + code + "?month=2026-10");

    assertThat(page)
        .contains("In October 2026 this system took in ")
        .contains("It wasted water that cost $")
        .contains("Where the water went")
        .contains("Before anybody works on it")
        .contains("Local codes and licensed practice go before anything said here")
        .contains("a blowdown meter would separate bleed from overflow")
        .contains("/systems/" + code + "/working/2026-10");
    // Towers of one name stand at many sites, and tabs show their titles alone (WCAG 2.2, 2.4.2).
    assertThat(group("<title>([^<]*)</title>", page))
        .isEqualTo(
            group("<h1[^>]*>([^<]*)<", page)
                + " · "
                + group("(?s)</h1>\\s*<p class=\"fine\">([^<]*)<", page)
                + " · Tower Water Ledger");
    assertThat(count(page, "<figure")).isGreaterThanOrEqualTo(6);
    assertThat(count(page, "<svg")).isGreaterThanOrEqualTo(7);
  }

  @Test
  void addsThePartsOfAMonthUpToItsMakeup() throws Exception {
    String page = open("/systems/" + aWastingSystem() + "?month=2026-10");
    String table = group("(?s)class=\"narrow parts\">(.*?)</table>", page);

    double parts =
        Pattern.compile(
                "<td class=\"number\">([−0-9,]+)</td>\\s*<td class=\"number\">[^<]*</td>\\s*"
                    + "<td class=\"number\">[^<]*%</td>")
            .matcher(table)
            .results()
            .mapToDouble(m -> figure(m.group(1)))
            .sum();
    double makeup = figure(group("(?s)<tfoot>.*?<td class=\"number\">([0-9,]+)", table));

    // Figures are written to the fourth digit of the makeup: half of that for each of six parts.
    double rounding = 3 * Math.pow(10, Math.floor(Math.log10(makeup)) - 3);
    assertThat(parts).isPositive().isCloseTo(makeup, offset(rounding));
  }

  @Test
  void saysThatAMonthIsNotReckonedInsteadOfShowingZero() throws Exception {
    assertThat(open("/systems/PAGES-T3?month=2019-01"))
        .contains("The ledger has no row for January 2019")
        .doesNotContain("this system took in");
  }

  @Test
  void showsTheWorkingOfAMonth() throws Exception {
    assertThat(open("/systems/PAGES-T3/working/2026-10"))
        .contains("evaporation")
        .contains("Poppe by the hour")
        .contains("chiller electricity, 8 % (invented)")
        .contains("air to water ratio 1.2 at design");
  }

  @Test
  void hasNothingAtAnUnknownSystemMonthOrRevision() throws Exception {
    for (String path :
        List.of(
            "/systems/PAGES-NONE",
            "/systems/PAGES-T3?month=soon",
            "/systems/PAGES-T3/working/2026-13",
            "/systems/PAGES-T3/working/2019-01",
            "/systems/PAGES-T3/working/2026-10?revision=99")) {
      mvc.perform(get(path).with(SignedIn.page(signedIn.office())))
          .andExpect(status().isNotFound());
    }
  }

  @Test
  void isTheContractorsOwn() throws Exception {
    Viewer customer = signedIn.customer("reader@pages.test", "PAGES-C1");
    mvc.perform(get("/").with(SignedIn.page(customer))).andExpect(redirectedUrl("/portal"));
    for (String path : List.of("/systems/PAGES-T1", "/systems/PAGES-T1/working/2026-10")) {
      mvc.perform(get(path).with(SignedIn.page(customer))).andExpect(status().isForbidden());
    }
  }

  @Test
  void hasAPageBehindEveryEntryOfTheMenu() throws Exception {
    String menu = group("(?s)<nav\\s+class=\"sections\"(.*?)</nav>", open(LIST));
    List<String> paths =
        Pattern.compile("href=\"([^\"]+)\"").matcher(menu).results().map(m -> m.group(1)).toList();

    assertThat(paths).isNotEmpty();
    for (String path : paths) {
      open(path);
    }
  }

  private static final String STANDING =
      """
      SELECT COUNT(*) FROM ledger_month m JOIN ledger_revision r ON r.system_id = m.system_id
        AND r.month_start = m.month_start AND r.revision = m.revision
      JOIN site_system y ON y.id = m.system_id
      WHERE m.month_start = DATE '2026-10-01' AND y.code LIKE 'PAGES-%'
      """;

  private String aWastingSystem() {
    return jdbc.sql(STANDING.replace("COUNT(*)", "MIN(y.code)") + "AND r.waste")
        .query(String.class)
        .single();
  }

  private static long count(String page, String piece) {
    return Pattern.compile(Pattern.quote(piece)).matcher(page).results().count();
  }

  private static List<String> rows(String page) {
    return Pattern.compile("(?s)<tr role=\"row\">\\s*<td class=\"number rank\".*?</tr>")
        .matcher(page)
        .results()
        .map(m -> m.group())
        .toList();
  }
}
