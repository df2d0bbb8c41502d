package towerledger.intake.csv;

import org.jspecify.annotations.Nullable;

/**
 * A column of a file of the interchange format.
 *
 * @param name its name; where units matter, in US units
 * @param required whether each row must fill it
 * @param twin the SI unit that may be used instead, if any
 * @param lowest smallest number that is possible, in SI
 * @param highest largest number that is possible, in SI
 * @param ordinal its place among the columns of its file
 */
public record Column(
    String name,
    boolean required,
    @Nullable Twin twin,
    double lowest,
    double highest,
    int ordinal) {

  /** The name used in exports: in SI where units matter. */
  public String siName() {
    return twin == null ? name : twin.siName(name);
  }
}
