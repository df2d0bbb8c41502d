package towerledger.report;

/**
 * All that is sent of a report, as it is stored. Arrays are not copied.
 *
 * @param html the mail, with gaps for each recipient's address and link
 * @param plain the same as plain text
 * @param pdf the same for print
 * @param csv the figures
 * @param picture where the water went, as PNG; empty when there is nothing to draw
 */
public record ReportCopy(String html, String plain, byte[] pdf, String csv, byte[] picture) {

  /** What stands in html and plain text where a recipient's address goes. */
  public static final String RECIPIENT = towerledger.report.content.Rendered.RECIPIENT;

  /** What stands there where a recipient's link goes. */
  public static final String LEAVE = towerledger.report.content.Rendered.LEAVE;

  /** What html names the picture by. */
  public static final String PICTURE = "cid:" + towerledger.report.content.Rendered.PICTURE_ID;
}
