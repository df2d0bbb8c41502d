package towerledger.drawing;

/**
 * A value axis with round ticks.
 *
 * @param low value at the lower end
 * @param high value at the upper end, a tick
 * @param step distance of the ticks: 1, 2, 2.5 or 5 times a power of ten
 */
record Scale(double low, double high, double step) {

  private static final double[] ROUND = {1, 2, 2.5, 5, 10};

  /** The scale that holds two values with about the wanted number of steps. */
  static Scale holding(double least, double most, int steps) {
    double upper = most > least ? most : least + 1;
    double span = upper - least;
    double raw = span / steps;
    double power = Math.pow(10, Math.floor(Math.log10(raw)));
    double step = 10 * power;
    for (double round : ROUND) {
      if (round * power >= raw * 0.8) {
        step = round * power;
        break;
      }
    }
    // a trace below zero needs no whole step of empty paper
    double low = least < 0 && least > -0.2 * step ? least : Math.floor(least / step + 1e-9) * step;
    double high = Math.ceil(upper / step - 1e-9) * step;
    return new Scale(low, high, step);
  }

  /** Where a value lies: 0 at the lower end, 1 at the upper. */
  double place(double value) {
    return (value - low) / (high - low);
  }

  int ticks() {
    return (int) Math.round((high - tick(0)) / step) + 1;
  }

  double tick(int number) {
    return (Math.ceil(low / step - 1e-9) + number) * step;
  }
}
