package towerledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Objects;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;

class TabularCusumTest {

  private static List<CSVRecord> rows(String caseStart) throws IOException {
    try (Reader reader =
        new InputStreamReader(
            Objects.requireNonNull(
                TabularCusumTest.class.getResourceAsStream("/reference/cusum_cases.csv")),
            StandardCharsets.UTF_8)) {
      return CSVFormat.DEFAULT
          .builder()
          .setCommentMarker('#')
          .setHeader()
          .setSkipHeaderRecord(true)
          .get()
          .parse(reader)
          .stream()
          .filter(row -> row.get("case").startsWith(caseStart))
          .toList();
    }
  }

  private static void follows(List<CSVRecord> rows, TabularCusum chart, double tolerance) {
    assertThat(rows).isNotEmpty();
    for (CSVRecord row : rows) {
      boolean signal = chart.add(Double.parseDouble(row.get("x")));
      assertThat(chart.upper())
          .as(row.toString())
          .isCloseTo(Double.parseDouble(row.get("upper_computed")), within(tolerance));
      assertThat(chart.lower())
          .as(row.toString())
          .isCloseTo(Double.parseDouble(row.get("lower_computed")), within(tolerance));
      if (!row.get("upper_published").isEmpty()) {
        assertThat(chart.upper())
            .isCloseTo(Double.parseDouble(row.get("upper_published")), within(tolerance));
      }
      assertThat(signal).as(row.toString()).isEqualTo(row.get("signal").equals("True"));
    }
  }

  @Test
  void followsMontgomerysTableStepByStep() throws IOException {
    TabularCusum chart = new TabularCusum(10, 0.5, 5);

    follows(rows("Montgomery"), chart, 1e-9);
  }

  @Test
  void placesMontgomerysShiftAfterSampleTwentyTwo() throws IOException {
    TabularCusum chart = new TabularCusum(10, 0.5, 5);
    rows("Montgomery").stream()
        .limit(29)
        .forEach(row -> chart.add(Double.parseDouble(row.get("x"))));

    assertThat(chart.run()).isEqualTo(7);
    assertThat(chart.lastBeforeShift()).isEqualTo(22);
    assertThat(chart.shiftedLevel()).isCloseTo(11.25, within(0.005));
  }

  @Test
  void followsTheHandbookSeriesStepByStep() throws IOException {
    follows(rows("NIST"), new TabularCusum(325, 0.3175, 4.1959), 1e-9);
  }
}
