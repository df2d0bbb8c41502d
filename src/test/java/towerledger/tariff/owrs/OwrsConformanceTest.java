package towerledger.tariff.owrs;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.Reader;
import java.math.BigDecimal;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.Arguments;
import org.junit.jupiter.params.provider.MethodSource;
import tools.jackson.databind.json.JsonMapper;
import towerledger.quantity.VolumeUnit;
import towerledger.tariff.Bill;
import towerledger.tariff.Billing;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Service;
import towerledger.tariff.SiteUse;
import towerledger.tariff.Usage;

/** Bills of published rates to the cent: reference/tariff_conformance.csv. */
class OwrsConformanceTest {

  private static final Currency USD = Currency.getInstance("USD");

  @ParameterizedTest(name = "{0} {1}: {2} units")
  @MethodSource("bills")
  void billsToTheCent(String testCase, String className, String usage, CSVRecord row)
      throws IOException {
    OwrsClass rates = document(testCase).getCustomerClass(className);

    Bill bill = rates.bill(inputs(row), new BigDecimal(usage), USD);

    assertThat(bill.total().amount()).isEqualTo(row.get("bill_total"));
    assertThat(sum(bill, "service_charge")).isEqualByComparingTo(row.get("service_charge"));
    assertThat(sum(bill, "commodity_charge")).isEqualByComparingTo(row.get("commodity_charge"));
    for (String other : row.get("other").split(";")) {
      if (!other.isEmpty()) {
        String[] part = other.split("=");
        assertThat(sum(bill, part[0])).as(part[0]).isEqualByComparingTo(part[1]);
      }
    }
    assertThat(rates.problems()).isEmpty();
  }

  @ParameterizedTest(name = "{0} {1}: {2} units")
  @MethodSource("bills")
  void billsTheSameOnceStoredAsASchedule(
      String testCase, String className, String usage, CSVRecord row) throws IOException {
    // given: the document turned into charges and blocks
    OwrsDocument document = document(testCase);
    VolumeUnit unit = document.findBillUnit().orElseThrow();
    RateVersion version =
        document
            .getCustomerClass(className)
            .version(
                inputs(row), RateVersion.from(document.findEffectiveDate().orElseThrow(), unit));

    // when
    SiteUse use =
        SiteUse.of(
            version.effectiveFrom(), version.effectiveFrom().plusMonths(1), Usage.of(usage, unit));
    Bill bill = Billing.bill(RateSchedule.of("W", Service.WATER, version), use, USD);

    assertThat(bill.total().amount()).isEqualTo(row.get("bill_total"));
  }

  @Test
  void evaporatedWaterIsWorthItsSewerCharge() throws IOException {
    // 200 of 412.5 ccf evaporated, class C3: 298.00 of sewer_charge (same source)
    OwrsClass rates = document("C7").getCustomerClass("COMMERCIAL");
    Map<String, String> inputs = Map.of("meter_size", "2\"", "rate_class", "C3");

    Bill with = rates.bill(inputs, new BigDecimal("412.5"), USD);
    Bill without = rates.bill(inputs, new BigDecimal("212.5"), USD);

    assertThat(sum(with, "sewer_charge").subtract(sum(without, "sewer_charge")))
        .isEqualByComparingTo("298.00");
    assertThat(with.exact(Service.SEWER).minus(without.exact(Service.SEWER)).amount())
        .isEqualByComparingTo("298.00");
  }

  private static Stream<Arguments> bills() throws IOException {
    try (Reader reader = open("/reference/tariff_conformance.csv")) {
      List<CSVRecord> rows =
          CSVFormat.RFC4180
              .builder()
              .setHeader()
              .setSkipHeaderRecord(true)
              .setCommentMarker('#')
              .get()
              .parse(reader)
              .getRecords();
      assertThat(rows).hasSize(21);
      return rows.stream()
          .map(
              row ->
                  Arguments.of(row.get("case"), row.get("customer_class"), row.get("usage"), row));
    }
  }

  private static Map<String, String> inputs(CSVRecord row) {
    Map<String, String> inputs = new LinkedHashMap<>();
    JsonMapper.shared()
        .readTree(row.get("inputs"))
        .forEachEntry((name, value) -> inputs.put(name, value.asString()));
    return inputs;
  }

  private static BigDecimal sum(Bill bill, String part) {
    return bill.lines().stream()
        .filter(line -> line.name().equals(part) || line.name().startsWith(part + ", tier"))
        .map(line -> line.amount().amount())
        .reduce(BigDecimal.ZERO, BigDecimal::add);
  }

  private static OwrsDocument document(String testCase) throws IOException {
    return OwrsDocument.read(text("/owrs/" + testCase + ".yaml"));
  }

  static String text(String resource) throws IOException {
    try (InputStream in =
        Objects.requireNonNull(OwrsConformanceTest.class.getResourceAsStream(resource))) {
      return new String(in.readAllBytes(), UTF_8);
    }
  }

  private static Reader open(String resource) {
    return new InputStreamReader(
        Objects.requireNonNull(OwrsConformanceTest.class.getResourceAsStream(resource)), UTF_8);
  }
}
