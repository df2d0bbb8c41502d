package towerledger.wording;

import java.util.Map;

/** What files, tables and rows handed in are refused for. */
final class IntakeSentences {

  private IntakeSentences() {}

  static void add(Map<String, String> s) {
    part1(s);
    part2(s);
    part3(s);
    part4(s);
    part5(s);
  }

  private static void part1(Map<String, String> s) {
    s.put("refused.line-of", "{t}, header row: {s}");
    s.put(
        "refused.file-grows",
        "file '{t}' unpacks to more than {n} times its size in the ZIP or more than "
            + "{n} GB; nothing was taken. Send it as CSV");
    s.put("refused.file-no-kind", "files named '{t}' are not known");
    s.put(
        "refused.no-mapping",
        "no mapping is given, and none is remembered for this sender and these columns "
            + "({t}); look at the preview first");
    s.put(
        "refused.no-target",
        "say which file the table is to become, for instance register_readings");
    s.put("refused.import-stopped", "stopped while waiting for another import to end");
    s.put(
        "refused.not-a-bundle",
        "{s}; nothing was taken. A bundle holds {t}, weather (.epw, ISD-Lite) and "
            + "Green Button (.xml). Send a table with columns of its own alone, by the page "
            + "/intake/foreign or POST /api/v1/foreign-tables");
    s.put("refused.file-not-known", "file '{t}' is not known");
    s.put("refused.file-twice", "file '{t}' is there twice");
    s.put(
        "refused.file-broke-off",
        "file '{t}' broke off while it was read: {s}; send it again, what was taken of "
            + "it stays");
    s.put("refused.file-nothing", "the file is empty");
    s.put(
        "refused.table-large",
        "the table has {n} MB, this page takes up to {n} MB; send it to "
            + "/api/v1/foreign-tables, or cut it in parts");
    s.put("refused.sender-name", "the sender's name has {n} characters, more than {n}; shorten it");
    s.put("refused.unpacks", "it unpacks to more than {n} MB");
    s.put("refused.folder", "folder {t} cannot be read: {s}");
    s.put("refused.no-folder", "there is no folder or file {t} to import");
  }

  private static void part2(Map<String, String> s) {
    s.put(
        "refused.zip-outside",
        "the ZIP names a file outside itself ({t}); nothing was taken. Pack the files "
            + "plainly");
    s.put("refused.zip-many", "the upload holds more than {n} files; a bundle has at most 17");
    s.put(
        "refused.utf16-mark",
        "the text carries the mark of UTF-16 but is not; save it as UTF-8 and send it " + "again");
    s.put(
        "refused.utf16",
        "the text looks like UTF-16 without a byte order mark; save it as UTF-8 and "
            + "send it again");
    s.put("refused.no-column-of", "{n}.csv has no column '{t}'; it has {t}");
    s.put("refused.no-unit", "column '{t}' takes no unit; choose its US or SI name instead");
    s.put("refused.no-column", "the table has no column '{t}'; it has {t}");
    s.put(
        "refused.column-source",
        "column '{t}' needs either 'from' (a column of the table) or 'constant' (one "
            + "text for all rows)");
    s.put("refused.decimal", "decimal '{t}' is not known; use . or ,");
    s.put("refused.delimiter", "delimiter '{t}' is not known; use a comma, semicolon, tab or bar");
    s.put(
        "refused.header-row",
        "header_row {n} is outside 1 to {n}; give the row that names the columns");
    s.put("refused.row-no-columns", "row {n} names no columns; say which row does (header_row)");
    s.put("refused.header-name", "column {n} has no name");
    s.put("refused.header-twice", "column '{t}' stands there twice");
    s.put("refused.header-missing", "column '{t}' is missing");
    s.put("refused.not-read", "not read: it is no file of the interchange format");
  }

  private static void part3(Map<String, String> s) {
    s.put(
        "refused.corrected-since",
        "{n} rows repeat values that were corrected since; the corrections stand, and "
            + "the rows count as unchanged");
    s.put(
        "refused.mended-before",
        "{n} rows were mended or dropped in quarantine when they came before; they "
            + "count as unchanged");
    s.put("refused.settled", "the row was settled before; nothing was done");
    s.put("refused.unforeseen", "a row could not be taken for an unforeseen reason");
    s.put("refused.no-reason", "no reason given");
    s.put(
        "refused.same-moment",
        "somebody changed the same thing at the same moment; try the row again");
    s.put("refused.database", "the database refuses the row: {t}");
    s.put(
        "refused.row-other",
        "the row could not be taken ({t}); check its cells against the description of "
            + "the file");
    s.put("refused.row-empty", "the row is empty");
    s.put("refused.header-unknown", "column {t} is not known");
    s.put("refused.header-once", "give '{t}' or '{t}' once, not both or twice");
    s.put("refused.header-of", "{n}.csv: {s}; its columns are: {t}");
    s.put(
        "refused.clock-back",
        "{n} '{t}' came twice in {t}, as the clock was put back; add the offset: {t} " + "or {t}");
    s.put("refused.ahead", "{n} {n} lies more than a year ahead; correct the date");
    s.put(
        "refused.clock-forward",
        "{n} '{t}' does not exist in {t}: the clock was put forward past it; write the "
            + "true time, with its offset");
    s.put(
        "refused.no-offset",
        "{n} '{t}' has no offset and its place has no single time zone; add the "
            + "offset, such as -05:00 or Z");
    s.put("refused.control", "{n} holds a control character (code {n}) at place {n}; remove it");
  }

  private static void part4(Map<String, String> s) {
    s.put(
        "refused.cell-decimals",
        "{n} of {n} has more than {n} decimals; round it where it was made");
    s.put("refused.currency", "currency '{t}' is not known; use an ISO 4217 code such as USD");
    s.put("refused.heat-beside", "{n} needs {t} beside it; fill it");
    s.put(
        "refused.heat-end",
        "end {t} is not after start {t}; the end is the first instant or day not " + "included");
    s.put(
        "refused.heat-several",
        "the row fills {n} kinds of evidence; fill one: heat_rejected, or "
            + "chilled_water_ton_hours, or chiller_kwh with kw_per_ton, or running_hours "
            + "with average_load_percent, or hot_water, cold_water and water_flow");
    s.put(
        "refused.heat-long",
        "the span from {t} to {t} is longer than a year; give it month by month or " + "finer");
    s.put(
        "refused.heat-exchanged",
        "hot water of {C} is below the cold water of {C}; check whether the two were exchanged");
    s.put("refused.minutes-whole", "minutes of {n} is not a whole number");
    s.put("refused.digest", "digest '{t}' is not 64 hexadecimal digits; export the ledger again");
    s.put("refused.working-whole", "working is not whole ({t}); export the ledger again");
    s.put(
        "refused.own-parent", "meter '{t}' names itself as parent_meter; name the meter before it");
    s.put("refused.setting-word", "setting '{t}' is not known; use one of {t}");
    s.put(
        "refused.time-zone",
        "time_zone '{t}' is not in the IANA list; use a name such as America/Chicago " + "or UTC");
    s.put(
        "refused.tower-shared",
        "{n} is filled, but the tower belongs to system '{t}'; give it in systems.csv "
            + "or settings.csv and leave it empty here");
    s.put("refused.above-dry-bulb", "{q} of {C} is above the dry bulb of {C}; check the two");
  }

  private static void part5(Map<String, String> s) {
    s.put(
        "refused.hour-humidities",
        "the hour fills {n} of wet_bulb, dew_point and relative_humidity_percent; fill " + "one");
    s.put(
        "refused.below-dry-air",
        "wet bulb of {C} is below what even dry air has at a dry bulb of {C}; check "
            + "the two and their units");
    s.put(
        "refused.foreign-several",
        "dates such as '{t}' in '{t}' can be read as any of {t}; choose one as its " + "pattern");
    s.put(
        "refused.foreign-none",
        "dates such as '{t}' in '{t}' follow no pattern known here; give one, such as "
            + "M/d/uuuu H:mm");
    s.put(
        "refused.foreign-missing",
        "no column of the table was recognised as '{t}', which every row needs; map "
            + "one or give a constant");
    s.put(
        "refused.typical-year",
        "station {t} ({t}) is a typical year: its hours are laid over every real "
            + "month, and figures built on them say so");
    s.put(
        "refused.no-elevation",
        "the elevation of station {t} is not known, so its sea-level pressures were "
            + "left out; give it in weather_stations.csv, or elevation_ft of a site that "
            + "names the station, and hand the file in again");
    s.put("refused.form-months", "as first and last month such as 12-2, or one month");
    s.put("refused.form-days", "as Mon-Fri, Mon-Sun or Sat;Sun");
  }
}
