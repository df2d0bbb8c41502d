package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Percentage.withPercentage;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.time.LocalDate;
import java.time.YearMonth;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.ledger.InventedPortfolio;

/** What a retrofit would pay back, from a system's own record, on the page and to hand over. */
@ApplicationOnH2
class RetrofitPagesIT extends PageCases {

  private static final YearMonth LAST = YearMonth.of(2026, 10);
  private static final String CASE =
      "?measure=cycles&cost=12500&stops=100&cycles=6&escalation=0&discount=2.5&years=10";

  @Autowired ApplicationContext context;

  @BeforeEach
  void writeARecordOnce() {
    if (count("SELECT COUNT(*) FROM site_system WHERE code LIKE 'RETRO-%'") == 0) {
      new InventedPortfolio(context, "RETRO-").write(8, LAST.minusMonths(23), LAST);
    }
  }

  /**
   * The bleed of a tower is E/(C−1) less drift (mass balance; ASHRAE Handbook, HVAC Systems and
   * Equipment, cooling towers): what more cycles save is worked out here from the ledger's rows at
   * the average price of the expected water. With rates that stay, a cost is back after cost ÷
   * saving years.
   */
  @Test
  void savesTheBleedThatMoreCyclesDoNotNeed() throws Exception {
    String page = open("/retrofit/RETRO-T1" + CASE);

    double yearly = figure(group("it is expected to save \\$([0-9,]+)\u00a0±", lead(page)));
    assertThat(yearly).isCloseTo(bleedSaved(), withPercentage(2));
    double years = Double.parseDouble(group("The cost is back in ([0-9.]+) years", lead(page)));
    assertThat(years).isCloseTo(12_500 / bleedSaved(), withPercentage(2));
  }

  /** Over the last twelve months that are over in the whole ledger, as the page takes them. */
  private double bleedSaved() {
    LocalDate newest =
        jdbc.sql(
                "SELECT MAX(month_start) FROM ledger_month WHERE month_start <"
                    + " CAST(CURRENT_DATE AS DATE) - EXTRACT(DAY FROM CURRENT_DATE) + 1")
            .query(LocalDate.class)
            .single();
    return jdbc
        .sql(
            """
            SELECT r.evaporation_l, r.target_cycles, r.expected_makeup_l, r.expected_water_amount
            FROM ledger_month m JOIN ledger_revision r
              ON r.system_id = m.system_id AND r.month_start = m.month_start
                AND r.revision = m.revision
            JOIN site_system y ON y.id = m.system_id
            WHERE y.code = 'RETRO-T1' AND m.month_start > ? AND m.month_start <= ?""")
        .params(newest.minusMonths(12), newest)
        .query(
            (row, number) ->
                row.getDouble(1)
                    * (1 / (row.getDouble(2) - 1) - 1 / 5.0)
                    * row.getDouble(4)
                    / row.getDouble(3))
        .list()
        .stream()
        .mapToDouble(Double::doubleValue)
        .sum();
  }

  @Test
  void handsTheSameCaseOverOnPaper() throws Exception {
    String lead =
        lead(open("/retrofit/RETRO-T1" + CASE)).replace('\u00a0', ' ').replace("&gt;", ">");
    byte[] paper =
        mvc.perform(
                get("/retrofit/RETRO-T1/case.pdf" + CASE).with(SignedIn.page(signedIn.office())))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsByteArray();

    try (var pdf = Loader.loadPDF(paper)) {
      String text =
          new PDFTextStripper().getText(pdf).replace('\u00a0', ' ').replaceAll("\\s+", " ");
      assertThat(text)
          .contains(lead, "12,500 USD", "2.5 %", "Lock out and tag out")
          // words with fi, fl and ff can be read aloud and searched
          .contains("Retrofit of Tower 1", "Cash flow", "pressure off before");
    }
  }

  @Test
  void namesTheFieldThatIsWrongAndPrintsNothing() throws Exception {
    String wrong = CASE.replace("years=10", "years=31");

    assertThat(open("/retrofit/RETRO-T1" + wrong))
        .contains("Correct the fields marked below.", "aria-invalid");
    asksFor("/retrofit/RETRO-T1/case.pdf" + wrong, signedIn.office(), status().isNotFound());
    asksFor(
        "/retrofit/RETRO-T1",
        signedIn.customer("reader@retro.test", "RETRO-C0"),
        status().isForbidden());
  }
}
