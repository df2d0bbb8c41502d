package towerledger.thermal;

import java.util.Optional;

/**
 * A response table at the hours of one place. What the air alone decides is added up over the nodes
 * once; an hour of any tower with this table then needs its load and its set-point alone, two
 * fifths of a look-up. Worth while where several systems share table and weather: adding up takes
 * as long as four systems' look-ups, and an hour {@value #BYTES_PER_HOUR} bytes. Immutable; shared
 * between threads.
 */
public final class ResponseSeries {

  /** Memory that an hour takes. */
  public static final int BYTES_PER_HOUR = 1208;

  private static final int LOADS = ResponseGrid.LOAD.length;
  private static final int FEW_LOADS = ResponseGrid.SLOPE_LOAD.length;

  // What stands of an hour, each at every node of the load; the slopes at few. Numbers of a kind
  // stand together hour after hour, so that a walk through the hours reads memory in its order.

  private static final int LOWEST = 1;
  private static final int HEAD = LOWEST + LOADS;
  private static final int STOP_SLOPES = ResponseNodes.STOPS * LOADS;
  private static final int STOP = STOP_SLOPES + ResponseNodes.STOPS * FEW_LOADS;
  private static final int PIECE_SLOPES = ColdWaterPieces.COEFFICIENTS * LOADS;
  private static final int PIECE = PIECE_SLOPES + ColdWaterPieces.COEFFICIENTS * FEW_LOADS;

  private final ResponseTable table;
  private final double[] dryBulbC;
  private final double[] wetBulbC;
  private final double[] pressurePa;

  /** First hour that is added up. */
  private final int from;

  /** Limit of cooling, °C, NaN where the table does not answer for the air; coldest water, K. */
  private final double[] heads;

  private final double[] stops;

  /** Evaporation, for each piece of the cold water. */
  private final double[][] pieces;

  private ResponseSeries(
      ResponseTable table,
      ResponseNodes nodes,
      double[] dryBulbC,
      double[] wetBulbC,
      double[] pressurePa,
      int from) {
    this.table = table;
    this.dryBulbC = dryBulbC.clone();
    this.wetBulbC = wetBulbC.clone();
    this.pressurePa = pressurePa.clone();
    this.from = Math.max(0, Math.min(from, dryBulbC.length));
    int hours = dryBulbC.length - this.from;
    heads = new double[hours * HEAD];
    stops = new double[hours * STOP];
    pieces = new double[ColdWaterPieces.COUNT][hours * PIECE];
    AirPlace air = new AirPlace();
    for (int i = 0; i < hours; i++) {
      int h = this.from + i;
      double wet = Math.min(wetBulbC[h], dryBulbC[h]);
      if (table.coversAir(dryBulbC[h], wet, pressurePa[h])) {
        air.find(dryBulbC[h], wet, table.pressureChange(pressurePa[h]), pressurePa[h]);
        addUp(nodes, air, i);
      } else {
        heads[i * HEAD] = Double.NaN;
      }
    }
  }

  /**
   * A table at the hours of one place.
   *
   * @param dryBulbC °C; NaN where not known
   * @param wetBulbC °C, over ice below freezing; at or above the dry bulb counts as saturated; NaN
   *     where not known
   * @param pressurePa station pressure, Pa
   * @param from hour from which on look-ups are added up; earlier ones are looked up one by one
   * @return empty where the table has nothing to add up beforehand: coil towers, and fans that
   *     alternate
   */
  public static Optional<ResponseSeries> of(
      ResponseTable table, double[] dryBulbC, double[] wetBulbC, double[] pressurePa, int from) {
    ResponseNodes nodes = table.nodes();
    return nodes == null || nodes.fanStates() > 0
        ? Optional.empty()
        : Optional.of(new ResponseSeries(table, nodes, dryBulbC, wetBulbC, pressurePa, from));
  }

  /** Memory that all its hours take. */
  public long bytes() {
    return (long) BYTES_PER_HOUR * (dryBulbC.length - from);
  }

  private void addUp(ResponseNodes nodes, AirPlace air, int i) {
    heads[i * HEAD] = air.limitC(nodes);
    for (int j = 0; j < Axis.CUBIC; j++) {
      int lowest = (air.wetBulb + j) * LOADS;
      add(nodes.lowest(), lowest, air.wetBulbWeights[j], heads, i * HEAD + LOWEST, LOADS);
      for (int k = 0; k < Axis.CUBIC; k++) {
        double weight = air.wetBulbWeights[j] * air.drynessWeights[k];
        int node = ResponseGrid.node(air.node(j, k), 0);
        add(nodes.stops(), ResponseNodes.STOPS * node, weight, stops, i * STOP, STOP_SLOPES);
        int piece = ColdWaterPieces.COEFFICIENTS * node;
        for (int p = 0; p < pieces.length; p++) {
          add(nodes.evaporation()[p], piece, weight, pieces[p], i * PIECE, PIECE_SLOPES);
        }
      }
    }
    for (int corner = 0; corner < 4; corner++) {
      double weight = air.slopeWeights[corner];
      int node = ResponseGrid.slopeNode(air.slopeNode(corner), 0);
      int stop = ResponseNodes.STOPS * node;
      add(nodes.stopSlopes(), stop, weight, stops, i * STOP + STOP_SLOPES, STOP - STOP_SLOPES);
      int piece = ColdWaterPieces.COEFFICIENTS * node;
      for (int p = 0; p < pieces.length; p++) {
        int at = i * PIECE + PIECE_SLOPES;
        add(nodes.evaporationSlopes()[p], piece, weight, pieces[p], at, PIECE - PIECE_SLOPES);
      }
    }
  }

  private static void add(
      double[] from, int first, double weight, double[] into, int at, int length) {
    for (int i = 0; i < length; i++) {
      into[at + i] = Math.fma(weight, from[first + i], into[at + i]);
    }
  }

  /**
   * Evaporation of some hours, to the last digit as {@link ResponseTable#evaporation} has it.
   *
   * @param first the hour of the place at which the hours wanted begin; may lie outside
   * @param heatW heat rejected, mean of the hour, W; zero or less evaporates nothing
   * @param setPointC cold-water set-point, °C
   * @param intoKgS receives the mean evaporation of each hour, kg/s; NaN where heat or air is not
   *     known
   */
  public void evaporation(int first, double[] heatW, double[] setPointC, double[] intoKgS) {
    LoadPlace place = new LoadPlace();
    for (int i = 0; i < heatW.length; i++) {
      int h = first + i;
      boolean known =
          h >= 0
              && h < dryBulbC.length
              && !Double.isNaN(dryBulbC[h] + wetBulbC[h] + pressurePa[h] + heatW[i]);
      intoKgS[i] = !known ? Double.NaN : heatW[i] <= 0 ? 0 : kgS(place, h, heatW[i], setPointC[i]);
    }
  }

  private double kgS(LoadPlace place, int hour, double heatW, double setPointC) {
    double share = table.loadShare(heatW);
    int i = hour - from;
    if (i < 0 || Double.isNaN(heads[i * HEAD]) || !ResponseTable.coversLoad(share, setPointC)) {
      return table.evaporationKgS(
          heatW, dryBulbC[hour], wetBulbC[hour], pressurePa[hour], setPointC);
    }
    place.find(table.loadOfCells(share));
    int s = i * STOP;
    double fullAirY = both(place, stops, s, s + STOP_SLOPES, ResponseNodes.STOPS);
    double leastAirY = both(place, stops, s + 1, s + STOP_SLOPES + 1, ResponseNodes.STOPS);
    double lowestK = mean(place, heads, i * HEAD + LOWEST, 1);
    double y = ColdWater.coordinate(heads[i * HEAD], lowestK, setPointC, fullAirY, leastAirY);
    int piece = ColdWaterPieces.of(y);
    double[] of = pieces[piece];
    int o = i * PIECE;
    int slopes = o + PIECE_SLOPES;
    double c0 = both(place, of, o, slopes, ColdWaterPieces.COEFFICIENTS);
    double c1 = both(place, of, o + 1, slopes + 1, ColdWaterPieces.COEFFICIENTS);
    double c2 = both(place, of, o + 2, slopes + 2, ColdWaterPieces.COEFFICIENTS);
    double way = ColdWaterPieces.within(piece, y);
    return ResponseTable.kgS(heatW, c0 + way * (c1 + way * c2));
  }

  /** Of numbers that stand {@code step} apart, the one at the load. */
  private static double mean(LoadPlace place, double[] row, int first, int step) {
    int o = first + place.first * step;
    return place.mean(row[o], row[o + step], row[o + 2 * step], row[o + 3 * step]);
  }

  /** The same, its change with pressure included. */
  private static double both(LoadPlace place, double[] row, int first, int slopes, int step) {
    int o = slopes + place.slope * step;
    return mean(place, row, first, step) + place.between(row[o], row[o + step]);
  }
}
