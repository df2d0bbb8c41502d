package towerledger.office;

import java.util.List;
import towerledger.page.FigureTable;

/**
 * How a month's figures came about.
 *
 * @param title system and month
 * @param systemPath back to the system
 * @param about status, revision, model version, when and why
 * @param steps the derivation
 * @param budget uncertainty budget of the unaccounted water
 * @param assumptions what was assumed
 * @param pricing how the money was worked out
 * @param revisions every revision of the month, newest first
 */
record WorkingView(
    String title,
    String systemPath,
    String about,
    List<Step> steps,
    FigureTable budget,
    List<String> assumptions,
    List<String> pricing,
    List<Revision> revisions) {

  /** One step of the derivation. */
  record Step(String name, String value, String formula, String source) {}

  /** One revision of the month. */
  record Revision(
      String path,
      int number,
      String written,
      String reason,
      String makeup,
      String unaccounted,
      String verdict,
      boolean shown) {}
}
