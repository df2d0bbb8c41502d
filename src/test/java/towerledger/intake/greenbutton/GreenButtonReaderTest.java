package towerledger.intake.greenbutton;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import towerledger.SharedReference;

/**
 * Green Button feeds of water. Codes: NAESB ESPI schema, as listed in the open data kit of the
 * format; its sample of water is read where it is at hand (Apache-2.0, not shipped).
 */
class GreenButtonReaderTest {

  private static final class Collected implements GreenButtonSink {
    final List<GreenButtonInterval> intervals = new ArrayList<>();
    final List<String> reasons = new ArrayList<>();

    @Override
    public void interval(long line, GreenButtonInterval interval) {
      intervals.add(interval);
    }

    @Override
    public void refused(long line, String raw, String reason) {
      reasons.add(reason);
    }
  }

  private static Collected read(String feed) throws IOException {
    var collected = new Collected();
    GreenButtonReader.read(
        () -> new ByteArrayInputStream(feed.getBytes(StandardCharsets.UTF_8)), collected);
    return collected;
  }

  private static String feed(String type, String readings) {
    return """
        <a:feed xmlns:a="http://www.w3.org/2005/Atom" xmlns:e="http://naesb.org/espi">
          <a:entry>
            <a:content><e:IntervalBlock>
              <e:interval><e:duration>3600</e:duration><e:start>1780300800</e:start></e:interval>
              %s
            </e:IntervalBlock></a:content>
            <a:link rel="self" href="UsagePoint/1/MeterReading/1/IntervalBlock/1"/>
            <a:link rel="up" href="UsagePoint/1/MeterReading/1/IntervalBlock"/>
          </a:entry>
          <a:entry>
            <a:link rel="self" href="UsagePoint/1"/>
            <a:link rel="related" href="UsagePoint/1/MeterReading"/>
            <a:content><e:UsagePoint><e:ServiceCategory><e:kind>2</e:kind></e:ServiceCategory></e:UsagePoint></a:content>
          </a:entry>
          <a:entry>
            <a:link rel="self" href="UsagePoint/1/MeterReading/1"/>
            <a:link rel="up" href="UsagePoint/1/MeterReading"/>
            <a:link rel="related" href="UsagePoint/1/MeterReading/1/IntervalBlock"/>
            <a:link rel="related" href="ReadingType/1"/>
            <a:content><e:MeterReading/></a:content>
          </a:entry>
          <a:entry>
            <a:link rel="self" href="ReadingType/1"/>
            <a:content><e:ReadingType>%s</e:ReadingType></a:content>
          </a:entry>
        </a:feed>"""
        .formatted(readings, type);
  }

  private static String reading(long start, long duration, String value) {
    return "<e:IntervalReading><e:timePeriod><e:duration>%d</e:duration><e:start>%d</e:start></e:timePeriod><e:value>%s</e:value></e:IntervalReading>"
        .formatted(duration, start, value);
  }

  private static String type(String commodity, String accumulation, String uom, String power) {
    return "<e:accumulationBehaviour>%s</e:accumulationBehaviour><e:commodity>%s</e:commodity><e:flowDirection>1</e:flowDirection><e:powerOfTenMultiplier>%s</e:powerOfTenMultiplier><e:uom>%s</e:uom>"
        .formatted(accumulation, commodity, power, uom);
  }

  @Test
  void readsTheSampleOfTheDataKitWithItsOddities() throws IOException {
    Path sample = SharedReference.fileOrSkip("espi_water_sample.xml");
    var collected = new Collected();

    GreenButtonReader.read(() -> Files.newInputStream(sample), collected);

    // 27,291 and 2,575 thousand US gallons over 30 and 4 days: the title says kWh, one address
    // ends in a back-tick, kind says energy; the unit of measure is what counts.
    assertThat(collected.reasons).isEmpty();
    assertThat(collected.intervals).hasSize(2);
    GreenButtonInterval april = collected.intervals.get(0);
    assertThat(april.start()).isEqualTo(Instant.parse("2012-04-01T04:00:00Z"));
    assertThat(april.minutes()).isEqualTo(30 * 1440);
    assertThat(april.litres()).isCloseTo(27_291_000 * 3.785411784, within(1.0));
    assertThat(april.usagePoint()).isEqualTo("RetailCustomer/9b6c7063/UsagePoint/01");
    assertThat(collected.intervals.get(1).minutes()).isEqualTo(4 * 1440);
    assertThat(collected.intervals.get(1).litres()).isCloseTo(2_575_000 * 3.785411784, within(1.0));
  }

  @ParameterizedTest
  @CsvSource({
    // uom, power of ten, value, litres in a quarter of an hour (factors of NIST SP 811)
    "119, 0, 10, 283.16846592",
    "119, 2, 1, 2831.6846592", // hundred cubic feet
    "42, 0, 2, 2000",
    "42, -3, 250, 250",
    "128, 0, 100, 378.5411784",
    "128, 3, 1, 3785.411784", // thousand gallons
    "130, 0, 10, 45.4609",
    "134, 0, 77, 77",
    "129, 0, 40, 37.85411784", // gallons per hour
    "125, 0, 1, 250",
    "137, 0, 100, 25",
    "82, 0, 1, 900",
    "45, -3, 2, 1800",
    "122, 0, 4, 28.316846592", // cubic feet per hour
    "131, 0, 40, 45.4609" // imperial gallons per hour
  })
  void convertsEveryUnit(String uom, String power, String value, double litres) throws IOException {
    var collected = read(feed(type("9", "4", uom, power), reading(1_780_300_800L, 900, value)));

    assertThat(collected.reasons).isEmpty();
    assertThat(collected.intervals.get(0).litres()).isCloseTo(litres, within(litres * 1e-9));
    assertThat(collected.intervals.get(0).minutes()).isEqualTo(15);
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '|',
      value = {
        "11|4|128|the commodity is 11",
        "1|4|128|the commodity is 1",
        "9|3|128|accumulate in way 3",
        "9|1|128|accumulate in way 1",
        "9|4|72|unit of measure is '72'"
      })
  void refusesInWordsWhatIsNoWaterVolume(
      String commodity, String accumulation, String uom, String reason) throws IOException {
    var collected =
        read(feed(type(commodity, accumulation, uom, "0"), reading(1_780_300_800L, 900, "5")));

    assertThat(collected.intervals).isEmpty();
    assertThat(collected.reasons).hasSize(1);
    assertThat(collected.reasons.get(0)).contains(reason);
  }

  /** CommodityKind 0 is 'not applicable': then the kind of service says that it is water. */
  @Test
  void takesWaterWhoseCommodityIsNotSaid() throws IOException {
    String unsaid = feed(type("0", "4", "128", "0"), reading(1_780_300_800L, 900, "5"));

    assertThat(read(unsaid).intervals).hasSize(1);
    assertThat(read(unsaid.replace("<e:kind>2</e:kind>", "")).reasons.get(0))
        .contains("neither service kind nor commodity");
  }

  /** ReadingType: intervalLength and defaultQuality hold where a reading gives none of its own. */
  @Test
  void takesLengthAndQualityFromTheReadingTypeWhereAReadingGivesNone() throws IOException {
    String own =
        type("9", "4", "128", "0")
            + "<e:intervalLength>3600</e:intervalLength><e:defaultQuality>8</e:defaultQuality>";
    var collected =
        read(
            feed(
                own,
                reading(1_780_300_800L, 900, "5")
                    + reading(1_780_301_700L, 900, "6")
                        .replace("<e:duration>900</e:duration>", "")));

    assertThat(collected.reasons).isEmpty();
    assertThat(collected.intervals.get(0).minutes()).isEqualTo(15);
    assertThat(collected.intervals.get(1).minutes()).isEqualTo(60);
    assertThat(collected.intervals.get(1).quality()).hasValue(8);
  }

  private static String ofQuality(String quality, String reading) {
    return reading.replace(
        "<e:timePeriod>",
        "<e:ReadingQuality><e:quality>%s</e:quality></e:ReadingQuality><e:timePeriod>"
            .formatted(quality));
  }

  /** QualityOfReading 12 is a forecast, 15 a value moved to another weather: neither passed. */
  @ParameterizedTest
  @CsvSource({"12", "15"})
  void refusesWhatNobodyMeasured(String quality) throws IOException {
    var collected =
        read(
            feed(
                type("9", "4", "128", "0"), ofQuality(quality, reading(1_780_300_800L, 900, "5"))));

    assertThat(collected.intervals).isEmpty();
    assertThat(collected.reasons.get(0)).contains("quality " + quality);
  }

  /** DataQualifierKind 8 is a maximum, 9 a minimum, 2 a mean. */
  @ParameterizedTest
  @CsvSource({"8, 0", "9, 0", "2, 1", "0, 1", "12, 1"})
  void refusesTheGreatestOrLeastOfAnInterval(String qualifier, int taken) throws IOException {
    var collected =
        read(
            feed(
                type("9", "12", "129", "0")
                    + "<e:dataQualifier>%s</e:dataQualifier>".formatted(qualifier),
                reading(1_780_300_800L, 900, "5")));

    assertThat(collected.intervals).hasSize(taken);
    assertThat(collected.reasons).hasSize(1 - taken);
  }

  @Test
  void refusesSingleReadingsAndKeepsTheirNeighbours() throws IOException {
    var collected =
        read(
            feed(
                type("9", "4", "128", "0"),
                reading(1_780_300_800L, 900, "5")
                    + reading(1_780_301_700L, 900, "-5")
                    + reading(1_780_302_600L, 901, "5")
                    + reading(-7_000_000_000L, 900, "5")
                    + reading(1_780_303_500L, 900, "many")
                    + "<e:IntervalReading><e:value>3</e:value></e:IntervalReading>"
                    + reading(1_780_304_400L, 900, "6")));

    assertThat(collected.intervals).hasSize(2);
    assertThat(collected.reasons).hasSize(5);
    assertThat(collected.reasons.get(0)).contains("negative");
    assertThat(collected.reasons.get(1)).contains("901 s");
  }

  @Test
  void refusesOtherServices() throws IOException {
    var collected =
        read(
            feed(type("9", "4", "128", "0"), reading(1_780_300_800L, 900, "5"))
                .replace("<e:kind>2<", "<e:kind>0<"));

    assertThat(collected.intervals).isEmpty();
    assertThat(collected.reasons.get(0)).contains("kind 0");
  }

  @Test
  void keepsTheQualityOfAReading() throws IOException {
    var collected =
        read(feed(type("9", "4", "128", "0"), ofQuality("8", reading(1_780_300_800L, 900, "5"))));

    assertThat(collected.intervals.get(0).quality()).hasValue(8);
  }

  @Test
  @Timeout(20)
  void refusesMultipliedEntities() {
    StringBuilder bomb = new StringBuilder("<!DOCTYPE feed [<!ENTITY a0 'ha'>");
    for (int i = 1; i < 40; i++) {
      bomb.append("<!ENTITY a%d '&a%d;&a%d;'>".formatted(i, i - 1, i - 1));
    }
    String feed =
        bomb + "]><feed xmlns=\"http://www.w3.org/2005/Atom\"><title>&a39;</title></feed>";

    assertThatThrownBy(() -> read(feed)).isInstanceOf(GreenButtonFormatException.class);
  }

  @Test
  void neverLooksUpOutsideEntities() throws IOException {
    Path secret = Files.createTempFile("secret", ".txt");
    Files.writeString(secret, "42");
    String feed =
        "<!DOCTYPE feed [<!ENTITY x SYSTEM '%s'>]>".formatted(secret.toUri())
            + feed(type("9", "4", "128", "0"), reading(1_780_300_800L, 900, "&x;"));

    assertThatThrownBy(() -> read(feed))
        .isInstanceOf(GreenButtonFormatException.class)
        .hasMessageNotContaining("42");
    Files.delete(secret);
  }

  @Test
  void refusesWhatIsNoFeed() {
    assertThatThrownBy(() -> read("<html/>")).hasMessageContaining("<html>");
    assertThatThrownBy(() -> read("meter,start\nM1,2026")).hasMessageContaining("well-formed");
    assertThatThrownBy(() -> read("<feed xmlns=\"http://www.w3.org/2005/Atom\"><entry>"))
        .hasMessageContaining("well-formed");
    assertThatThrownBy(
            () ->
                read(
                    "<feed xmlns=\"http://www.w3.org/2005/Atom\">"
                        + "<a>".repeat(100)
                        + "</a>".repeat(100)
                        + "</feed>"))
        .hasMessageContaining("nests deeper");
  }

  @Test
  void readsAYearOfQuarterHoursWithoutHoldingThem() throws IOException {
    // The feed is generated while it is read; only counts are kept.
    int days = 365;
    long[] seen = new long[1];
    double[] litres = new double[1];
    GreenButtonReader.read(
        () -> generated(days),
        new GreenButtonSink() {
          @Override
          public void interval(long line, GreenButtonInterval interval) {
            seen[0]++;
            litres[0] += interval.litres();
          }

          @Override
          public void refused(long line, String raw, String reason) {
            throw new AssertionError(reason);
          }
        });

    assertThat(seen[0]).isEqualTo(days * 96L);
    assertThat(litres[0]).isCloseTo(days * 96 * 3.785411784, within(1e-3));
  }

  private static InputStream generated(int days) {
    String whole = feed(type("9", "4", "128", "0"), "@");
    String head = whole.substring(0, whole.indexOf('@'));
    String tail = whole.substring(whole.indexOf('@') + 1);
    return new java.io.SequenceInputStream(
        new java.util.Enumeration<>() {
          private int next = -1;

          @Override
          public boolean hasMoreElements() {
            return next <= days;
          }

          @Override
          public InputStream nextElement() {
            String part;
            if (next == -1) {
              part = head;
            } else if (next == days) {
              part = tail;
            } else {
              var day = new StringBuilder();
              for (int i = 0; i < 96; i++) {
                day.append(reading(1_780_300_800L + next * 86_400L + i * 900L, 900, "1"));
              }
              part = day.toString();
            }
            next++;
            return new ByteArrayInputStream(part.getBytes(StandardCharsets.UTF_8));
          }
        });
  }
}
