package towerledger.wording;

import java.util.Map;

/** What meter feeds and weather files are refused for. */
final class FeedSentences {

  private FeedSentences() {}

  static void add(Map<String, String> s) {
    part1(s);
    part2(s);
  }

  private static void part1(Map<String, String> s) {
    s.put("refused.feed-entries", "the feed has more than {n} entries; split it");
    s.put(
        "refused.feed-doctype",
        "line {n} declares a document type or uses an entity; a Green Button feed has "
            + "neither, so the file is refused. Remove the DOCTYPE");
    s.put(
        "refused.feed-deep", "line {n} nests deeper than {n} elements; no Green Button feed does");
    s.put("refused.feed-xml", "the feed is not well-formed XML at line {n}: {t}");
    s.put(
        "refused.feed-root",
        "the file begins with <{t}>, not with an Atom <feed>; is this a Green Button " + "file?");
    s.put(
        "refused.feed-numbers",
        "start and duration in seconds, the value and its quality must be whole numbers: {t}");
    s.put("refused.feed-begins", "the interval begins {t}, outside {t} to {t}; check the seconds");
    s.put("refused.feed-lasts", "the interval lasts {n} s; whole minutes from 1 to {n} are taken");
    s.put("refused.feed-nowhere", "the reading stands in no entry of interval blocks");
    s.put(
        "refused.feed-negative",
        "the value {n} is negative; water does not flow back through an interval meter");
    s.put("refused.feed-power-size", "a power of ten of {n} is beyond any water meter");
    s.put("refused.feed-not-water", "neither service kind nor commodity says that this is water");
    s.put(
        "refused.feed-commodity",
        "the commodity is {n}; only 9 (potable) and 14 (reclaimed water) are taken");
    s.put(
        "refused.feed-extremes",
        "the values are the greatest or least of their interval (data qualifier {n}), which tells"
            + " no volume");
    s.put(
        "refused.feed-not-measured",
        "the value is projected or normalised for weather (quality {n}), not what passed the"
            + " meter");
    s.put(
        "refused.feed-empty",
        "the feed holds no IntervalReading in the namespace http://naesb.org/espi, so nothing was"
            + " taken");
    s.put("refused.feed-direction", "the flow direction is {n}, not 1 (forward)");
    s.put("refused.feed-power", "the power of ten '{t}' is not a whole number");
    s.put("refused.feed-service", "the service is of kind {n}, not 2 (water); only water is taken");
  }

  private static void part2(Map<String, String> s) {
    s.put(
        "refused.feed-unit",
        "the unit of measure is '{t}'; known are 42, 119, 128, 130, 134 (volumes) and "
            + "45, 82, 122, 125, 129, 131, 137 (flows)");
    s.put(
        "refused.feed-way",
        "the values accumulate in way {n}; only 4 (volume of the interval) is taken. "
            + "Give register values as register_readings.csv");
    s.put(
        "refused.feed-several",
        "the feed holds more than one meter reading, {t} and {t}; send each in a file "
            + "of its own, named after its meter");
    s.put(
        "refused.epw-location",
        "LOCATION gives latitude '{t}', longitude '{t}', time zone '{t}', elevation "
            + "'{t}'; all four must be numbers in range");
    s.put(
        "refused.epw-numbers",
        "date, temperature, humidity and pressure (columns 1 to 10) must be numbers: " + "{t}");
    s.put(
        "refused.epw-zone",
        "LOCATION gives time zone {n}, outside -12 to 14 hours; local standard time is so many hours"
            + " before or behind UTC");
    s.put(
        "refused.epw-periods",
        "the eighth line is not 'DATA PERIODS,...', so the hours may begin elsewhere; an EPW file has"
            + " eight lines before them");
    s.put(
        "refused.epw-steps",
        "DATA PERIODS tells {t} records an hour; give a file with one record an hour");
    s.put("refused.epw-hour", "hour {n} is outside 1 to 24; EPW names an hour by its end");
    s.put(
        "refused.epw-first",
        "the first line is not 'LOCATION,city,...' with latitude, longitude, time zone "
            + "and elevation; is this an EPW file?");
    s.put(
        "refused.epw-columns",
        "the line has {n} columns; pressure is the tenth, so at least 10 are needed");
    s.put("refused.epw-long", "the line is longer than an hour of EPW can be");
    s.put(
        "refused.epw-name",
        "the file's name is no code for its station and its first line gives no WMO "
            + "number; name the file after the station, such as ATL.epw");
    s.put(
        "refused.isd-name",
        "the file's name is no code for its station; name it after the station, such "
            + "as ORD.isd");
    s.put(
        "refused.isd-length",
        "the line has {n} characters; an hour of ISD-Lite has 61, the first {n} of "
            + "which are needed");
    s.put(
        "refused.isd-columns",
        "year, month, day, hour, temperatures and pressure must stand in columns 1 to "
            + "31: {t}");
  }
}
