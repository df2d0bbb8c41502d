package towerledger.office;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.Html;
import towerledger.page.Plate;

/**
 * The month review as it is read.
 *
 * @param month the month, as in addresses
 * @param monthName the month in words
 * @param earlier month before, as in addresses; null when there is none
 * @param later month after; null when there is none
 * @param months options of the months to choose from, newest first, as HTML
 * @param beyond that the ledger does not reach to this month; null where it does
 * @param sums the sentence and the sums, one a currency; empty when no row passes the filter
 * @param calls whom to call, dearest waste first; empty where a filter or another order is chosen
 * @param plates the money, as charts
 * @param choice filter and order as chosen
 * @param customers options of the customers to choose from, as HTML
 * @param legend what the parts of a bar mean
 * @param scaleText how long the bars are
 * @param rows the rows of this page of the list, as HTML; empty when no row passes the filter
 * @param turning where the list can be turned to
 * @param csvPath the month as CSV
 * @param closable how many systems have this month over and not yet closed
 */
record ReviewView(
    String month,
    String monthName,
    @Nullable String earlier,
    @Nullable String later,
    String months,
    @Nullable String beyond,
    List<Sums> sums,
    List<Call> calls,
    List<Plate> plates,
    ReviewChoice choice,
    String customers,
    List<Plate.Legend> legend,
    String scaleText,
    String rows,
    Turning turning,
    String csvPath,
    int closable) {

  /**
   * What a month adds up to.
   *
   * @param sentence all of it in words
   * @param credit what of the sewer is still unclaimed, in words; empty where nothing is
   * @param makeup metered makeup
   * @param explained makeup that sound systems would have taken, with interval
   * @param wasted water wasted, with interval
   * @param cost its cost, with interval
   * @param unclaimed sewer credit deserved and not seen on a bill
   * @param wasting whether any system wastes water
   */
  record Sums(
      String sentence,
      String credit,
      String makeup,
      String explained,
      String wasted,
      String cost,
      String unclaimed,
      boolean wasting) {}

  /**
   * Somebody to call.
   *
   * @param customer the customer
   * @param path address of the system's page for this month
   * @param system name of the system
   * @param cause likeliest cause with its odds
   * @param next what to look at first
   * @param cost cost of the waste with interval
   * @param sent who is on it already; null where nobody is
   */
  record Call(
      String customer,
      String path,
      String system,
      String cause,
      String next,
      String cost,
      @Nullable String sent) {}

  /**
   * One system.
   *
   * @param rank place in the list
   * @param path address of the system's page for this month
   * @param name name of the system
   * @param whose site and customer
   * @param bar the water bar
   * @param unaccounted unaccounted water with interval, or why there is none
   * @param cost cost of the waste with interval, or empty
   * @param waste whether water is lost
   * @param verdict the verdict in words
   * @param cause likeliest cause with its odds; empty for a sound system
   * @param next what to do next; empty for a sound system
   * @param evidence how well the heat load is known
   * @param trend thirteen months
   */
  record Row(
      int rank,
      String path,
      String name,
      String whose,
      String bar,
      String unaccounted,
      String cost,
      boolean waste,
      String verdict,
      String cause,
      String next,
      String evidence,
      String trend) {

    /**
     * Adds the row to its table.
     *
     * @param unaccountedHeading heading above its unaccounted water
     * @param costHeading heading above its cost
     */
    void write(Html html, String unaccountedHeading, String costHeading) {
      html.markup("\n<tr role=\"row\"><td class=\"number rank\" role=\"cell\">")
          .markup(Integer.toString(rank))
          .markup("</td><th class=\"who\" scope=\"row\" role=\"rowheader\"><a href=\"")
          .text(path)
          .markup("\">")
          .text(name)
          .markup("</a> <span class=\"fine\">")
          .text(whose)
          .markup("</span></th><td class=\"where\" role=\"cell\" data-heading=\"\">")
          .markup(bar)
          .markup("</td><td class=\"number\" role=\"cell\" data-heading=\"")
          .text(unaccountedHeading)
          .markup("\">")
          .text(unaccounted)
          .markup("</td><td class=\"number lost\" role=\"cell\" data-heading=\"")
          .text(costHeading)
          .markup("\">")
          .text(cost)
          .markup("</td><td class=\"verdict\" role=\"cell\" data-heading=\"\"><span")
          .markup(waste ? " class=\"lost\">" : ">")
          .text(verdict)
          .markup("</span>");
      if (!cause.isEmpty()) {
        html.markup(": <span>").text(cause).markup("</span>");
      }
      if (!next.isEmpty()) {
        html.markup(" <span class=\"fine\">").text(next).markup("</span>");
      }
      html.markup(" <span class=\"fine\">")
          .text(evidence)
          .markup("</span></td><td class=\"trend\" role=\"cell\" data-heading=\"\">")
          .markup(trend)
          .markup("</td></tr>");
    }
  }

  /**
   * Turning the pages of the list.
   *
   * @param text which rows these are
   * @param before address of the page before; null on the first
   * @param after address of the page after; null on the last
   */
  record Turning(String text, @Nullable String before, @Nullable String after) {}
}
