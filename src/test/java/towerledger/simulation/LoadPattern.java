package towerledger.simulation;

/**
 * Heat that a building or a process sheds, as a part of its own peak.
 *
 * @param peakPart peak heat as a part of what the tower is rated for
 * @param basePart what remains on a cool night, as a part of peak
 * @param balanceC outside temperature below which only the base remains
 * @param peakC outside temperature of the peak
 * @param use who is inside and when
 * @param chiller whether a chiller lies between load and tower; otherwise the load reaches it
 *     direct
 * @param kwPerTon the chiller's at full load
 */
public record LoadPattern(
    double peakPart,
    double basePart,
    double balanceC,
    double peakC,
    Use use,
    boolean chiller,
    double kwPerTon) {

  /** Weeks as different users live them. */
  public enum Use {
    OFFICE,
    SCHOOL,
    HOSPITAL,
    HOTEL,
    LABORATORY,
    RETAIL,
    DATA_CENTER,
    TWO_SHIFTS,
    THREE_SHIFTS;

    /** Part of the activity in an hour, 0 to 1; 0 means that the plant is off. */
    double activity(int dayOfWeek, int hour, boolean holiday, int month) {
      boolean weekend = dayOfWeek >= 6;
      return switch (this) {
        case OFFICE -> weekend || holiday ? 0 : hour >= 6 && hour < 18 ? 1 : hour == 18 ? 0.5 : 0;
        case SCHOOL ->
            weekend || holiday
                ? 0
                : hour >= 6 && hour < 16
                    ? (month == 7 ? 0.45 : month == 6 || month == 8 ? 0.8 : 1)
                    : hour < 18 && hour >= 16 ? 0.4 : 0;
        case HOSPITAL -> hour >= 7 && hour < 19 ? (weekend ? 0.93 : 1) : 0.82;
        case HOTEL -> hour >= 16 && hour < 23 ? 1 : hour >= 10 ? 0.84 : hour < 6 ? 0.72 : 0.8;
        case LABORATORY -> weekend || holiday ? 0.78 : hour >= 8 && hour < 18 ? 1 : 0.82;
        case RETAIL -> holiday ? 0 : hour >= 9 && hour < 22 ? 1 : 0;
        case DATA_CENTER -> 1;
        case TWO_SHIFTS -> dayOfWeek == 7 || holiday ? 0.12 : hour >= 6 && hour < 22 ? 1 : 0.25;
        case THREE_SHIFTS -> dayOfWeek == 7 ? 0.6 : 1;
      };
    }
  }

  /** Weather's part of the load, before activity. */
  double weatherPart(double smoothedC, double dewPointC) {
    double sensible = (smoothedC - balanceC) / (peakC - balanceC);
    double latent = 0.012 * Math.max(0, dewPointC - 13);
    return basePart + (1 - basePart) * Math.max(0, Math.min(1.1, sensible + latent));
  }
}
