package towerledger.intake.file;

import java.util.List;
import java.util.function.Function;
import java.util.stream.Collectors;
import org.springframework.stereotype.Component;
import towerledger.tariff.ScheduleRows;
import towerledger.tariff.ScheduleRows.Taken;
import towerledger.tariff.Schedules;

/** Hands rows of the three rate files to the schedules and brings the outcomes back in order. */
@Component
class RateTaking {

  /** Rows of one version of a schedule are judged together. */
  static final int ROWS_TOGETHER = 10_000;

  private final Schedules schedules;

  RateTaking(Schedules schedules) {
    this.schedules = schedules;
  }

  <T> List<RowFate> take(
      ScheduleRows together, List<T> rows, Function<T, String> reference, Taking taking) {
    var outcomes =
        schedules.take(taking.actor(), together).stream()
            .collect(Collectors.toMap(Taken::reference, Function.identity()));
    return rows.stream()
        .map(
            row -> {
              Taken taken = outcomes.get(reference.apply(row));
              if (taken == null) {
                throw new IllegalStateException("a rate row was lost: " + row);
              }
              var outcome = taken.outcome();
              return outcome == null ? RowFate.refused(taken.reason()) : RowFate.of(outcome);
            })
        .toList();
  }
}
