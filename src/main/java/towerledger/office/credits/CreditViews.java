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
   * @param earlier the year before; null where the ledger does not reach to it
   * @param later the year after, likewise
   * @param rows sites, most unclaimed first
   * @param before address of the rows before; null where there are none
   * @param after address of the rows after
   */
  record Year(
      int year,
      String lead,
      @Nullable Integer earlier,
      @Nullable Integer later,
      List<Row> rows,
      @Nullable String before,
      @Nullable String after) {}

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
   * @param customer who claims
   * @param lead what is still to be claimed, in a sentence
   * @param schedule the sewer schedule
   * @param rule the utility's rule in words
   * @param deadline when and how to claim, in the utility's words; may be empty
   * @param sums one line a bill
   * @param total the foot under them; empty where there is no bill
   * @param systems one line a bill and system
   * @param readings what was read, by meter and system
   * @param disclosures what is not claimed
   * @param trouble what kept a claim from being made
   */
  record Claims(
      String site,
      String name,
      int year,
      String customer,
      String lead,
      String schedule,
      String rule,
      String deadline,
      FigureTable sums,
      List<String> total,
      FigureTable systems,
      List<Readings> readings,
      List<String> disclosures,
      List<String> trouble) {}

  /** What was read of one meter or system. */
  record Readings(String source, FigureTable table) {}
}
