package towerledger.quantity;

/**
 * Conversion factors between US customary and SI units.
 *
 * <p>Source: NIST Special Publication 811 (2008), Appendix B.8; exact factors follow from the
 * definitions quoted there (1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, 1 Btu(IT) = 1055.055 852 62 J).
 */
public final class Units {

  /** Metres in one foot; exact. */
  public static final double METRES_PER_FOOT = 0.3048;

  /** Millimetres in one inch; exact. */
  public static final double MILLIMETRES_PER_INCH = 25.4;

  /** Litres in one US gallon (231 cubic inches); exact. */
  public static final double LITRES_PER_US_GALLON = 3.785411784;

  /** Litres in one imperial gallon; exact. */
  public static final double LITRES_PER_IMPERIAL_GALLON = 4.54609;

  /** Litres in one cubic foot; exact. */
  public static final double LITRES_PER_CUBIC_FOOT = 28.316846592;

  /** Pascals in one pound-force per square inch. */
  public static final double PASCALS_PER_PSI = 6894.757293168361;

  /** Pascals in one conventional inch of mercury. */
  public static final double PASCALS_PER_INCH_HG = 3386.389;

  /** Joules in one Btu of the International Table. */
  public static final double JOULES_PER_BTU = 1055.05585262;

  /** Joules in one kilowatt-hour; exact. */
  public static final double JOULES_PER_KWH = 3.6e6;

  /** Joules in one ton-hour of refrigeration (12,000 Btu). */
  public static final double JOULES_PER_TON_HOUR = 12_000 * JOULES_PER_BTU;

  /** Watts in one ton of refrigeration (12,000 Btu/h). */
  public static final double WATTS_PER_TON = JOULES_PER_TON_HOUR / 3600;

  /**
   * Watts rejected by one nominal ton of cooling tower (15,000 Btu/h): the chiller's 12,000 Btu/h
   * plus a quarter of compressor heat, the trade's convention for rating towers.
   */
  public static final double WATTS_PER_TOWER_TON = 15_000 * JOULES_PER_BTU / 3600;

  /** Watts in one mechanical horsepower (550 ft·lbf/s). */
  public static final double WATTS_PER_HORSEPOWER = 745.6998715822702;

  /**
   * Flow coefficient Kv (m³/h of water at 1 bar) of a valve whose Cv (US gpm at 1 psi) is one:
   * follows from the gallon and psi above at equal water density.
   */
  public static final double KV_PER_CV =
      LITRES_PER_US_GALLON * 60 / 1000 * Math.sqrt(100_000 / PASCALS_PER_PSI);

  private Units() {}

  /** Celsius of a Fahrenheit temperature. */
  public static double celsius(double fahrenheit) {
    return (fahrenheit - 32) / 1.8;
  }

  /** Fahrenheit of a Celsius temperature. */
  public static double fahrenheit(double celsius) {
    return celsius * 1.8 + 32;
  }
}
