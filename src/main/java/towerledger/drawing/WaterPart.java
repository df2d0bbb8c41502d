package towerledger.drawing;

import java.util.Locale;

/**
 * The parts that a month's makeup divides into, in the order in which they are drawn. They stack:
 * together they are the metered makeup. Storage change, meter correction and residual may be
 * negative and are then drawn left of zero.
 */
public enum WaterPart {
  EVAPORATION(Tone.EVAPORATION, Texture.PLAIN),
  DRIFT(Tone.DRIFT, Texture.PLAIN),
  NEEDED_BLOWDOWN(Tone.NEEDED_BLOWDOWN, Texture.PLAIN),
  OTHER_USE(Tone.OTHER_USE, Texture.PLAIN),
  STORAGE_CHANGE(Tone.SET_ASIDE, Texture.UPRIGHT),
  METER_CORRECTION(Tone.SET_ASIDE, Texture.LEVEL),
  EXCESS_LOSS(Tone.LOSS_PALE, Texture.RISING),
  FRESH_LOSS(Tone.LOSS, Texture.FALLING),
  RESIDUAL(Tone.GROUND, Texture.DOTTED);

  /** A second sign beside the colour. */
  enum Texture {
    PLAIN,
    RISING,
    FALLING,
    UPRIGHT,
    LEVEL,
    DOTTED
  }

  private final Tone tone;
  private final Texture texture;

  WaterPart(Tone tone, Texture texture) {
    this.tone = tone;
    this.texture = texture;
  }

  /** Colour of the part. */
  public Tone tone() {
    return tone;
  }

  Texture texture() {
    return texture;
  }

  /** Whether the part is water lost. */
  public boolean isLoss() {
    return this == EXCESS_LOSS || this == FRESH_LOSS;
  }

  /** Key of the part's name in the texts, for instance {@code water.needed-blowdown}. */
  public String messageKey() {
    return "water." + name().toLowerCase(Locale.ROOT).replace('_', '-');
  }
}
