package towerledger.simulation.demo;

import java.util.ArrayList;
import java.util.List;
import towerledger.simulation.Chance;

/** What technicians write on a routine visit, whatever the plant hides. */
final class VisitNotes {

  private static final List<String> SEEN =
      List.of(
          "Light algae on the sunny side of the fill, none in the basin.",
          "Belts and bearings quiet, no vibration.",
          "Strainer half loaded with leaves and cottonwood.",
          "Some scale on the lower louvres, no more than last time.",
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

  private static final List<String> LEVEL =
      List.of(
          "Basin level at the mark, water clear.",
          "Level normal on arrival, pumps running steady.");

  private static final List<String> BLEED =
      List.of(
          "Bleed line warm, valve heard to open and close.", "Bleed opened and closed on test.");

  private VisitNotes() {}

  /** What was seen, given what there was to see: nobody writes what is not so. */
  static String seen(boolean levelNormal, boolean bleedNormal, Chance chance) {
    List<String> choices = new ArrayList<>(SEEN);
    if (levelNormal) {
      choices.addAll(LEVEL);
    }
    if (bleedNormal) {
      choices.addAll(BLEED);
    }
    return chance.pick(choices);
  }

  /** Findings by the inspection list, ticked now and then and only where they are so. */
  static List<String> findings(
      boolean levelNormal, boolean overflowDry, boolean bleedNormal, Chance chance) {
    List<String> ticked = new ArrayList<>();
    tick(ticked, "level-normal", levelNormal, chance);
    tick(ticked, "overflow-dry", overflowDry, chance);
    tick(ticked, "bleed-normal", bleedNormal, chance);
    tick(ticked, "eliminators-sound", true, chance);
    return ticked;
  }

  private static void tick(List<String> ticked, String code, boolean so, Chance chance) {
    if (chance.happens(0.2) && so) {
      ticked.add(code);
    }
  }

  static List<String> done() {
    return DONE;
  }
}
