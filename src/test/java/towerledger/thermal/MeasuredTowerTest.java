package towerledger.thermal;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.util.ArrayList;
import java.util.List;
import java.util.function.ToDoubleFunction;
import org.junit.jupiter.api.Test;
import towerledger.SharedReference;
import towerledger.psychrometrics.MoistAir;

/**
 * The Poppe method against measured water. 74 steady points of a pilot wet tower with metered water
 * lost: Plataforma Solar de Almería / University of Almería, repository juan11iguel/SOLhycool
 * (Apache-2.0), modeling/data/wct_exp{1,2,3}_exp.csv; the air-flow fit is its authors'. Altitude
 * about 500 m (from memory): 95.5 kPa.
 */
class MeasuredTowerTest {

  private static final double PRESSURE_PA = 95_500;

  /** Above this multiple of heat over latent heat drift is suspected in the measured loss. */
  private static final double DRIFT_SUSPECTED = 1.2;

  private record Point(
      double airC,
      double humidity,
      double hotC,
      double coldC,
      double flowM3H,
      double fanPercent,
      double lostLitresPerHour) {

    double heatW() {
      return waterKgS() * 4186 * (hotC - coldC);
    }

    double waterKgS() {
      return flowM3H / 3.6 * 0.994;
    }

    double allLatent() {
      return heatW() / WetTower.latentHeat((hotC + coldC) / 2) * 3600;
    }

    double fixedRule() {
      return 0.00153 * (hotC - coldC) * flowM3H * 1000;
    }

    double dryAirKgS() {
      double f = fanPercent / 2;
      return -0.0433 + 0.1650 * f - 0.0273 * airC - 0.0013 * f * f + 0.0003 * airC * airC;
    }

    double poppe() {
      MoistAir air = MoistAir.fromRelativeHumidity(airC, humidity / 100, PRESSURE_PA);
      return WetTower.measured(hotC, coldC, waterKgS(), dryAirKgS(), air).evaporationKgS() * 3600;
    }
  }

  private record Fit(int points, double bias, double cvRmse) {}

  @Test
  void poppeMeetsMeasuredWaterWhereFixedRulesDoNot() throws IOException {
    List<Point> all = points();
    List<Point> sound =
        all.stream().filter(p -> p.lostLitresPerHour() <= DRIFT_SUSPECTED * p.allLatent()).toList();
    assertThat(all).hasSize(74);
    assertThat(all.size() - sound.size()).isEqualTo(6);

    Fit poppe = fit(sound, Point::poppe);
    Fit latent = fit(sound, Point::allLatent);
    Fit rule = fit(sound, Point::fixedRule);
    System.out.printf(
        "measured tower, %d points without drift suspicion: Poppe %s, all latent %s, rule %s%n"
            + "measured tower, all %d points: Poppe %s, all latent %s, rule %s%n",
        sound.size(),
        text(poppe),
        text(latent),
        text(rule),
        all.size(),
        text(fit(all, Point::poppe)),
        text(fit(all, Point::allLatent)),
        text(fit(all, Point::fixedRule)));

    assertThat(poppe.bias()).isBetween(-0.05, 0.05);
    assertThat(poppe.cvRmse()).isLessThanOrEqualTo(0.06);
    assertThat(latent.cvRmse()).isGreaterThan(0.10);
    assertThat(rule.cvRmse()).isGreaterThan(0.10);
    assertThat(fit(all, Point::poppe).cvRmse()).isLessThan(fit(all, Point::allLatent).cvRmse());
  }

  private static String text(Fit fit) {
    return "bias %+.1f %% CV(RMSE) %.1f %%".formatted(100 * fit.bias(), 100 * fit.cvRmse());
  }

  private static Fit fit(List<Point> points, ToDoubleFunction<Point> model) {
    double sum = 0;
    double squares = 0;
    double measured = 0;
    for (Point p : points) {
      double error = model.applyAsDouble(p) - p.lostLitresPerHour();
      sum += error;
      squares += error * error;
      measured += p.lostLitresPerHour();
    }
    int n = points.size();
    return new Fit(n, sum / measured, Math.sqrt(squares / n) / (measured / n));
  }

  private static List<Point> points() throws IOException {
    List<Point> points = new ArrayList<>();
    for (String line :
        Files.readAllLines(SharedReference.fileOrSkip("wet_tower/measured_points.csv"))) {
      if (line.isBlank() || !Character.isDigit(line.charAt(0))) {
        continue;
      }
      String[] cells = line.split(",");
      double[] v = new double[cells.length];
      for (int i = 0; i < cells.length; i++) {
        v[i] = Double.parseDouble(cells[i].strip());
      }
      points.add(new Point(v[0], v[1], v[2], v[3], v[4], v[5], v[6]));
    }
    return points;
  }
}
