package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.redirectedUrl;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockMultipartFile;
import org.springframework.test.web.servlet.request.MockMultipartHttpServletRequestBuilder;
import towerledger.PageCases;
import towerledger.SignedIn;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;

/** Readings entered on a round. */
abstract class RoundPagesCases extends PageCases {

  private static final ZoneId ZONE = ZoneId.of("America/Chicago");
  private static final String METER = "ROUND-M1";
  private static final String REGISTER = "register-" + METER;

  private final Instant now = Instant.now().truncatedTo(ChronoUnit.MINUTES);

  @BeforeEach
  void writeAMeterReadEveryWeek() {
    if (count("SELECT COUNT(*) FROM site_meter WHERE code = '" + METER + "'") > 0) {
      return;
    }
    long customer = signedIn.customerId("ROUND-C");
    jdbc.sql(
            """
            INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
            VALUES ('ROUND-S', ?, 'Roof of rounds', 'America/Chicago', CURRENT_TIMESTAMP)\
            """)
        .param(customer)
        .update();
    jdbc.sql(
            """
            INSERT INTO site_system (code, site_id, customer_id, name, created_at)
            SELECT 'ROUND-T', id, customer_id, 'Tower of rounds', CURRENT_TIMESTAMP
            FROM site_site WHERE code = 'ROUND-S'\
            """)
        .update();
    jdbc.sql(
            """
            INSERT INTO site_meter (code, site_id, system_id, role, unit, register_digits,
              last_read_at, created_at)
            SELECT 'ROUND-M1', site_id, id, 'makeup', 'gal', 6, ?, CURRENT_TIMESTAMP
            FROM site_system WHERE code = 'ROUND-T'\
            """)
        .param(now.minus(10, ChronoUnit.DAYS).atOffset(ZoneOffset.UTC))
        .update();
    for (int week = 1; week <= 8; week++) {
      jdbc.sql(
              """
              INSERT INTO meter_register_reading (customer_id, meter_id, read_at, register, kind,
                give_or_take_hours, implausible, recorded_at, recorded_by)
              SELECT ?, id, ?, ?, 'actual', 0, FALSE, CURRENT_TIMESTAMP, 'test'
              FROM site_meter WHERE code = 'ROUND-M1'\
              """)
          .params(
              customer,
              now.minus(7L * week + 3, ChronoUnit.DAYS).atOffset(ZoneOffset.UTC),
              10_000 + 7_000 * (9 - week))
          .update();
    }
  }

  private MockMultipartHttpServletRequestBuilder sheet(Viewer viewer, Instant at) {
    var request = multipart("/rounds/ROUND-T");
    request.with(SignedIn.page(viewer));
    request.param("when", LocalDateTime.ofInstant(at, ZONE).toString());
    return request;
  }

  private Viewer technician() {
    return signedIn.technician(
        "walker@round.test", count("SELECT id FROM site_site WHERE code = 'ROUND-S'"));
  }

  private long readings() {
    return count(
        """
        SELECT COUNT(*) FROM meter_register_reading r JOIN site_meter m ON m.id = r.meter_id
        WHERE m.code = 'ROUND-M1'\
        """);
  }

  @Test
  void saysThatMoreAreDueThanOnePageShows() throws Exception {
    long customer = signedIn.customerId("ROUND-MANY");
    for (int tower = 0; tower < 42; tower++) {
      String code = "ROUNDMANY-" + tower;
      jdbc.sql(
              """
              INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
              VALUES (?, ?, 'Roof of many', 'America/Chicago', CURRENT_TIMESTAMP)\
              """)
          .params(code, customer)
          .update();
      jdbc.sql(
              """
              INSERT INTO site_system (code, site_id, customer_id, name, created_at)
              SELECT code, id, customer_id, name, CURRENT_TIMESTAMP FROM site_site WHERE code = ?\
              """)
          .param(code)
          .update();
      jdbc.sql(
              """
              INSERT INTO site_meter (code, site_id, system_id, role, unit, last_read_at, created_at)
              SELECT CONCAT('M-', code), site_id, id, 'makeup', 'gal', ?, CURRENT_TIMESTAMP
              FROM site_system WHERE code = ?\
              """)
          .params(now.minus(8, ChronoUnit.DAYS).atOffset(ZoneOffset.UTC), code)
          .update();
    }

    assertThat(lead(open("/rounds?search=roundmany"))).startsWith("More than 40 systems are due");
    assertThat(lead(open("/rounds?search=roundmany&offset=40"))).startsWith("42 systems are due");
  }

  @Test
  void saysWhatIsDueAndWhatToExpect() throws Exception {
    assertThat(open("/rounds?search=round-t", technician())).contains("/rounds/ROUND-T");
    String page = open("/rounds/ROUND-T", technician());
    // The meter passed 7,000 gal in every week: 1,000 a day, half to one and a half times of it.
    double low = figure(group("data-low=\"([0-9]+)\"", page));
    double high = figure(group("data-high=\"([0-9]+)\"", page));
    assertThat(high - low).isBetween(9_000.0, 11_000.0);
    assertThat(page).contains("Expect ").contains(">gallons<");
    jdbc.sql("UPDATE site_meter SET multiplier = 100 WHERE code = 'ROUND-M1'").update();
    try {
      assertThat(open("/rounds/ROUND-T", technician())).contains(">×\u00a0100\u00a0gallons<");
    } finally {
      jdbc.sql("UPDATE site_meter SET multiplier = 1 WHERE code = 'ROUND-M1'").update();
    }
  }

  @Test
  void listsASystemOnceByTheMeterReadLast() throws Exception {
    jdbc.sql(
            """
            INSERT INTO site_system (code, site_id, customer_id, name, created_at)
            SELECT 'ROUND-T2', id, customer_id, 'Two meters', CURRENT_TIMESTAMP
            FROM site_site WHERE code = 'ROUND-S'\
            """)
        .update();
    for (int[] meter : new int[][] {{1, 40}, {2, 9}, {3, 9}, {4, 2}}) {
      jdbc.sql(
              """
              INSERT INTO site_meter (code, site_id, system_id, role, unit, last_read_at, removed_at,
                created_at)
              SELECT ?, site_id, id, 'makeup', 'gal', ?, CAST(? AS TIMESTAMP WITH TIME ZONE),
                CURRENT_TIMESTAMP
              FROM site_system WHERE code = 'ROUND-T2'\
              """)
          .params(
              "ROUND-T2-" + meter[0],
              now.minus(meter[1], ChronoUnit.DAYS).atOffset(ZoneOffset.UTC),
              meter[0] == 4 ? now.atOffset(ZoneOffset.UTC) : null)
          .update();
    }

    String page = open("/rounds?search=round-t2", technician());
    assertThat(page.split("/rounds/ROUND-T2\"", -1)).hasSize(2);
    assertThat(page)
        .contains(
            FigureText.of(UnitPreference.US, "en").moment(now.minus(9, ChronoUnit.DAYS), ZONE));
  }

  @Test
  void takesASheetOnceHoweverOftenItIsSent() throws Exception {
    Viewer technician = technician();
    Instant at = now.minus(2, ChronoUnit.DAYS);
    long before = readings();
    for (int time = 0; time < 3; time++) {
      mvc.perform(
              sheet(technician, at)
                  .param(REGISTER, "75,000")
                  .param("makeup-conductivity", "320")
                  .param("basin-conductivity", "1250")
                  .param("supply-pressure", "64")
                  .param("finding", "fill-valve-passing")
                  .param("observation", "hisses")
                  .header("X-Draft", "true"))
          .andExpect(status().isNoContent());
    }
    assertThat(readings()).isEqualTo(before + 1);
    assertThat(
            count(
                """
                SELECT COUNT(*) FROM site_meter m WHERE m.code = 'ROUND-M1' AND m.last_read_at =
                  (SELECT MAX(r.read_at) FROM meter_register_reading r WHERE r.meter_id = m.id)\
                """))
        .as("the meter carries when it was last read")
        .isEqualTo(1);
    assertThat(
            count(
                """
                SELECT COUNT(*) FROM logsheet_visit v JOIN site_system y ON y.id = v.system_id
                WHERE y.code = 'ROUND-T' AND v.observation = 'hisses'\
                """))
        .isEqualTo(1);
  }

  /** A sheet kept on a phone may be older or newer than the program's list of work. */
  @Test
  void keepsASheetWhoseWorkIsNotOnTheList() throws Exception {
    String page =
        mvc.perform(
                sheet(technician(), now)
                    .param("observation", "kept all the same")
                    .param("event", "tower-painted"))
            .andExpect(status().isUnprocessableContent())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertWhole(page);
    assertThat(page).contains("kept all the same").contains("not on the list of this version");
    mvc.perform(sheet(technician(), now).param("event", "tower-painted").header("X-Draft", "true"))
        .andExpect(status().isUnprocessableContent())
        .andExpect(
            result ->
                assertThat(result.getResponse().getContentAsString())
                    .startsWith("One of the kinds"));
  }

  @Test
  void takesWhatWasNotExpectedAndSaysSo() throws Exception {
    Instant at = now.minus(1, ChronoUnit.DAYS);
    var answer =
        mvc.perform(sheet(technician(), at).param(REGISTER, "199999"))
            .andExpect(redirectedUrl("/rounds/ROUND-T"))
            .andReturn();
    assertThat(answer.getFlashMap().get("notice")).isEqualTo("round.taken.remarks");
    assertThat(
            jdbc.sql(
                    """
                    SELECT r.implausible FROM meter_register_reading r
                    JOIN site_meter m ON m.id = r.meter_id
                    WHERE m.code = 'ROUND-M1' AND r.register = 199999\
                    """)
                .query(Boolean.class)
                .single())
        .isTrue();
    jdbc.sql("DELETE FROM meter_register_reading WHERE register = 199999").update();
  }

  @Test
  void keepsWhatWasTypedAndNamesTheField() throws Exception {
    String page =
        mvc.perform(
                sheet(technician(), now)
                    .param(REGISTER, "12x4")
                    .param("basin-conductivity", "-3")
                    .param("finding", "level-high"))
            .andExpect(status().isUnprocessableContent())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertWhole(page);
    assertThat(page)
        .contains("value=\"12x4\"")
        .contains("This is no number")
        .contains("This cannot be. Check the value and its unit.")
        .containsPattern("value=\"level-high\"\\s+checked");
    mvc.perform(sheet(technician(), now).header("X-Draft", "true"))
        .andExpect(status().isUnprocessableContent())
        .andExpect(
            result ->
                assertThat(result.getResponse().getContentAsString())
                    .startsWith("Nothing was entered"));
    mvc.perform(sheet(technician(), now).param(REGISTER, "12x4").header("X-Draft", "true"))
        .andExpect(status().isUnprocessableContent())
        .andExpect(
            result ->
                assertThat(result.getResponse().getContentAsString())
                    .isEqualTo("makeup, ROUND-M1: This is no number. Write 1234.5 or 1,234.5."));
  }

  @Test
  void writesAPhotoAnewSmallerAndWithoutTheCamerasNotes() throws Exception {
    byte[] sent = withNotes(3000, 2000);
    assertThat(new String(sent, StandardCharsets.ISO_8859_1)).contains("51.5007 N");
    mvc.perform(
            sheet(technician(), now)
                .file(new MockMultipartFile("photo", "meter.jpg", "image/jpeg", sent)))
        .andExpect(redirectedUrl("/rounds/ROUND-T"));
    String page = open("/rounds/ROUND-T", technician());
    String address = group("src=\"(/rounds/photos/[0-9]+\\.jpg)\"", page);
    byte[] kept =
        mvc.perform(get(address).with(SignedIn.page(technician())))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsByteArray();
    assertThat(new String(kept, StandardCharsets.ISO_8859_1)).doesNotContain("51.5007 N");
    BufferedImage picture = ImageIO.read(new ByteArrayInputStream(kept));
    assertThat(picture.getWidth()).isEqualTo(1600);
    assertThat(picture.getHeight()).isEqualTo(1067);
    asksFor(address, signedIn.technician("stranger@round.test"), status().isNotFound());
  }

  @Test
  void refusesWhatIsNoPicture() throws Exception {
    String page =
        mvc.perform(
                sheet(technician(), now)
                    .file(
                        new MockMultipartFile("photo", "a.jpg", "image/jpeg", "<svg/>".getBytes())))
            .andExpect(status().isUnprocessableContent())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertThat(page)
        .as("the part with the photo stands open")
        .containsPattern("open=\"open\">\\s*<summary>Work done, notes, photo");
  }

  @Test
  void showsNothingOfOtherSites() throws Exception {
    Viewer stranger = signedIn.technician("stranger@round.test");
    assertThat(open("/rounds", stranger))
        .contains("No site is assigned to you yet")
        .doesNotContain("ROUND-T");
    asksFor("/rounds/ROUND-T", stranger, status().isNotFound());
    asksFor("/rounds", signedIn.customer("reader@round.test", "ROUND-C"), status().isForbidden());
  }

  @Test
  void tellsATechnicianWhoseSitesHaveNoMeterThatNoneIsDescribed() throws Exception {
    jdbc.sql(
            """
            INSERT INTO site_site (code, customer_id, name, time_zone, created_at)
            SELECT 'ROUND-BARE', customer_id, 'Bare roof', time_zone, created_at FROM site_site
            WHERE code = 'ROUND-S' AND NOT EXISTS
              (SELECT 1 FROM site_site WHERE code = 'ROUND-BARE')""")
        .update();
    Viewer walker =
        signedIn.technician(
            "bare@round.test", count("SELECT id FROM site_site WHERE code = 'ROUND-BARE'"));

    assertThat(open("/rounds", walker))
        .contains("No makeup meter is described yet")
        .doesNotContain("No site is assigned");
  }

  /** A picture with a comment, where cameras write place and device. */
  private static byte[] withNotes(int width, int height) throws IOException {
    var bytes = new ByteArrayOutputStream();
    ImageIO.write(new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB), "jpeg", bytes);
    byte[] plain = bytes.toByteArray();
    byte[] note = "GPS 51.5007 N 0.1246 W".getBytes(StandardCharsets.ISO_8859_1);
    var out = new ByteArrayOutputStream();
    out.write(plain, 0, 2);
    out.write(new byte[] {(byte) 0xff, (byte) 0xfe, 0, (byte) (note.length + 2)});
    out.write(note);
    out.write(plain, 2, plain.length - 2);
    return out.toByteArray();
  }
}
