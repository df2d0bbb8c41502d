package towerledger.meter;

import java.util.List;
import java.util.OptionalDouble;
import towerledger.balance.facts.RegisterVolume;

/**
 * The volumes between the readings of one register, as measured, and what there is to say about
 * them.
 *
 * @param volumes in order of time; what cannot be told is missing
 * @param remarks in order of time
 * @param resolutionLitres smallest step that the readings show, if there are any
 */
public record MeasuredRegister(
    List<RegisterVolume> volumes, List<Remark> remarks, OptionalDouble resolutionLitres) {

  public MeasuredRegister {
    volumes = List.copyOf(volumes);
    remarks = List.copyOf(remarks);
  }

  /** Nothing measured. */
  public static MeasuredRegister nothing() {
    return new MeasuredRegister(List.of(), List.of(), OptionalDouble.empty());
  }
}
