package towerledger.tariff.owrs;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.Currency;
import java.util.Map;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.Bill;
import towerledger.tariff.RateVersion;
import towerledger.tariff.TariffException;

/** Oddities of published documents: read where they are plain, refused with a reason where not. */
class OwrsDocumentTest {

  private static final Currency USD = Currency.getInstance("USD");

  private OwrsDocument document;

  @BeforeEach
  void readTheDocument() throws IOException {
    document = OwrsDocument.read(OwrsConformanceTest.text("/owrs/oddities.yaml"));
  }

  @Test
  void metadataIsReadInItsSpellings() {
    assertThat(document.utilityName()).isEqualTo("Two Mills Water");
    assertThat(document.findEffectiveDate()).contains(LocalDate.of(2025, 7, 1));
    assertThat(document.findMonthsPerBill()).contains(2);
    assertThat(document.findBillUnit()).contains(VolumeUnit.THOUSAND_US_GALLONS);
    assertThat(document.classNames()).contains("COMMERCIAL").doesNotContain("OTHER");
    assertThat(document.notes()).containsExactly("customer class OTHER holds no rates");
  }

  @ParameterizedTest(name = "{0} zone {1} in {2}: {3}")
  @CsvSource({
    // service + 10 × rate + 10 × (rate − 0.5) / 2
    "3/4\", 1, Summer, 34.28",
    "0.75, 1, Summer, 34.28",
    "1 1/2\", 1, Winter, 30.00",
    "1_1/2\", 1, winter, 30.00",
    "1.5, 1.0, Winter, 30.00",
    "1|1/2\", 2, Winter, 35.00",
    "2 1/2 inch, 1, Winter, 40.00",
    "Larger, 1, Winter, 109.00",
  })
  void meterSizesAreFoundInAnySpelling(
      String meterSize, String zone, String season, String expected) {
    Bill bill =
        bill(
            "commercial",
            "10",
            Map.of("meter_size", meterSize, "pressure_zone", zone, "season", season));

    assertThat(bill.total().amount()).isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} units cost {1}")
  @CsvSource({"0, 20.00", "10, 30.00", "10.5, 31.00", "20, 50.00", "21, 53.00"})
  void tierStartIsTheFirstUnitBilledInIt(String usage, String expected) {
    assertThat(bill("NON_RESIDENTIAL", usage, Map.of("meter_size", "1|1/2\"")).total().amount())
        .isEqualTo(expected);
  }

  @ParameterizedTest(name = "{0} units cost {1}")
  @CsvSource({"10, 10.00", "11, 12.00", "50, 90.00", "51, 93.00", "62, 126.00", "63, 130.00"})
  void budgetTiersEndAtWholeUnits(String usage, String expected) {
    // indoor 10, 100 % of 50, 125 % = 62.5 rounded to 62
    assertThat(bill("IRRIGATION", usage, Map.of()).total().amount()).isEqualTo(expected);
  }

  @Test
  void listOfOneIsANumber() {
    assertThat(bill("RESIDENTIAL_SINGLE", "1", Map.of()).total().amount()).isEqualTo("2.44");
  }

  @Test
  void whatIsNotPlainIsRefusedWithItsReason() {
    assertRefused("INDUSTRIAL", Map.of(), "has 'flat_rate:4.1165' where an operator should be");
    assertRefused("INSTITUTIONAL", Map.of("meter_size", "1\""), "it calls a function 'round'");
    assertRefused("GOVERNMENTAL", Map.of(), "it refers back to itself: service_charge → commodity");
    assertRefused("FIRE_SERVICE", Map.of(), "it is given twice with different values");
    assertRefused(
        "NON-RESIDENTIAL", Map.of("meter_size", "1.5"), "different values for spellings of");
    assertRefused(
        "COMMERCIAL",
        Map.of("meter_size", "9\"", "pressure_zone", "1", "season", "Summer"),
        "no value for meter_size|pressure_zone '9\"|1'; it has [5/8\" x 3/4\"|1, 3/4\"|1,");
    assertRefused("COMMERCIAL", Map.of("meter_size", "1\""), "depends on pressure_zone, which is");
    assertThatThrownBy(() -> document.getCustomerClass("DAIRY"))
        .hasMessageContaining("'DAIRY' is not in the document; it has [RESIDENTIAL_SINGLE,");
  }

  @Test
  void problemsAndInputsAreListedWithoutAnyInput() {
    assertThat(document.getCustomerClass("INSTITUTIONAL").problems())
        .singleElement()
        .asString()
        .contains("service_charge: it calls a function 'round'");
    assertThat(document.getCustomerClass("COMMERCIAL").inputs())
        .containsOnlyKeys("meter_size", "pressure_zone", "season")
        .extractingByKey("season")
        .asString()
        .isEqualTo("[Summer, Winter]");
  }

  @Test
  void zeroRatesAndUnbilledChargesAreSaid() throws IOException {
    assertThat(bill("RECYCLED", "5", Map.of()).notes())
        .containsExactly("all rates of class RECYCLED are zero in the document");
    OwrsDocument drought = OwrsDocument.read(OwrsConformanceTest.text("/owrs/C4.yaml"));
    assertThat(
            drought
                .getCustomerClass("COMMERCIAL")
                .bill(Map.of("meter_size", "3\""), BigDecimal.TEN, USD)
                .notes())
        .containsExactly(
            "variable_drought_surcharge is in the document but not in its bill; not charged");
  }

  @Test
  void tiersOutOfOrderAreRefusedForTheMeterTheyAreOf() {
    String yaml =
        """
        metadata: {effective_date: 2025-01-01}
        rate_structure:
          COMMERCIAL:
            commodity_charge: Tiered
            tier_starts:
              depends_on: meter_size
              values: {1": [0, 83, 13], 2": [0, 10, 20], 3": [0, 5]}
            tier_prices: [1, 2, 3]
            bill: commodity_charge
        """;
    OwrsClass rates = OwrsDocument.read(yaml).getCustomerClass("COMMERCIAL");

    assertThat(rates.bill(Map.of("meter_size", "2"), BigDecimal.TEN, USD).total().amount())
        .isEqualTo("11.00");
    assertThatThrownBy(() -> rates.bill(Map.of("meter_size", "1"), BigDecimal.TEN, USD))
        .hasMessageContaining("tier 3 starts at 13, not above tier 2 at 83");
    assertThatThrownBy(() -> rates.bill(Map.of("meter_size", "3"), BigDecimal.TEN, USD))
        .hasMessageContaining("it has 2 tier starts and 3 tier prices");
  }

  @Test
  void rateStructureBegunAnewForEveryClassIsJoined() {
    // as some published documents are written, with a comment before the document begins
    String yaml =
        """
        # two tracts
        ---
        metadata: {effective_date: 2017-01-01}
        rate_structure:
          RESIDENTIAL_SINGLE: {service_charge: 1, bill: service_charge}
        rate_structure:
          NON-RESIDENTIAL: {service_charge: 24.20, bill: service_charge}
          TWICE: {service_charge: 1, bill: service_charge}
        rate_structure:
          TWICE: {service_charge: 2, bill: service_charge}
        """;
    OwrsDocument joined = OwrsDocument.read(yaml);

    assertThat(joined.classNames()).containsExactly("RESIDENTIAL_SINGLE", "NON-RESIDENTIAL");
    assertThat(
            joined
                .getCustomerClass("NON_RESIDENTIAL")
                .bill(Map.of(), BigDecimal.ONE, USD)
                .total()
                .amount())
        .isEqualTo("24.20");
    assertThat(joined.notes()).anyMatch(note -> note.contains("TWICE holds no rates: it is given"));
  }

  @Test
  void classWrittenAsAListOfPartsAndSpacesOfSpreadsheetsAreRead() {
    String yaml =
        """
        \uFEFFmetadata: {effective_date: 2016-01-01}
        rate_structure:
          COMMERCIAL:
            - service_charge:
                depends_on: meter_size, city_limits
                values:
                  1\u00A01/2"|inside_city\u00A0: 37.98
            - tier_starts:
              - 0
              - indoor
              - 100%
            - tier_prices:
              - 1.49
              - 1.70
              - 2.62
            - commodity_charge: Budget
            - bill: "commodity_charge\u00A0+ service_charge"
        """;
    OwrsClass rates = OwrsDocument.read(yaml).getCustomerClass("COMMERCIAL");

    // 37.98 + 4 × 1.49 + 6 × 1.70 + 2 × 2.62
    assertThat(
            rates
                .bill(
                    Map.of(
                        "meter_size",
                        "1.5",
                        "city_limits",
                        "inside_city",
                        "indoor",
                        "4",
                        "budget",
                        "10"),
                    new BigDecimal("12"),
                    USD)
                .total()
                .amount())
        .isEqualTo("59.38");
  }

  @Test
  void documentsThatAreNoRatesAreRefused() {
    assertThatThrownBy(() -> OwrsDocument.read("rate_structure:\n\tCOMMERCIAL: 1\n"))
        .isInstanceOf(TariffException.class)
        .hasMessageContaining("not YAML at line 2")
        .hasMessageContaining("indent with spaces");
    assertThatThrownBy(() -> OwrsDocument.read("a: 1"))
        .hasMessageContaining(
            "no rate_structure with customer classes; its top-level keys are [a]");
    assertThatThrownBy(() -> OwrsDocument.read("")).hasMessageContaining("empty");
    assertThatThrownBy(() -> OwrsDocument.read("x: 1\n".repeat(200_000)))
        .hasMessageContaining("more than 500000");
    assertThatThrownBy(() -> OwrsDocument.read("[".repeat(1000)))
        .isInstanceOf(TariffException.class);
    assertThatThrownBy(
            () ->
                OwrsDocument.read("rate_structure: {COMMERCIAL: {x: &a [1, 2], bill: *a}}")
                    .getCustomerClass("COMMERCIAL")
                    .bill(Map.of(), BigDecimal.ONE, USD))
        .hasMessageContaining("it is a YAML alias");
  }

  @Test
  void partThatIsNoBlockIsNotStored() {
    String yaml = "rate_structure: {COMMERCIAL: {c_charge: usage_ccf*usage_ccf, bill: c_charge}}";
    OwrsClass rates = OwrsDocument.read(yaml).getCustomerClass("COMMERCIAL");

    assertThat(rates.bill(Map.of(), new BigDecimal("3"), USD).total().amount()).isEqualTo("9.00");
    assertThatThrownBy(
            () ->
                rates.version(
                    Map.of(), RateVersion.from(LocalDate.EPOCH, VolumeUnit.HUNDRED_CUBIC_FEET)))
        .hasMessageContaining("can be billed but not stored as a schedule");
  }

  private Bill bill(String className, String usage, Map<String, String> inputs) {
    return document.getCustomerClass(className).bill(inputs, new BigDecimal(usage), USD);
  }

  private void assertRefused(String className, Map<String, String> inputs, String reason) {
    assertThatThrownBy(() -> bill(className, "10", inputs))
        .isInstanceOf(TariffException.class)
        .hasMessageContaining(reason);
  }
}
