package towerledger.weather;

import java.util.Optional;
import java.util.OptionalDouble;

/**
 * A weather station.
 *
 * @param code its code
 * @param name its name, if known
 * @param latitudeDeg latitude, −90 to 90, north positive, if known
 * @param longitudeDeg longitude, −180 to 180, east positive, if known
 * @param elevationM height above sea level, if known
 * @param source where its hours come from: {@code csv}, {@code epw}, {@code isd-lite}
 * @param typicalYear whether its hours are a typical year rather than observations: 8760 hours
 *     without a year, stored in that of {@link TypicalYear#YEAR}
 */
public record Station(
    String code,
    Optional<String> name,
    OptionalDouble latitudeDeg,
    OptionalDouble longitudeDeg,
    OptionalDouble elevationM,
    String source,
    boolean typicalYear) {

  public Station {
    requireBetween("latitude", latitudeDeg, 90);
    requireBetween("longitude", longitudeDeg, 180);
  }

  private static void requireBetween(String quantity, OptionalDouble value, double limit) {
    if (value.isPresent() && !(Math.abs(value.getAsDouble()) <= limit)) {
      throw new IllegalArgumentException(
          "%s of %s° lies outside −%s to %s°; check sign and order"
              .formatted(quantity, value.getAsDouble(), limit, limit));
    }
  }

  /** Whether it can be found by distance. */
  public boolean hasPlace() {
    return latitudeDeg.isPresent() && longitudeDeg.isPresent();
  }
}
