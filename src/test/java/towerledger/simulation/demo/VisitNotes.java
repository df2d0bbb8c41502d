package towerledger.simulation.demo;

import java.util.List;

/** What technicians write on a routine visit, whatever the plant hides. */
final class VisitNotes {

  private static final List<String> SEEN =
      List.of(
          "Basin level at the mark, water clear.",
          "Light algae on the sunny side of the fill, none in the basin.",
          "Belts and bearings quiet, no vibration.",
          "Level normal on arrival, float moves freely.",
          "Strainer half loaded with leaves and cottonwood.",
          "Some scale on the lower louvres, no more than last time.",
          "Bleed line warm, solenoid heard to open and close.",
          "Drift eliminators in place, no gaps seen.",
          "Corrosion coupons due in four weeks.",
          "Spray nozzles all throwing, one slightly uneven.",
          "Water clear, slight foam after dosing.",
          "Roof wet from last night's rain.",
          "Inhibitor drum at a third, order placed.",
          "Plant running on one pump, second in standby.",
          "Operators report nothing unusual.");

  private static final List<String> DONE =
      List.of(
          "Sample taken, strainer rinsed.",
          "Sample taken, feed pumps checked.",
          "Probe wiped, sample taken.",
          "Reads taken, biocide dosed as planned.",
          "Reads taken.",
          "Strainer cleaned, drum changed.",
          "Fan belts tensioned, reads taken.",
          "Sample taken, dip slide set for the laboratory.");

  private VisitNotes() {}

  static List<String> seen() {
    return SEEN;
  }

  static List<String> done() {
    return DONE;
  }
}
