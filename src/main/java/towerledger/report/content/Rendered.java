package towerledger.report.content;

/**
 * A report in every form it is sent in. Arrays are not copied: whoever takes it, keeps it as it is.
 *
 * @param subject subject of the mail
 * @param html the mail; holds {@link #RECIPIENT} and {@link #LEAVE} where each recipient's own
 *     address and link go, and the picture as {@code cid:} {@link #PICTURE_ID}
 * @param plain the same as plain text, with the same gaps
 * @param pdf the same for printing, with charts and a table a site
 * @param csv the figures behind it
 * @param picture where the water went, as PNG
 * @param notable whether it says more than that all is well
 */
public record Rendered(
    String subject,
    String html,
    String plain,
    byte[] pdf,
    String csv,
    byte[] picture,
    boolean notable) {

  /** Stands for the recipient's address. */
  public static final String RECIPIENT = "{{recipient}}";

  /** Stands for the address that leaves the list. */
  public static final String LEAVE = "{{leave}}";

  /** Content-id of the picture. */
  public static final String PICTURE_ID = "where-the-water-went@report";
}
