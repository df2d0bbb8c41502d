package towerledger.report.content;

import java.util.List;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * One customer's month in words and figures as they are read: the one object behind mail, plain
 * text and PDF.
 *
 * @param head whose it is and what it is called
 * @param lead the sentence it begins with
 * @param sentences what follows at once
 * @param sums the month in a line of figures
 * @param picture where the water went
 * @param matters what is wrong, dearest first
 * @param untold systems of which nothing can be told, and what is missing
 * @param restated months whose figures changed since the last report
 * @param credits what the sewer credit comes to
 * @param evidence how well all this is known
 * @param cautions what to mind before anybody works on a tower; empty when no work is advised
 * @param charts thirteen months, for print
 * @param sites a table a site
 * @param notable whether it says more than that all is well
 */
public record MonthlyReport(
    Head head,
    String lead,
    List<String> sentences,
    List<Sum> sums,
    Picture picture,
    List<Matter> matters,
    List<Untold> untold,
    List<Restated> restated,
    List<String> credits,
    List<String> evidence,
    List<String> cautions,
    List<ChartPlate> charts,
    List<SiteTable> sites,
    boolean notable) {

  /**
   * Whose report it is.
   *
   * @param customer name of the customer
   * @param contact whom to address; null when not known
   * @param title what it is called
   * @param subject subject of the mail
   * @param glance the month in a few words, for a list of mails
   * @param locale its language and number format
   * @param letterPaper US letter rather than A4
   * @param prepared when it was written, and on what footing
   * @param correction that it corrects an earlier one; null for a first edition
   * @param note the account manager's words; null for none
   * @param noteBy who says them; null for none
   */
  public record Head(
      String customer,
      @Nullable String contact,
      String title,
      String subject,
      String glance,
      Locale locale,
      boolean letterPaper,
      String prepared,
      @Nullable String correction,
      @Nullable String note,
      @Nullable String noteBy) {

    /** The note by paragraphs. */
    public List<String> noteParagraphs() {
      return note == null ? List.of() : note.strip().lines().filter(l -> !l.isBlank()).toList();
    }

    public String language() {
      return locale.getLanguage();
    }
  }

  /** A figure with its name. */
  public record Sum(String name, String figure, boolean lost) {}

  /**
   * The water bars.
   *
   * @param svg the drawing; empty when there is nothing to draw
   * @param text its figures in words
   * @param note what is left out of it; empty for nothing
   */
  public record Picture(String svg, String text, String note) {

    public boolean isDrawn() {
      return !svg.isEmpty();
    }
  }

  /**
   * A system where something is wrong.
   *
   * @param system its name with its site's
   * @param waste whether water is lost
   * @param says what it lost and what that cost
   * @param cause what likely causes it
   * @param why what speaks for it; empty when nothing is on record
   * @param since how long and how much in all; empty when not known
   * @param inHand what is being done
   * @param next what to do next
   */
  public record Matter(
      String system,
      boolean waste,
      String says,
      String cause,
      String why,
      String since,
      List<String> inHand,
      String next) {}

  /** A system of which nothing can be told, why, and what would help. */
  public record Untold(String system, String says, String toAdd) {}

  /** A month restated: where, why, and its figures before and after. */
  public record Restated(String system, String reason, List<Change> changes) {}

  /** A figure before and after. */
  public record Change(String name, String before, String after) {}

  /** A small chart. */
  public record ChartPlate(String title, String unit, String svg, String summary) {}

  /**
   * The systems of a site.
   *
   * @param name name of the site
   * @param headings one a column; the first names the system
   * @param rows one a system
   */
  public record SiteTable(String name, List<String> headings, List<SystemRow> rows) {}

  /**
   * A system in the table of its site.
   *
   * @param name its name
   * @param verdict what is the matter with it
   * @param waste whether it loses water
   * @param trend thirteen months as a drawing
   * @param cells figures under the headings but the first
   */
  public record SystemRow(
      String name, String verdict, boolean waste, String trend, List<String> cells) {}
}
