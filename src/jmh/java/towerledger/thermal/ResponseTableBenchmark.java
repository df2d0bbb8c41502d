package towerledger.thermal;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;
import towerledger.psychrometrics.MoistAir;

/** A tower-year of 8,760 hours: table against direct Poppe, and the making of a table. */
@State(Scope.Thread)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.MILLISECONDS)
@Warmup(iterations = 4, time = 2)
@Measurement(iterations = 5, time = 2)
@Fork(1)
public class ResponseTableBenchmark {

  private static final int HOURS = 8760;

  private final double[] heatW = new double[HOURS];
  private final double[] dryBulbC = new double[HOURS];
  private final double[] wetBulbC = new double[HOURS];
  private final double[] pressurePa = new double[HOURS];
  private final double[] setPointC = new double[HOURS];
  private final double[] evaporationKgS = new double[HOURS];
  private TowerDesign design;
  private ResponseTable table;
  private WetTower tower;

  @Setup
  public void year() {
    MoistAir air = MoistAir.fromWetBulb(35, 25.56, 99_500);
    design = TowerDesign.open(DesignPoint.withUsualAirFlow(50, 35, 29.44, air));
    table = ResponseTable.of(design);
    tower = WetTower.of(design);
    Random random = new Random(3);
    for (int i = 0; i < HOURS; i++) {
      double t =
          11 - 14 * Math.cos(2 * Math.PI * i / HOURS) - 5 * Math.cos(2 * Math.PI * i / 24)
              + 2 * random.nextGaussian();
      pressurePa[i] = 99_500 + 600 * random.nextGaussian();
      dryBulbC[i] = t;
      wetBulbC[i] =
          MoistAir.fromRelativeHumidity(t, 0.4 + 0.5 * random.nextDouble(), pressurePa[i])
              .wetBulbC();
      setPointC[i] = 24;
      heatW[i] = design.point().heatW() * (0.1 + 0.8 * random.nextDouble());
    }
  }

  @Benchmark
  public double yearByTable() {
    table.evaporation(heatW, dryBulbC, wetBulbC, pressurePa, setPointC, evaporationKgS);
    return evaporationKgS[HOURS - 1];
  }

  @Benchmark
  public double yearByPoppe() {
    double sum = 0;
    for (int i = 0; i < HOURS; i++) {
      MoistAir air = MoistAir.fromWetBulb(dryBulbC[i], wetBulbC[i], pressurePa[i]);
      sum += tower.operate(heatW[i], air, setPointC[i]).evaporationKgS();
    }
    return sum;
  }

  @Benchmark
  public ResponseTable build() {
    return ResponseTable.of(design);
  }
}
