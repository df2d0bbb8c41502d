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
 * @param bills bills of the newest year with what they are off by; null when there are none
 * @param olderBills those before; null when there are none
 * @param findings what is worth knowing of each bill, one a line
 * @param claims what sewer bills of the newest year earn and left unclaimed; null when none earns
 *     anything
 * @param olderClaims those before; null when there are none
 * @param claimYears years whose claim can be printed, newest first
 * @param fiveYears what a year's bills, waste and unclaimed credit come to
 */
record BillsView(
    String code,
    String name,
    String says,
    @Nullable FigureTable bills,
    @Nullable FigureTable olderBills,
    List<String> findings,
    @Nullable FigureTable claims,
    @Nullable FigureTable olderClaims,
    List<Integer> claimYears,
    FiveYears fiveYears) {

  /**
   * Amounts of a year over five, as rates stay or rise.
   *
   * @param courses one an amount that is known and not nothing
   * @param rise the reader's own percentage a year, as typed
   * @param wrong what is wrong with it; null when nothing is
   */
  record FiveYears(List<Course> courses, String rise, @Nullable String wrong) {}

  /** An amount of a year and what it comes to. */
  record Course(String title, String says, FigureTable table) {}
}
