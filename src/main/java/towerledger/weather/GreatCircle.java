package towerledger.weather;

/** Distance over the earth as a sphere. */
final class GreatCircle {

  /** Mean radius of the earth, km (IUGG, R1). */
  private static final double EARTH_RADIUS_KM = 6371.0088;

  private GreatCircle() {}

  /** Kilometres between two places given in degrees, by the haversine formula. */
  static double kilometres(
      double latitude1, double longitude1, double latitude2, double longitude2) {
    double halfDeltaLatitude = Math.toRadians(latitude2 - latitude1) / 2;
    double halfDeltaLongitude = Math.toRadians(longitude2 - longitude1) / 2;
    double h =
        Math.pow(Math.sin(halfDeltaLatitude), 2)
            + Math.cos(Math.toRadians(latitude1))
                * Math.cos(Math.toRadians(latitude2))
                * Math.pow(Math.sin(halfDeltaLongitude), 2);
    return 2 * EARTH_RADIUS_KM * Math.asin(Math.min(1, Math.sqrt(h)));
  }
}
