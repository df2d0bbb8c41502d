package towerledger.intake;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.zip.GZIPOutputStream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.SharedReference;
import towerledger.weather.Stations;

/** Weather files and Green Button feeds among the files of an import. */
abstract class OpenFormatCases {

  /** The format note of NOAA: 2024-07-01 06 UTC, 25.0 °C, dew point 20.0 °C, 1013.2 hPa at sea. */
  private static final String ISD_LITE =
      """
      2024 07 01 06   250   200 10132   180    21     0     0     0
      2024 07 01 07 -9999   200 10132   180    21     0     0     0
      2024 07 01 08   260   200 -9999   180    21     0     0     0
      2024 07 01 09 broken
      """;

  private static final String FEED =
      """
      <feed xmlns="http://www.w3.org/2005/Atom" xmlns:e="http://naesb.org/espi">
        <entry><link rel="self" href="/UsagePoint/1"/><link rel="related" href="/UsagePoint/1/MeterReading"/>
          <content><e:UsagePoint><e:ServiceCategory><e:kind>2</e:kind></e:ServiceCategory></e:UsagePoint></content></entry>
        <entry><link rel="self" href="/UsagePoint/1/MeterReading/1"/><link rel="up" href="/UsagePoint/1/MeterReading"/>
          <link rel="related" href="/MeterReading/1/IntervalBlock"/><link rel="related" href="/ReadingType/1"/>
          <content><e:MeterReading/></content></entry>
        <entry><link rel="self" href="/ReadingType/1"/>
          <content><e:ReadingType><e:accumulationBehaviour>4</e:accumulationBehaviour><e:commodity>9</e:commodity>
            <e:flowDirection>1</e:flowDirection><e:kind>12</e:kind><e:powerOfTenMultiplier>0</e:powerOfTenMultiplier>
            <e:uom>128</e:uom></e:ReadingType></content></entry>
        <entry><link rel="self" href="/MeterReading/1/IntervalBlock/1"/><link rel="up" href="/MeterReading/1/IntervalBlock"/>
          <content><e:IntervalBlock>
            <e:IntervalReading><e:timePeriod><e:duration>2592000</e:duration><e:start>1735689600</e:start></e:timePeriod><e:value>27291</e:value></e:IntervalReading>
            <e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1738281600</e:start></e:timePeriod><e:value>40</e:value></e:IntervalReading>
            <e:IntervalReading><e:timePeriod><e:duration>3600</e:duration><e:start>1738285200</e:start></e:timePeriod><e:value>-1</e:value></e:IntervalReading>
          </e:IntervalBlock></content></entry>
      </feed>
      """;

  @TempDir Path folder;
  @Autowired Importer importer;
  @Autowired Stations stations;
  @Autowired JdbcClient jdbc;

  @Test
  void hoursOfIsdLiteComeWithStationPressure() throws IOException {
    take(
        "weather_stations.csv",
        "station,elevation_ft\n725300-94846,657.8\n".getBytes(StandardCharsets.UTF_8));

    FileReceipt receipt = take("725300-94846-2024.gz", gzip(ISD_LITE));

    assertThat(receipt.file()).isEqualTo("725300-94846-2024.gz");
    assertThat(receipt.rows()).isEqualTo(4);
    assertThat(receipt.added()).isEqualTo(2);
    assertThat(receipt.unchanged()).isEqualTo(1);
    assertThat(receipt.quarantined()).isEqualTo(1);
    assertThat(receipt.reasons().get(0)).contains("line 4").contains("an hour of ISD-Lite has 61");
    var hours =
        jdbc.sql(
                """
                SELECT dry_bulb_c, dew_point_c, pressure_kpa FROM weather_hour
                WHERE station = '725300-94846' ORDER BY hour_start""")
            .query()
            .listOfRows();
    assertThat(hours).hasSize(2);
    // ISA: 200.5 m of air at 25 °C weigh about 2.3 kPa
    assertThat((double) hours.get(0).get("pressure_kpa")).isBetween(98.8, 99.2);
    assertThat(hours.get(1).get("pressure_kpa")).isNull();
    assertThat(take("725300-94846-2024", ISD_LITE.getBytes(StandardCharsets.UTF_8)).added())
        .isZero();
  }

  @Test
  void isdLiteWithoutElevationIsTakenWithoutPressureAndSaysSo() throws IOException {
    FileReceipt receipt = take("OPN-LOW.isd", ISD_LITE.getBytes(StandardCharsets.UTF_8));

    assertThat(receipt.added()).isEqualTo(2);
    assertThat(receipt.reasons())
        .anyMatch(reason -> reason.contains("elevation of station OPN-LOW is not known"));
  }

  @Test
  void typicalYearOfAnEpwFileIsTakenUnderItsName() throws IOException {
    byte[] epw = Files.readAllBytes(SharedReference.fileOrSkip("weather/atlanta_tmy3.epw"));

    FileReceipt receipt = take("OPN-ATL.epw", epw);
    FileReceipt long_ = take("USA_GA_Atlanta-Hartsfield.Jackson.Intl.AP.722190_TMY3.epw", epw);

    assertThat(receipt.rows()).isEqualTo(8760);
    assertThat(receipt.added()).isEqualTo(8760);
    assertThat(receipt.reasons()).anyMatch(reason -> reason.contains("typical year"));
    var station = stations.find("OPN-ATL").orElseThrow();
    assertThat(station.typicalYear()).isTrue();
    assertThat(station.elevationM()).hasValue(308.0);
    assertThat(long_.added()).isEqualTo(8760);
    assertThat(stations.find("722190")).isPresent();
  }

  @Test
  void feedOfOneMeterBecomesIntervalsAndLongOnesAreTaken() throws IOException {
    takeBook("OPG");

    FileReceipt receipt = take("OPG-MU.xml", FEED.getBytes(StandardCharsets.UTF_8));

    assertThat(receipt.added()).isEqualTo(2);
    assertThat(receipt.quarantined()).isEqualTo(1);
    assertThat(receipt.reasons().get(0)).contains("negative");
    var intervals =
        jdbc.sql(
                """
                SELECT v.minutes, v.volume_l FROM meter_interval_volume v
                JOIN site_meter m ON m.id = v.meter_id WHERE m.code = 'OPG-MU' ORDER BY v.start_at""")
            .query()
            .listOfRows();
    assertThat(intervals.get(0).get("minutes")).isEqualTo(43_200);
    assertThat((double) intervals.get(0).get("volume_l"))
        .isCloseTo(27291 * 3.785411784, org.assertj.core.api.Assertions.within(1e-6));
    assertThat(take("OPG-MU.xml", FEED.getBytes(StandardCharsets.UTF_8)).unchanged()).isEqualTo(2);
  }

  @Test
  void feedInAnotherNamespaceIsNotSilentlyEmpty() throws IOException {
    takeBook("OPN");

    FileReceipt receipt =
        take(
            "OPN-MU.xml",
            FEED.replace("http://naesb.org/espi", "http://naesb.org/other")
                .getBytes(StandardCharsets.UTF_8));

    assertThat(receipt.rows()).isZero();
    assertThat(receipt.reasons()).anyMatch(reason -> reason.contains("no IntervalReading"));
  }

  @Test
  void sampleOfTheStandardIsTakenWithItsOddities() throws IOException {
    takeBook("OPS");
    byte[] sample = Files.readAllBytes(SharedReference.fileOrSkip("espi_water_sample.xml"));

    FileReceipt receipt = take("OPS-MU.xml", sample);

    assertThat(receipt.rows()).isPositive();
    assertThat(receipt.added() + receipt.quarantined()).isEqualTo(receipt.rows());
    assertThat(receipt.added()).isPositive();
  }

  @Test
  void brokenOrDangerousFilesRefuseTheUpload() {
    assertRefused("OPB.epw", "no weather at all", "is this an EPW file?");
    assertRefused(
        "OPB.xml", "<feed xmlns=\"http://www.w3.org/2005/Atom\"><entry>", "not well-formed");
    assertRefused(
        "OPB.xml",
        "<!DOCTYPE x [<!ENTITY a \"aaaa\"><!ENTITY b \"&a;&a;&a;\">]><feed>&b;</feed>",
        "document type");
    assertRefused(
        "OPB.xml",
        "<!DOCTYPE x [<!ENTITY a SYSTEM \"file:///etc/hostname\">]><feed>&a;</feed>",
        "document type");
  }

  private void assertRefused(String name, String text, String words) {
    assertThatThrownBy(() -> take(name, text.getBytes(StandardCharsets.UTF_8)))
        .isInstanceOf(UploadRefused.class)
        .hasMessageContaining(words);
  }

  private void takeBook(String prefix) throws IOException {
    take("book.zip", Uploads.book(prefix));
  }

  private FileReceipt take(String name, byte[] content) throws IOException {
    Path file = folder.resolve("upload-" + Instant.now().toEpochMilli());
    Files.write(file, content);
    try (var upload = Upload.empty()) {
      upload.add(name, file);
      return importer.take(upload, ImportRequest.startUp("open")).files().get(0);
    }
  }

  private static byte[] gzip(String text) throws IOException {
    var bytes = new ByteArrayOutputStream();
    try (var out = new GZIPOutputStream(bytes)) {
      out.write(text.getBytes(StandardCharsets.UTF_8));
    }
    return bytes.toByteArray();
  }
}
