package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.assertj.core.api.Assertions.withinPercentage;

import java.time.Instant;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.SystemFacts;
import towerledger.thermal.ResponseTable;
import towerledger.thermal.TowerDesign;

class BasinWalkTest {

  private static final SystemFacts FACTS = new MadeUpSystem().facts();

  private final QuarterDays blocks;
  private final ControlPlan plan;
  private final BasinWalk walk;

  BasinWalkTest() {
    Function<TowerDesign, ResponseTable> tables = ResponseTable::of;
    Instant start = FACTS.weather().start();
    int hours = MadeUpSystem.DAYS * 24;
    SystemHours modelled =
        HourlyModel.of(FACTS, start, hours, new TowerTables(tables), new ArrayList<>());
    blocks = QuarterDays.of(modelled, MadeUpSystem.ZONE);
    plan = ControlPlanner.plan(FACTS, blocks);
    walk = new BasinWalk(blocks, modelled, plan, 500);
  }

  @Test
  void freshLossesLeaveTheBasinAsItIsToTheLastDigit() {
    for (Signature.Shape shape :
        new Signature.Shape[] {Signature.Shape.FRESH_ALWAYS, Signature.Shape.FRESH_WORKING}) {
      Signature leak = Signature.loss(Cause.MAKEUP_LINE_LEAK, shape, 0.4, 0.01);
      walk.walk(Signature.sound());
      double[] soundMakeup = walk.makeup.clone();
      double[] bleed = walk.bleed.clone();
      double[] slope = walk.slope.clone();
      double[] concentration = walk.concentration.clone();

      assertThat(walk.sparesBasin(leak)).isTrue();
      walk.walkFresh(leak);
      double[] makeup = walk.makeup.clone();
      double[] loss = walk.loss.clone();

      walk.walk(leak);
      assertThat(makeup).isEqualTo(walk.makeup);
      assertThat(loss).isEqualTo(walk.loss);
      assertThat(walk.bleed).isEqualTo(bleed);
      assertThat(walk.slope).isEqualTo(slope);
      assertThat(walk.concentration).isEqualTo(concentration);
      assertThat(makeup[blocks.count]).isGreaterThan(1.05 * soundMakeup[blocks.count]);
    }
  }

  @Test
  void lossesOfTheBasinsOwnWaterDoNotSpareIt() {
    walk.walk(Signature.sound());
    assertThat(
            walk.sparesBasin(
                Signature.loss(Cause.BASIN_LEAK, Signature.Shape.BASIN_ALWAYS, 0.4, 0.01)))
        .isFalse();
  }

  @Test
  void aimsMovedByOneCauseAreForgottenByTheNext() {
    walk.walk(Signature.sound());
    double[] makeup = walk.makeup.clone();
    walk.walk(Signature.aim(Cause.LOW_CYCLES, 0.6, 1, 0.01));
    assertThat(walk.makeup[blocks.count]).isGreaterThan(makeup[blocks.count]);
    walk.walk(Signature.sound());
    assertThat(walk.makeup).isEqualTo(makeup);
  }

  /** Water balance of a tower without drift: makeup = evaporation + bleed = evaporation·C/(C−1). */
  @Test
  void waterThatTheShapeLacksIsDrawnAtTheCyclesHeld() {
    MonthFrame frame = MonthFrame.of(List.of(YearMonth.of(2025, 2)), MadeUpSystem.ZONE, blocks);
    LackedWater lacked = LackedWater.of(blocks, plan, 500, List.of(), frame);
    double ran = 0;
    double evened = 0;
    for (int b = (int) frame.from(0); b < (int) frame.to(0); b++) {
      ran += blocks.runHours[b];
      evened += blocks.evenedL[b];
    }
    double perEvaporated = MadeUpSystem.CYCLES / (MadeUpSystem.CYCLES - 1);
    assertThat(lacked.monthBase()[0]).isCloseTo(500 * ran * perEvaporated, withinPercentage(0.1));
    assertThat(lacked.monthEven()[0]).isCloseTo(evened * perEvaporated, within(0.001 * ran * 500));
  }

  /** A fault that is there all day cannot be made room for by denying heat that was told. */
  @Test
  void shapeIsNotTakenAwayWhollyAndLacksWithoutLimit() {
    assertThat(LackedWater.bounded(-900, 1000)).isGreaterThan(-500).isLessThan(0);
    assertThat(LackedWater.bounded(-100, 1000)).isEqualTo(-100);
    assertThat(LackedWater.bounded(900, 1000)).isEqualTo(900);
    assertThat(LackedWater.bounded(-900, 0)).isZero();
  }
}
