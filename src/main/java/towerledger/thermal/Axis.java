package towerledger.thermal;

/**
 * One axis of a response table: its nodes, and the weights by which a value between them takes part
 * of its neighbours. Values beyond the nodes are weighed by the outermost ones.
 */
final class Axis {

  /** Neighbours that a cubic takes part of. */
  static final int CUBIC = 4;

  private final double[] nodes;

  /** Reciprocals of the products of distances, four for each window of neighbours. */
  private final double[] reciprocals;

  /** The interval at the left end of each slice; a slice is shorter than any interval. */
  private final int[] intervalOfSlice;

  private final double slicesPerUnit;

  private Axis(double... nodes) {
    this.nodes = nodes.clone();
    int windows = Math.max(0, nodes.length - CUBIC + 1);
    reciprocals = new double[CUBIC * windows];
    for (int w = 0; w < windows; w++) {
      for (int i = 0; i < CUBIC; i++) {
        double product = 1;
        for (int j = 0; j < CUBIC; j++) {
          product *= i == j ? 1 : nodes[w + i] - nodes[w + j];
        }
        reciprocals[CUBIC * w + i] = 1 / product;
      }
    }
    double narrowest = Double.MAX_VALUE;
    for (int i = 1; i < nodes.length; i++) {
      narrowest = Math.min(narrowest, nodes[i] - nodes[i - 1]);
    }
    int slices = (int) Math.ceil((nodes[nodes.length - 1] - nodes[0]) / narrowest * 1.01);
    slicesPerUnit = slices / (nodes[nodes.length - 1] - nodes[0]);
    intervalOfSlice = new int[slices];
    for (int s = 0, interval = 0; s < slices; s++) {
      while (interval < nodes.length - 2 && nodes[0] + s / slicesPerUnit >= nodes[interval + 1]) {
        interval++;
      }
      intervalOfSlice[s] = interval;
    }
  }

  /** An axis of these nodes, ascending. */
  static Axis of(double... nodes) {
    return new Axis(nodes);
  }

  /** An axis of the logarithms of these values, ascending. */
  static Axis ofLogarithms(double... values) {
    double[] nodes = new double[values.length];
    for (int i = 0; i < values.length; i++) {
      nodes[i] = Math.log(values[i]);
    }
    return new Axis(nodes);
  }

  /**
   * Some of the nodes of another axis, from its first to its last, linear between them.
   *
   * @param few places of the nodes on that axis, ascending
   */
  record Part(int[] few, int[] partOfInterval, double[] from, double[] perLength) {

    /** The interval of this part in which an interval of the whole axis lies. */
    int interval(int ofWhole) {
      return partOfInterval[ofWhole];
    }

    /** Share of the way through an interval of this part. */
    double share(int interval, double x) {
      return (x - from[interval]) * perLength[interval];
    }
  }

  /** Some of the nodes of this axis, by their places; the first and the last among them. */
  Part part(int... few) {
    int[] partOfInterval = new int[nodes.length - 1];
    double[] from = new double[few.length - 1];
    double[] perLength = new double[few.length - 1];
    for (int i = 0; i < few.length - 1; i++) {
      from[i] = nodes[few[i]];
      perLength[i] = 1 / (nodes[few[i + 1]] - nodes[few[i]]);
      for (int j = few[i]; j < few[i + 1]; j++) {
        partOfInterval[j] = i;
      }
    }
    return new Part(few, partOfInterval, from, perLength);
  }

  int size() {
    return nodes.length;
  }

  double node(int i) {
    return nodes[i];
  }

  double last() {
    return nodes[nodes.length - 1];
  }

  /** Place of the node at the left of a value, the last but one at most. */
  int interval(double x) {
    int slice = (int) ((x - nodes[0]) * slicesPerUnit);
    int interval = intervalOfSlice[Math.max(0, Math.min(slice, intervalOfSlice.length - 1))];
    int next = Math.min(interval + 1, nodes.length - 2);
    return x >= nodes[next] ? next : interval;
  }

  /** First of the four nodes around an interval. */
  int window(int interval) {
    return Math.max(0, Math.min(interval - 1, nodes.length - CUBIC));
  }

  /** Lagrange's weights of the four nodes from {@code first} on. */
  void cubic(int first, double x, double[] weights) {
    double a = x - nodes[first];
    double b = x - nodes[first + 1];
    double c = x - nodes[first + 2];
    double d = x - nodes[first + 3];
    double ab = a * b;
    double cd = c * d;
    int o = CUBIC * first;
    weights[0] = b * cd * reciprocals[o];
    weights[1] = a * cd * reciprocals[o + 1];
    weights[2] = ab * d * reciprocals[o + 2];
    weights[3] = ab * c * reciprocals[o + 3];
  }
}
