package towerledger.report.content;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.StringReader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.YearMonth;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.apache.commons.csv.CSVFormat;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.context.ApplicationContext;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import towerledger.account.Customers;
import towerledger.account.UnitPreference;
import towerledger.ledger.InventedMonths;
import towerledger.ledger.InventedMonths.Kind;

/** What a report says, in each of its forms, of a good month, a bad one and those in between. */
abstract class ReportContentCases {

  private static final YearMonth MONTH = YearMonth.of(2026, 10);
  private static final Instant FIRST = InventedMonths.instant(MONTH.plusMonths(1), 11);
  private static final Instant NOW = InventedMonths.instant(MONTH.plusMonths(1), 15);

  @Autowired ApplicationContext context;
  @Autowired ReportWriter writer;
  @Autowired ReportRenderer renderer;
  @Autowired Customers customers;

  @Test
  void saysOfABadMonthWhatWasWastedWhatItCostAndWhatToDo() throws Exception {
    InventedMonths months = months("RC-BAD").write(MONTH, Kind.BAD, FIRST, "first");

    Rendered report = render(order(months, "RC-BAD", UnitPreference.US, 1, null, "Zoë rang."));

    // 0.31 and 0.18 of the expected makeup of towers 1 and 2, 80,000 and 113,333 gal; see
    // InventedMonths
    assertThat(report.plain())
        .contains("In October 2026, your 4 metered systems took in 545,000 gal.")
        .contains("2 systems wasted 45,200 ± 7,400 gal, which cost $582 ± 95.")
        .contains("fill valve leaking by (78 %)")
        .contains("pressure at the fill valve 28 % above")
        .contains("the evidence cannot separate them")
        .contains("Lock out and tag out fans")
        .contains("Local codes and licensed practice")
        .contains("| Zoë rang.")
        .containsPattern("A sound system would\\s+have\\s+taken 213,000 ± 64,000 gal\\.")
        .containsPattern("makeup meter readings that\\s+enclose the whole month");
    assertThat(report.subject())
        .isEqualTo("Hôpital RC-BAD: cooling water in October 2026, 45,200 gal wasted, about $582");
    assertThat(report.notable()).isTrue();
    assertThat(words(report.html()))
        .as("the mail says what the plain text says")
        .contains("2 systems wasted 45,200 ± 7,400 gal, which cost $582 ± 95.")
        .contains("Tower 1, Main plant")
        .contains("Lock out and tag out fans");
  }

  @Test
  void saysOfAGoodMonthThatNothingIsWasted() {
    InventedMonths months = months("RC-GOOD").write(MONTH, Kind.GOOD, FIRST, "first");

    Rendered report = render(order(months, "RC-GOOD", UnitPreference.SI, 1, null, null));

    assertThat(report.plain())
        .contains("your 5 metered systems took in 2,780 m³.")
        .contains("None is seen to waste water.")
        .doesNotContain("Lock out")
        .doesNotContain("gal");
    assertThat(report.subject()).endsWith("no waste seen");
    assertThat(report.notable()).isFalse();
  }

  @Test
  void saysOfAMonthWithoutEvidenceWhatIsMissingAndNeverZero() {
    InventedMonths months = months("RC-NONE").write(MONTH, Kind.NO_EVIDENCE, FIRST, "first");

    Rendered report = render(order(months, "RC-NONE", UnitPreference.US, 1, null, null));

    assertThat(report.plain())
        .contains("nothing can be said of what your 5 systems took in")
        .doesNotContain("expected are Nothing")
        .containsPattern("Makeup +not known")
        .containsPattern("Wasted +not known")
        .contains("5 systems: Heat from nameplate and weather (D).");
    assertThat(report.plain()).doesNotContainPattern("\\b0 gal").doesNotContain("$0");
    assertThat(report.notable()).isTrue();
  }

  @Test
  void saysWhenAMonthHasNoRowAtAll() {
    InventedMonths months = months("RC-EMPTY");

    Rendered report =
        render(order(months, "RC-EMPTY", UnitPreference.US, 1, null, null, MONTH.plusMonths(1)));

    assertThat(report.plain()).contains("For November 2026 there are no figures");
    assertThat(report.picture()).isEmpty();
    assertThat(report.html()).doesNotContain("cid:");
  }

  @Test
  void callsOutWhatWasRestatedWithBothFiguresAndTheReason() {
    InventedMonths months = months("RC-AGAIN").write(MONTH, Kind.BAD, FIRST, "first");
    months.write(MONTH, Kind.GOOD, FIRST.plusSeconds(200_000), "register corrected");

    Rendered report =
        render(order(months, "RC-AGAIN", UnitPreference.US, 2, FIRST.plusSeconds(100_000), null));

    assertThat(report.plain())
        .contains("This corrects the report for October 2026")
        .contains("The month was restated after it had been closed.")
        .contains("October 2026, Tower 1, Main plant. Reason: register")
        .contains("Makeup: 81,000 gal; before: 106,000 gal.")
        .contains("Cost of the waste: none; before: $319 ± 37.");
    assertThat(report.subject()).contains("corrected");
  }

  @Test
  void printsTaggedWithItsFontsAndItsLanguage() throws Exception {
    InventedMonths months = months("RC-PRINT").write(MONTH, Kind.BAD, FIRST, "first");

    Rendered report = render(order(months, "RC-PRINT", UnitPreference.US, 1, null, null));

    try (PDDocument pdf = Loader.loadPDF(report.pdf())) {
      assertThat(pdf.getNumberOfPages()).as("two pages and a table a site").isBetween(2, 4);
      assertThat(pdf.getDocumentCatalog().getMarkInfo().isMarked()).isTrue();
      assertThat(pdf.getDocumentCatalog().getStructureTreeRoot().getKids()).isNotEmpty();
      assertThat(pdf.getDocumentCatalog().getLanguage()).isEqualTo("en");
      assertThat(pdf.getDocumentInformation().getTitle())
          .isEqualTo("Hôpital RC-PRINT: Cooling water in October 2026");
      assertThat(pdf.getDocumentCatalog().getViewerPreferences().displayDocTitle()).isTrue();
      // US letter, 8.5 by 11 inches
      assertThat(pdf.getPage(0).getMediaBox().getWidth()).isEqualTo(612f);
      String text = new PDFTextStripper().getText(pdf).replace('\u00a0', ' ');
      assertThat(text)
          .contains("Cooling water in October 2026", "Tower 1", "24,800 ± 2,900", "Hôpital")
          // the letters of ligatures, for search and for screen readers (ISO 14289-1, 7.21.7)
          .contains("Modeled figures carry")
          .contains("1 / " + pdf.getNumberOfPages());
      List<String> fonts = new ArrayList<>();
      for (PDPage page : pdf.getPages()) {
        for (COSName name : page.getResources().getFontNames()) {
          var font = page.getResources().getFont(name);
          fonts.add(font.getName());
          assertThat(font.isEmbedded()).as(font.getName()).isTrue();
        }
        for (COSName name : page.getResources().getXObjectNames()) {
          assertThat(page.getResources().isImageXObject(name))
              .as("drawings are vectors, not pictures")
              .isFalse();
        }
      }
      assertThat(fonts).isNotEmpty().allMatch(name -> name.contains("SourceSerif4"));
    }
  }

  @Test
  void givesTheSameBytesForTheSameReport() {
    InventedMonths months = months("RC-SAME").write(MONTH, Kind.BAD, FIRST, "first");
    ReportOrder order = order(months, "RC-SAME", UnitPreference.US, 1, null, null);

    Rendered once = render(order);
    Rendered again = render(order);

    assertThat(again.pdf()).isEqualTo(once.pdf());
    assertThat(again.picture()).isEqualTo(once.picture());
    assertThat(again.html()).isEqualTo(once.html());
    assertThat(again.plain()).isEqualTo(once.plain());
  }

  @Test
  void drawsOnePictureThatIsTheSameInWords() throws IOException {
    InventedMonths months = months("RC-DRAWN").write(MONTH, Kind.BAD, FIRST, "first");

    Rendered report = render(order(months, "RC-DRAWN", UnitPreference.US, 1, null, null));

    var picture = ImageIO.read(new ByteArrayInputStream(report.picture()));
    assertThat(picture.getWidth()).isEqualTo(900);
    assertThat(groups("<img[^>]*alt=\"([^\"]+)\"", report.html().replace('\u00a0', ' ')))
        .singleElement()
        .asString()
        .contains("Tower 1 took in 106,000 gal: evaporated: 60,000 gal")
        .contains("What Tower 5 took in is not known; expected are evaporated: 160,000 gal");
    assertThat(groups("<img[^>]*src=\"([^\"]+)\"", report.html()))
        .containsExactly("cid:" + Rendered.PICTURE_ID);
    assertThat(report.html()).as("nothing from another host").doesNotContainPattern("https?://");
  }

  @Test
  void listsTheFiguresAsCsv() throws IOException {
    InventedMonths months = months("RC-CSV").write(MONTH, Kind.BAD, FIRST, "first");

    Rendered report = render(order(months, "RC-CSV", UnitPreference.US, 1, null, null));

    var rows =
        CSVFormat.RFC4180
            .builder()
            .setHeader()
            .setSkipHeaderRecord(true)
            .get()
            .parse(new StringReader(report.csv()))
            .getRecords();
    assertThat(rows).hasSize(5);
    var first = rows.get(0);
    assertThat(first.get("system")).isEqualTo("RC-CSV-MAIN-1");
    assertThat(Double.parseDouble(first.get("loss_gal"))).isEqualTo(24_800, within());
    assertThat(first.get("likeliest_cause")).isEqualTo("fill-valve-leaking-by");
    assertThat(rows)
        .filteredOn(row -> row.get("likeliest_cause").equals("missing-data"))
        .singleElement()
        .satisfies(row -> assertThat(row.get("makeup_gal")).isEmpty());
  }

  /** The mail is XML too, so that a slip of a tag is found without a validator. */
  @Test
  void closesEveryTagAndNamesEveryPicture() throws Exception {
    InventedMonths months = months("RC-XML").write(MONTH, Kind.BAD, FIRST, "first");

    Rendered report = render(order(months, "RC-XML", UnitPreference.US, 1, null, "A & B <ok>"));

    var mail =
        DocumentBuilderFactory.newInstance()
            .newDocumentBuilder()
            .parse(new InputSource(new StringReader(report.html())));
    assertThat(mail.getDocumentElement().getAttribute("lang")).isEqualTo("en");
    assertThat(mail.getElementsByTagName("title").getLength()).isEqualTo(1);
    assertThat(mail.getElementsByTagName("h1").getLength()).isEqualTo(1);
    assertThat(mail.getElementsByTagName("script").getLength()).isZero();
    for (int i = 0; i < mail.getElementsByTagName("img").getLength(); i++) {
      var picture = (Element) mail.getElementsByTagName("img").item(i);
      assertThat(picture.getAttribute("alt")).isNotBlank();
    }
    assertThat(report.html()).contains("A &amp; B &lt;ok&gt;");
  }

  /** Held to the W3C's Nu checker where its JARs were fetched; see scripts/html-validator. */
  @Test
  void isValidHtml(@TempDir Path folder) throws Exception {
    Path jars = Path.of("target", "html-validator");
    assumeTrue(
        Files.isDirectory(jars),
        "the HTML validator is not there; fetch it as scripts/html-validator/pom.xml says");
    List<String> command =
        new ArrayList<>(
            List.of(
                System.getProperty("java.home") + "/bin/java",
                "-cp",
                jars.toAbsolutePath() + "/*",
                "nu.validator.client.SimpleCommandLineValidator",
                "--format",
                "gnu"));
    for (Kind kind : Kind.values()) {
      InventedMonths months = months("RC-V" + kind.ordinal()).write(MONTH, kind, FIRST, "first");
      Rendered report =
          render(order(months, "RC-V" + kind.ordinal(), UnitPreference.US, 1, null, "Note"));
      Path file = folder.resolve(kind + ".html");
      Files.writeString(
          file, report.html().replace(Rendered.LEAVE, "https://ledger.example/unsubscribe/x"));
      command.add(file.toString());
    }

    Process validator = new ProcessBuilder(command).redirectErrorStream(true).start();
    String said = new String(validator.getInputStream().readAllBytes());

    assertThat(said.lines().filter(line -> line.contains("error:"))).isEmpty();
    assertThat(validator.waitFor()).as(said).isZero();
  }

  @Test
  void readsNothingOfAnotherCustomer() {
    months("RC-ONE").write(MONTH, Kind.BAD, FIRST, "first");
    InventedMonths other = months("RC-TWO").write(MONTH, Kind.GOOD, FIRST, "first");

    Rendered report = render(order(other, "RC-TWO", UnitPreference.US, 1, null, null));

    assertThat(report.csv()).contains("RC-TWO-MAIN-1").doesNotContain("RC-ONE");
    assertThat(report.plain()).doesNotContain("RC-ONE").contains("None is seen to waste water");
  }

  private static org.assertj.core.data.Offset<Double> within() {
    return org.assertj.core.data.Offset.offset(0.1);
  }

  private InventedMonths months(String code) {
    return new InventedMonths(
            context, code, "Hôpital " + code, "Zoë Ångström", "zoe@" + code.toLowerCase() + ".test")
        .history(MONTH);
  }

  private Rendered render(ReportOrder order) {
    return renderer.render(order, writer.write(order));
  }

  private ReportOrder order(
      InventedMonths months,
      String code,
      UnitPreference units,
      int edition,
      Instant since,
      String note) {
    return order(months, code, units, edition, since, note, MONTH);
  }

  private ReportOrder order(
      InventedMonths months,
      String code,
      UnitPreference units,
      int edition,
      Instant since,
      String note,
      YearMonth month) {
    return new ReportOrder(
        months.customerId(),
        customers.find(code).orElseThrow().details(),
        month,
        units,
        "en",
        ZoneId.of("America/Chicago"),
        edition,
        since,
        NOW,
        note,
        note == null ? null : "Ines Falk");
  }

  private static String words(String html) {
    return html.replaceAll("(?s)<style>.*?</style>", "")
        .replaceAll("<[^>]+>", "")
        .replace('\u00a0', ' ')
        .replaceAll("\\s+", " ");
  }

  private static List<String> groups(String pattern, String text) {
    return Pattern.compile(pattern).matcher(text).results().map(m -> m.group(1)).toList();
  }
}
