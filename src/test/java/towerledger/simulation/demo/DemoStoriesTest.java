package towerledger.simulation.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.YearMonth;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import towerledger.simulation.MonthTruth;
import towerledger.simulation.demo.DemoStories.Story;

class DemoStoriesTest {

  private static final YearMonth START = YearMonth.of(2025, 5);
  private static final YearMonth END = YearMonth.of(2026, 11);

  private static DemoBundle bundle;

  @BeforeAll
  static void simulate() {
    bundle = DemoBundle.simulate();
  }

  @Test
  void soundSystemsLoseNothing() {
    for (DemoRun run : bundle.runs()) {
      if (!DemoStories.all().containsKey(run.system().code())) {
        for (YearMonth m = START; m.isBefore(END); m = m.plusMonths(1)) {
          assertThat(MonthTruth.of(run.water(), run.twin(), m).netEffect()).isZero();
        }
      }
    }
  }

  @Test
  void everyStoryShowsInItsOwnMonths() {
    for (DemoRun run : bundle.runs()) {
      Story story = DemoStories.all().get(run.system().code());
      if (story == null) {
        continue;
      }
      YearMonth first = YearMonth.from(story.from());
      double before = MonthTruth.of(run.water(), run.twin(), first.minusMonths(1)).netEffect();
      double largest = 0;
      for (YearMonth m = first; m.isBefore(END); m = m.plusMonths(1)) {
        MonthTruth truth = MonthTruth.of(run.water(), run.twin(), m);
        largest = Math.max(largest, Math.abs(truth.netEffect()) / truth.sound());
      }

      assertThat(before).as("%s before its story", run.system().code()).isZero();
      assertThat(largest).as("%s in its worst month", run.system().code()).isGreaterThan(0.1);
    }
  }
}
