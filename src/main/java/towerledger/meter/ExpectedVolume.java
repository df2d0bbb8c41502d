package towerledger.meter;

import java.util.Optional;
import towerledger.balance.facts.RegisterVolume;

/**
 * What the model expects to have passed a meter between two readings. A reading outside it is taken
 * all the same, and marked.
 *
 * @param lowLitres lower bound, not negative
 * @param highLitres upper bound, not below the lower
 */
public record ExpectedVolume(double lowLitres, double highLitres) {

  public ExpectedVolume {
    if (!(lowLitres >= 0) || !(highLitres >= lowLitres) || Double.isInfinite(highLitres)) {
      throw new IllegalArgumentException(
          "expected volume from %s to %s L is no range; give 0 or more, lower bound first"
              .formatted(lowLitres, highLitres));
    }
  }

  /** The words to show beside a volume outside this range; empty when it lies inside. */
  public Optional<Remark> remarkOn(String meter, RegisterVolume volume) {
    double litres = volume.litres();
    if (litres >= lowLitres && litres <= highLitres) {
      return Optional.empty();
    }
    return Optional.of(
        new Remark(
            Remark.Kind.NOT_EXPECTED,
            volume.span().endExclusive(),
            "meter %s passed %.0f L since the reading before; %.0f to %.0f L were expected. Taken and marked: read the register again if you can"
                .formatted(meter, litres, lowLitres, highLitres)));
  }
}
