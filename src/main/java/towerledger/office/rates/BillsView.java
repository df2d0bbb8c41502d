package towerledger.office.rates;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.FigureTable;

/**
 * A site's bills as they are read.
 *
 * @param code code of the site
 * @param name its name
 * @param says what was found, in a sentence
 * @param bills every bill with what it is off by; null when there are none
 * @param findings what is worth knowing of each bill, one a line
 * @param claims one a sewer bill that a credit is due on, newest first
 * @param projection what the credit left unclaimed in a year comes to; null when there is none
 */
record BillsView(
    String code,
    String name,
    String says,
    @Nullable FigureTable bills,
    List<String> findings,
    List<ClaimText> claims,
    @Nullable FigureTable projection) {

  /**
   * A claim, complete enough for a clerk to check.
   *
   * @param title the days it is for
   * @param says what is due and what is left, in a sentence
   * @param facts rule, deadline, schedule and amounts, as name and value
   * @param working each step of the arithmetic
   * @param evidence the readings and samples behind it
   * @param disclosures what is not claimed, and what the reader has to know
   */
  record ClaimText(
      String title,
      String says,
      List<Fact> facts,
      List<String> working,
      FigureTable evidence,
      List<String> disclosures) {}

  /** A fact with its name. */
  record Fact(String name, String value) {}
}
