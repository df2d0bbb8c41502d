package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.data.Offset.offset;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.springframework.beans.factory.annotation.Autowired;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;
import towerledger.RatesForPages;
import towerledger.account.Viewer;

/** The calculators and the pages of rates. */
@ApplicationOnH2
class ToolPagesIT extends PageCases {

  @Autowired RatesForPages rates;

  @ParameterizedTest
  @ValueSource(strings = {"evaporation", "cycles", "valve", "hole"})
  void asksBeforeItAnswers(String calculator) throws Exception {
    assertThat(open("/calculators/" + calculator)).doesNotContain("aria-labelledby=\"figures\"");
  }

  /**
   * 500 tower tons are 500 × 15,000 Btu/h = 2.198 MW. Were all of it latent, 2.198 MW ÷ 2,442 kJ/kg
   * (steam tables, 25 °C) = 0.900 kg/s = 858 gal/h would evaporate; at 85/70 °F most of it is.
   */
  @Test
  void evaporatesNoMoreThanTheHeatCan() throws Exception {
    String page =
        open(
            "/calculators/evaporation?heat=500&water=1500&dry-bulb=85&wet-bulb=70&set-point=80&altitude=");

    double gallons = figure(group("It evaporates ([0-9,]+)\u00a0±", lead(page)));
    assertThat(gallons).isBetween(0.7 * 858, 1.02 * 858);
    assertThat(page).contains("throttled, set-point held").contains("80.0\u00a0°F");
  }

  /**
   * By hand: C = 1100/320 = 3.44; the basin loses 12/(3.4375 − 1) = 4.923 gpm, five cycles need
   * 12/4 = 3 gpm: 1.923 gpm too much, 2,769 gal a day.
   */
  @Test
  void saysWhatTheBasinLosesBeyondItsTarget() throws Exception {
    String page =
        open(
            "/calculators/cycles?evaporation=12&makeup-conductivity=320&basin-conductivity=1,100&target-cycles=5&circulation=&drift=");

    assertThat(lead(page))
        .isEqualTo(
            "At 3.4 cycles the basin loses 2,770\u00a0gal a day more than 5.0 cycles would need.");
    assertThat(page).contains("3.00\u00a0gpm");
  }

  /** The definition of Cv: 9 · √60 = 69.7 gpm. */
  @Test
  void letsThroughAValveWhatItsCoefficientSays() throws Exception {
    assertThat(lead(open("/calculators/valve?valve-coefficient=9&pressure=60")))
        .contains("69.7\u00a0gpm");
  }

  @Test
  void keepsWhatWasTypedAndSaysWhatIsWrongWithIt() throws Exception {
    String page = open("/calculators/valve?valve-coefficient=1,5&pressure=9000");

    assertThat(page)
        .contains("value=\"1,5\"")
        .contains("This is no number. Write 1234.5 or 1,234.5.")
        .contains("value=\"9000\"")
        .contains("This lies outside 0.1 to 500");
    assertThat(open("/calculators/valve?valve-coefficient=%22%3E%3Cb%3E&pressure="))
        .doesNotContain("\"><b>")
        .contains("Give a number.");
  }

  @Test
  void saysWhenNumbersDoNotGoTogether() throws Exception {
    assertThat(
            open(
                "/calculators/evaporation?heat=500&water=1500&dry-bulb=60&wet-bulb=70&set-point=80"))
        .contains("These numbers do not go together");
    assertThat(
            open(
                "/calculators/cycles?evaporation=12&makeup-conductivity=900&basin-conductivity=300&target-cycles=5"))
        .contains("check whether the two were exchanged");
  }

  @Test
  void showsRatesAndTriesABill() throws Exception {
    rates.keep("TOOLS-W");

    assertThat(open("/rates")).contains("Water of TOOLS-W").contains("/rates/TOOLS-W");
    String page = open("/rates/TOOLS-W");
    assertThat(page).contains("service").contains("3.50").contains("USD a ccf");

    // By hand: 12.00 + 100 × 3.50 + 20 × 5.00
    String bill =
        open("/rates/TOOLS-W?from=2026-09-01&to=2026-10-01&amount=120&unit=ccf&meter=2&with=");
    assertThat(bill).contains("The bill comes to $462.00.");
    double lines = groups("\\$([0-9,.]+)</td>", bill).stream().mapToDouble(PageCases::figure).sum();
    assertThat(lines).isCloseTo(462, offset(0.005));
  }

  @Test
  void saysWhyThereIsNoBill() throws Exception {
    rates.keep("TOOLS-W");

    assertThat(open("/rates/TOOLS-W?from=2026-09-01&to=2026-08-01&amount=-&unit=ccf&meter=wide"))
        .contains("The last day must come after the first.")
        .contains("This is no number")
        .contains("This is no meter size");
    assertThat(open("/rates/TOOLS-W?from=2019-09-01&to=2019-10-01&amount=1&unit=ccf&meter="))
        .contains("There is no such bill");
    asksFor("/rates/NONE", signedIn.office(), status().isNotFound());
  }

  @Test
  void opensCalculatorsToTechniciansAndRatesToTheOfficeAlone() throws Exception {
    Viewer technician = signedIn.technician("roof@tools.test");
    open("/calculators/cycles", technician);
    open("/calculators", technician);
    asksFor("/rates", technician, status().isForbidden());
    Viewer customer = signedIn.customer("reader@tools.test", "TOOLS-1");
    asksFor("/calculators/cycles", customer, status().isForbidden());
    asksFor("/calculators/none", signedIn.office(), status().isNotFound());
  }
}
