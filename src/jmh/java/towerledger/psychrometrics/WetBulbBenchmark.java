package towerledger.psychrometrics;

import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.openjdk.jmh.annotations.Benchmark;
import org.openjdk.jmh.annotations.BenchmarkMode;
import org.openjdk.jmh.annotations.Fork;
import org.openjdk.jmh.annotations.Measurement;
import org.openjdk.jmh.annotations.Mode;
import org.openjdk.jmh.annotations.OperationsPerInvocation;
import org.openjdk.jmh.annotations.OutputTimeUnit;
import org.openjdk.jmh.annotations.Scope;
import org.openjdk.jmh.annotations.Setup;
import org.openjdk.jmh.annotations.State;
import org.openjdk.jmh.annotations.Warmup;

/**
 * Wet bulb from humidity ratio: Halley's method against a straight port of the bisection that
 * psychrolib uses. The same 1000 states go through {@code scripts/bench-psychrolib.mjs} under Node.
 */
@State(Scope.Benchmark)
@BenchmarkMode(Mode.AverageTime)
@OutputTimeUnit(TimeUnit.NANOSECONDS)
@Warmup(iterations = 3, time = 1)
@Measurement(iterations = 5, time = 1)
@Fork(1)
public class WetBulbBenchmark {

  private static final int STATES = 1000;

  private final double[] dryBulbC = new double[STATES];
  private final double[] humidityRatio = new double[STATES];
  private final double[] pressurePa = new double[STATES];

  @Setup
  public void states() {
    Random random = new Random(1);
    for (int i = 0; i < STATES; i++) {
      dryBulbC[i] = 5 + 40 * random.nextDouble();
      pressurePa[i] = 80_000 + 22_000 * random.nextDouble();
      humidityRatio[i] =
          MoistAir.fromRelativeHumidity(
                  dryBulbC[i], 0.1 + 0.85 * random.nextDouble(), pressurePa[i])
              .humidityRatio();
    }
  }

  @Benchmark
  @OperationsPerInvocation(STATES)
  public double halley() {
    double sum = 0;
    for (int i = 0; i < STATES; i++) {
      sum += WetBulb.fromHumidityRatio(dryBulbC[i], humidityRatio[i], pressurePa[i]);
    }
    return sum;
  }

  @Benchmark
  @OperationsPerInvocation(STATES)
  public double bisection() {
    double sum = 0;
    for (int i = 0; i < STATES; i++) {
      sum += bisected(dryBulbC[i], humidityRatio[i], pressurePa[i]);
    }
    return sum;
  }

  /** Bisection between dew point and dry bulb to 0.001 K, the dew point by a numeric Newton. */
  private static double bisected(double dryBulb, double w, double pressure) {
    double high = dryBulb;
    double low = dewPoint(dryBulb, HumidityRatio.vapourPressurePa(w, pressure));
    double middle = (low + high) / 2;
    while (high - low > 0.001) {
      if (humidityRatio(dryBulb, middle, pressure) > w) {
        high = middle;
      } else {
        low = middle;
      }
      middle = (low + high) / 2;
    }
    return middle;
  }

  /** Unchecked, as in the original. */
  private static double humidityRatio(double t, double wetBulb, double pressure) {
    double saturated = HumidityRatio.saturated(wetBulb, pressure);
    double w =
        wetBulb >= 0
            ? HumidityRatio.overWater(t, wetBulb, saturated)
            : HumidityRatio.overIce(t, wetBulb, saturated);
    return Math.max(w, 1e-7);
  }

  private static double dewPoint(double dryBulb, double vapourPa) {
    double target = Math.log(vapourPa);
    double t = dryBulb;
    double before;
    do {
      before = t;
      double log = Math.log(SaturationPressure.pascals(before));
      double step = before > 50 ? -0.01 : 0.01;
      double slope = (Math.log(SaturationPressure.pascals(before + step)) - log) / step;
      t = Math.min(Math.max(before - (log - target) / slope, -100), 200);
    } while (Math.abs(t - before) > 0.001);
    return Math.min(t, dryBulb);
  }
}
