package towerledger.balance;

/** Mean and variance of one quantity over all stories, each with a spread of its own. Mutable. */
final class StoryMoments {

  private double weights;
  private double sum;
  private double square;

  /**
   * Takes in what one story says.
   *
   * @param relativeVariance variance of its value over the square of the value
   */
  void add(double weight, double value, double relativeVariance) {
    weights += weight;
    sum += weight * value;
    square += weight * value * value * (1 + relativeVariance);
  }

  double mean() {
    return sum / weights;
  }

  double variance() {
    double mean = mean();
    return Math.max(0, square / weights - mean * mean);
  }
}
