package towerledger.weather;

import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.balance.facts.WeatherHours;
import towerledger.psychrometrics.MoistAir;
import towerledger.psychrometrics.StandardAtmosphere;
import towerledger.quantity.Span;

/** Reads a station's hours as the model takes them: unbroken, with wet bulb and pressure. */
@Service
@Transactional(readOnly = true)
public class StationHours {

  private static final int LONGEST_BRIDGED_GAP_HOURS = 3;

  private final JdbcClient jdbc;

  StationHours(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /**
   * Hours of a station. Gaps of up to three hours are interpolated and marked; longer ones are left
   * open.
   *
   * @param station code of the station
   * @param span hours wanted; shortened to what the station has
   * @param elevationM elevation used for the pressure where none was measured
   */
  public WeatherHours hours(String station, Span span, double elevationM) {
    Optional<Instant> first = edge("MIN", station, span);
    Optional<Instant> last = edge("MAX", station, span);
    if (first.isEmpty() || last.isEmpty()) {
      return WeatherHours.none();
    }
    int hours = (int) (Duration.between(first.get(), last.get()).toHours() + 1);
    var columns = new Columns(first.get(), hours, StandardAtmosphere.pressurePa(elevationM));
    jdbc.sql(
            """
            SELECT hour_start, dry_bulb_c, wet_bulb_c, dew_point_c, relative_humidity_percent,
              pressure_kpa
            FROM weather_hour WHERE station = :station AND hour_start >= :start
              AND hour_start < :end""")
        .param("station", station)
        .param("start", at(span.startInclusive()))
        .param("end", at(span.endExclusive()))
        .query(
            row -> {
              columns.put(
                  row.getObject(1, OffsetDateTime.class).toInstant(),
                  row.getDouble(2),
                  row.getObject(3, Double.class),
                  row.getObject(4, Double.class),
                  row.getObject(5, Double.class),
                  row.getObject(6, Double.class));
            });
    return columns.bridged();
  }

  private Optional<Instant> edge(String function, String station, Span span) {
    return jdbc.sql(
            "SELECT "
                + function
                + "(hour_start) FROM weather_hour WHERE station = :station"
                + " AND hour_start >= :start AND hour_start < :end")
        .param("station", station)
        .param("start", at(span.startInclusive()))
        .param("end", at(span.endExclusive()))
        .query((row, number) -> Optional.ofNullable(row.getObject(1, OffsetDateTime.class)))
        .single()
        .map(OffsetDateTime::toInstant);
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }

  private static final class Columns {

    private final Instant start;
    private final double standardPressurePa;
    private final float[] dryBulbC;
    private final float[] wetBulbC;
    private final float[] pressurePa;

    Columns(Instant start, int hours, double standardPressurePa) {
      this.start = start;
      this.standardPressurePa = standardPressurePa;
      dryBulbC = unknown(hours);
      wetBulbC = unknown(hours);
      pressurePa = unknown(hours);
    }

    private static float[] unknown(int hours) {
      float[] column = new float[hours];
      Arrays.fill(column, Float.NaN);
      return column;
    }

    void put(
        Instant hourStart,
        double dryBulb,
        @Nullable Double wetBulb,
        @Nullable Double dewPoint,
        @Nullable Double relativeHumidityPercent,
        @Nullable Double pressureKpa) {
      int hour = (int) Duration.between(start, hourStart).toHours();
      double pressure = pressureKpa == null ? standardPressurePa : pressureKpa * 1000;
      double wet;
      if (wetBulb != null) {
        wet = Math.min(wetBulb, dryBulb);
      } else if (dewPoint != null) {
        wet = MoistAir.fromDewPoint(dryBulb, Math.min(dewPoint, dryBulb), pressure).wetBulbC();
      } else if (relativeHumidityPercent != null) {
        wet =
            MoistAir.fromRelativeHumidity(
                    dryBulb, Math.min(1, relativeHumidityPercent / 100), pressure)
                .wetBulbC();
      } else {
        return;
      }
      dryBulbC[hour] = (float) dryBulb;
      wetBulbC[hour] = (float) wet;
      pressurePa[hour] = (float) pressure;
    }

    WeatherHours bridged() {
      boolean[] filled = new boolean[dryBulbC.length];
      int known = -1;
      for (int hour = 0; hour < dryBulbC.length; hour++) {
        if (Float.isNaN(dryBulbC[hour])) {
          continue;
        }
        int gap = hour - known - 1;
        if (known >= 0 && gap > 0 && gap <= LONGEST_BRIDGED_GAP_HOURS) {
          for (int i = 1; i <= gap; i++) {
            float share = i / (float) (gap + 1);
            dryBulbC[known + i] = between(dryBulbC[known], dryBulbC[hour], share);
            wetBulbC[known + i] = between(wetBulbC[known], wetBulbC[hour], share);
            pressurePa[known + i] = between(pressurePa[known], pressurePa[hour], share);
            filled[known + i] = true;
          }
        }
        known = hour;
      }
      return new WeatherHours(start, dryBulbC, wetBulbC, pressurePa, filled);
    }

    private static float between(float a, float b, float share) {
      return a + share * (b - a);
    }
  }
}
