package towerledger.office;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.FigureTable;
import towerledger.page.Html;
import towerledger.page.Plate;

/**
 * One system in one month as it is read.
 *
 * @param code code of the system
 * @param name its name
 * @param whose site and customer
 * @param month the month, as in addresses
 * @param monthName the month in words
 * @param earlier month before, as in addresses; null when the ledger has none
 * @param later month after; null when the ledger has none
 * @param says what the month says; null when the ledger has no row for it
 * @param signs what the signs over the charts' months mean
 * @param plates charts over the months
 * @param rows the ledger, newest first, as HTML; empty when it has no month
 * @param findings what somebody is, or was, to look at, newest first
 * @param visits the newest visits, newest first
 * @param editable whether the reader may edit it
 * @param site code of its site
 * @param towers codes of its towers
 * @param meters codes of its meters
 * @param settings what may be edited of its settings, in the order of the table
 * @param equipment towers, meters and settings
 */
record SystemView(
    String code,
    String name,
    String whose,
    String month,
    String monthName,
    @Nullable String earlier,
    @Nullable String later,
    @Nullable Says says,
    List<Plate.Legend> signs,
    List<Plate> plates,
    String rows,
    List<FindingLine> findings,
    List<SystemEvents.Visited> visits,
    boolean editable,
    String site,
    List<String> towers,
    List<String> meters,
    List<Setting> settings,
    List<Equipment> equipment) {

  /**
   * A setting as it was told once.
   *
   * @param name as files have it
   * @param from day from which it holds, as files have it
   * @param says all of it in words
   */
  record Setting(String name, String from, String says) {}

  /**
   * What a month says.
   *
   * @param sentences the month in sentences, the first one large
   * @param status how far the month has come, and its revision
   * @param evidence how well the heat load is known
   * @param bar the water bar
   * @param parts the parts that stack
   * @param sum the makeup they add up to
   * @param beside figures that overlap the parts
   * @param opinions causes weighed, likeliest first
   * @param assumptions what was assumed
   * @param whatToAdd what would tell more
   * @param cautions what to mind when working
   * @param workingPath where the whole derivation is
   * @param waste whether water is lost
   */
  record Says(
      List<String> sentences,
      String status,
      String evidence,
      String bar,
      List<Part> parts,
      String sum,
      List<Beside> beside,
      List<Opinion> opinions,
      List<String> assumptions,
      List<String> whatToAdd,
      List<String> cautions,
      String workingPath,
      boolean waste) {

    /** Whether anything speaks against one of the causes. */
    public boolean anyAgainst() {
      return opinions.stream().anyMatch(opinion -> !opinion.evidenceAgainst().isEmpty());
    }
  }

  /** One part of the makeup: its sample, name, volume, what that may be off by, and share. */
  record Part(
      String swatch, String name, String volume, String doubt, String share, boolean loss) {}

  /** A figure with its name and, where needed, a word on it. */
  record Beside(String name, String figure, String note) {}

  /** A cause with what speaks for and against it. */
  record Opinion(
      String cause, String odds, List<String> evidenceFor, List<String> evidenceAgainst) {}

  /** Headings of the ledger that stand beside its figures where it is folded. */
  record Headings(
      String state,
      String makeup,
      String expected,
      String unaccounted,
      String cost,
      String revision) {}

  /**
   * One month of the ledger.
   *
   * @param revision its number, and that it leads to the working
   */
  record Row(
      String path,
      String month,
      String status,
      String makeup,
      String expected,
      String unaccounted,
      String verdict,
      String cost,
      boolean waste,
      boolean chosen,
      String workingPath,
      String revision) {

    /** Adds the row to its table. */
    void write(Html html, Headings headings) {
      html.markup(chosen ? "\n<tr role=\"row\" aria-current=\"true\">" : "\n<tr role=\"row\">")
          .markup("<th scope=\"row\" role=\"rowheader\" class=\"nowrap\">");
      link(html, path, month);
      html.markup("</th>");
      cell(html, "aside", headings.state(), status);
      cell(html, "number", headings.makeup(), makeup);
      cell(html, "number aside", headings.expected(), expected);
      cell(html, "number", headings.unaccounted(), unaccounted);
      cell(html, waste ? "number lost" : "number aside", headings.cost(), cost);
      cell(html, waste ? "says lost" : "says", "", verdict);
      html.markup("<td role=\"cell\" class=\"aside\" data-heading=\"")
          .text(headings.revision())
          .markup("\">");
      link(html, workingPath, revision);
      html.markup("</td></tr>");
    }

    private static void cell(Html html, String looks, String heading, String text) {
      html.markup("<td role=\"cell\" class=\"")
          .markup(looks)
          .markup("\" data-heading=\"")
          .text(heading)
          .markup("\">")
          .text(text)
          .markup("</td>");
    }

    private static void link(Html html, String path, String text) {
      html.markup("<a href=\"").text(path).markup("\">").text(text).markup("</a>");
    }
  }

  /** A finding with its causes and state. */
  record FindingLine(long id, String since, String causes, String status, boolean waste) {}

  /** Things of one kind with what is known of them. */
  record Equipment(String title, FigureTable table) {
    public String html() {
      return table.words(title);
    }
  }
}
