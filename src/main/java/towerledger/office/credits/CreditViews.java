package towerledger.office.credits;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.FigureTable;

/** What the pages of credits show. */
final class CreditViews {

  private CreditViews() {}

  /**
   * All sites in a year.
   *
   * @param year the year
   * @param lead the sentence it begins with
   * @param rows sites, most unclaimed first
   * @param before address of the rows before; null where there are none
   * @param after address of the rows after
   */
  record Year(
      int year, String lead, List<Row> rows, @Nullable String before, @Nullable String after) {}

  /** A site in a year. */
  record Row(
      String site,
      String name,
      String customer,
      String evaporated,
      String due,
      String credited,
      String unclaimed) {}

  /**
   * The claim of a site's year.
   *
   * @param site code of the site
   * @param name its name
   * @param year the year
   * @param lead what is still to be claimed, in a sentence
   * @param rule the utility's rule in words
   * @param deadline when and how to claim, in the utility's words; may be empty
   * @param sums one line a period
   * @param claims every period with its working
   * @param trouble what kept a claim from being made
   */
  record Claims(
      String site,
      String name,
      int year,
      String lead,
      String rule,
      String deadline,
      FigureTable sums,
      List<Period> claims,
      List<String> trouble) {}

  /** One period: its working, the readings behind it and what is not claimed. */
  record Period(
      String title, List<String> working, FigureTable evidence, List<String> disclosures) {}
}
