package towerledger.statistics;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Stream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

class FlowReconciliationTest {

  record Problem(String name, List<CSVRecord> flows) {
    double[] column(String column) {
      return flows.stream().mapToDouble(r -> Double.parseDouble(r.get(column))).toArray();
    }

    double[][] balances() {
      int rows = flows.get(0).get("constraint_column").split(";").length;
      double[][] balances = new double[rows][flows.size()];
      for (int flow = 0; flow < flows.size(); flow++) {
        String[] column = flows.get(flow).get("constraint_column").split(";");
        for (int row = 0; row < rows; row++) {
          balances[row][flow] = Double.parseDouble(column[row]);
        }
      }
      return balances;
    }

    FlowReconciliation solved() {
      return new FlowReconciliation(balances(), column("measured"), column("variance"));
    }

    @Override
    public String toString() {
      return name;
    }
  }

  static Stream<Problem> problems() throws IOException {
    Map<String, List<CSVRecord>> byName = new LinkedHashMap<>();
    try (Reader reader =
        new InputStreamReader(
            Objects.requireNonNull(
                FlowReconciliationTest.class.getResourceAsStream(
                    "/reference/reconciliation_cases.csv")),
            StandardCharsets.UTF_8)) {
      CSVFormat format =
          CSVFormat.DEFAULT
              .builder()
              .setCommentMarker('#')
              .setHeader()
              .setSkipHeaderRecord(true)
              .get();
      for (CSVRecord row : format.parse(reader)) {
        byName.computeIfAbsent(row.get("problem"), name -> new ArrayList<>()).add(row);
      }
    }
    return byName.entrySet().stream().map(e -> new Problem(e.getKey(), e.getValue()));
  }

  @ParameterizedTest
  @MethodSource("problems")
  void reconcilesPublishedProblems(Problem problem) {
    FlowReconciliation solved = problem.solved();

    assertThat(solved.reconciled()).containsExactly(problem.column("reconciled"), within(2e-6));
    assertThat(solved.reconciledDeviations())
        .containsExactly(problem.column("posterior_sd"), within(2e-6));
    assertThat(solved.measurementTests())
        .containsExactly(problem.column("measurement_test_z"), within(1e-4));
    assertThat(solved.globalStatistic())
        .isCloseTo(Double.parseDouble(problem.flows().get(0).get("global_chi2")), within(2e-6));
    assertThat(solved.globalLimit(0.05))
        .isCloseTo(Double.parseDouble(problem.flows().get(0).get("chi2_crit_95")), within(1e-4));
  }

  /** For a biased measurement the likelihood ratio is the squared measurement test. */
  @ParameterizedTest
  @MethodSource("problems")
  void likelihoodRatioOfABiasedMeasurementIsItsSquaredTest(Problem problem) {
    FlowReconciliation solved = problem.solved();
    double[] tests = solved.measurementTests();

    for (int flow = 0; flow < tests.length; flow++) {
      assertThat(solved.biasOfMeasurement(flow).statistic())
          .isCloseTo(tests[flow] * tests[flow], within(1e-8));
    }
  }

  @Test
  void findsSizeOfALeakOutOfOneBalance() {
    FlowReconciliation splitter =
        new FlowReconciliation(
            new double[][] {{1, -1, -1}}, new double[] {112, 60, 40}, new double[] {1, 1, 2});

    FlowReconciliation.Bias leak = splitter.biasOf(new double[] {1});

    assertThat(leak.size()).isCloseTo(12, within(1e-12));
    assertThat(leak.sizeDeviation()).isCloseTo(2, within(1e-12));
    assertThat(leak.statistic()).isCloseTo(36, within(1e-12));
  }
}
