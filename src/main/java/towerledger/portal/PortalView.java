package towerledger.portal;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.Plate;

/** What a customer's pages show; every figure as it is read. */
final class PortalView {

  private PortalView() {}

  /**
   * The month of all own sites.
   *
   * @param customer name of the customer
   * @param monthName the month in words
   * @param earlier month before as {@code 2026-09}; null where there is none
   * @param later month after; null where there is none
   * @param sentences what the month amounts to, the first leads
   * @param wasting whether water was lost
   * @param legend what the parts of a bar mean
   * @param scale what the full width of a bar is
   * @param sites the sites with their systems
   * @param cut whether there are more systems than are shown
   * @param csvPath the month as CSV
   * @param yearCsvPath twelve months as CSV
   */
  record Month(
      String customer,
      String monthName,
      @Nullable String earlier,
      @Nullable String later,
      List<String> sentences,
      boolean wasting,
      List<Plate.Legend> legend,
      String scale,
      List<SiteRows> sites,
      boolean cut,
      String csvPath,
      String yearCsvPath) {}

  /** The systems of one site. */
  record SiteRows(String code, String name, List<Row> rows) {}

  /**
   * One system in the month.
   *
   * @param path address of its page
   * @param name its name
   * @param bar the water bar
   * @param makeup metered makeup, or that it is not metered
   * @param verdict what is the matter
   * @param cause likeliest cause; empty for a sound system
   * @param cost of the waste; empty where none was lost
   * @param wasting whether water was lost
   * @param doing what is being done about it; empty for a sound system
   */
  record Row(
      String path,
      String name,
      String bar,
      String makeup,
      String verdict,
      String cause,
      String cost,
      boolean wasting,
      String doing) {}

  /**
   * One system.
   *
   * @param code its code
   * @param name its name
   * @param siteName name of its site
   * @param month as {@code 2026-10}
   * @param monthName in words
   * @param earlier month before; null where there is none
   * @param later month after; null where there is none
   * @param sentences what the month amounts to; empty where the month has no row
   * @param wasting whether water was lost
   * @param bar the water bar
   * @param legend what its parts mean
   * @param evidence how well the heat is known
   * @param status how far the month has come
   * @param doing what is being done; empty for nothing
   * @param cautions before anybody works on it
   * @param plates the months
   * @param visits what was seen and done, newest first
   * @param csvPath its months as CSV
   */
  record OneSystem(
      String code,
      String name,
      String siteName,
      String month,
      String monthName,
      @Nullable String earlier,
      @Nullable String later,
      List<String> sentences,
      boolean wasting,
      String bar,
      List<Plate.Legend> legend,
      String evidence,
      String status,
      String doing,
      List<String> cautions,
      List<Plate> plates,
      List<VisitLine> visits,
      String csvPath) {}

  /** What was seen and done at one visit. */
  record VisitLine(String day, String seen, String done) {}

  /**
   * Sewer credits of a year.
   *
   * @param year in digits
   * @param earlier year before; null where there is none
   * @param later year after; null where there is none
   * @param lead in a sentence
   * @param volumeUnit unit of the volumes
   * @param rows one a site
   */
  record Credits(
      String year,
      @Nullable String earlier,
      @Nullable String later,
      String lead,
      String volumeUnit,
      List<CreditRow> rows) {}

  /** Credits of a site. */
  record CreditRow(
      String site, String evaporated, String deserved, String credited, String unclaimed) {}

  /**
   * Handing in a reading.
   *
   * @param meters own meters in service
   * @param form what was typed
   * @param trouble why it was not taken; null for nothing
   * @param taken what was taken; null for nothing
   * @param remarks what there is to know about it
   */
  record Readings(
      List<MeterLine> meters,
      ReadingForm form,
      @Nullable String trouble,
      @Nullable String taken,
      List<String> remarks) {}

  /** A meter with the reading before. */
  record MeterLine(String code, String where, String measures, String last) {}

  /** A reading as typed; the instant as the clock at the site shows it. */
  record ReadingForm(String meter, String register, String readAt, String note) {}

  /** Reports that were sent, newest month first. */
  record Reports(List<ReportLine> reports) {}

  /**
   * One of them; {@code corrected} when it corrects an earlier one of the month, {@code language}
   * the tag of its own.
   */
  record ReportLine(
      long id, String month, String subject, String language, String sent, boolean corrected) {}
}
