package towerledger.wording;

import java.util.Map;

/** Why something that a person typed or handed in is not taken, and how far work has come. */
final class RefusalSentences {

  private RefusalSentences() {}

  static void add(Map<String, String> s) {
    people(s);
    findings(s);
    reports(s);
    uploads(s);
    cells(s);
    work(s);
  }

  private static void people(Map<String, String> s) {
    s.put(
        "refused.email",
        "'{t}' is no e-mail address this ledger takes: letters a-z, digits and . _ - + "
            + "before one @, a host name after it, at most {n} characters");
    s.put("refused.login-customer", "a customer's login needs the customer it belongs to");
    s.put("refused.login-other", "only a customer's login belongs to a customer");
    s.put("refused.name", "the name has {n} characters; 1 to 200 are allowed");
    s.put("refused.has-password", "{t} has a password already and can ask for a new one");
    s.put(
        "refused.last-office",
        "{t} is the last office person who can sign in; invite another first");
    s.put(
        "refused.stays-customer",
        "a customer's login stays one; remove it and invite the person anew");
    s.put("refused.login-there", "there is a login for {t} already");
    s.put("refused.no-customer", "there is no customer '{t}'");
    s.put("refused.no-role", "there is no role '{t}'");
    s.put("refused.link", "this link is used or over");
    s.put("refused.token-days", "a token may live from 1 to {n} days, not {n}");
    s.put("refused.token-name", "the name of a token has {n} characters; 1 to 100 are allowed");
    s.put("refused.token-scope", "a token of scope {t} cannot make one of scope {t}");
    s.put("refused.token-office", "only the office can bind a token to a customer");
    s.put(
        "refused.customer-code",
        "customer code '{t}' is not allowed; use 1 to 40 letters, digits, '-', '_' or '.'");
    s.put("refused.customer-name", "name of customer {t} has {n} characters; 1 to 200 are allowed");
    s.put(
        "refused.contact-name",
        "contact name of customer {t} has {n} characters; at most 200 are allowed");
  }

  private static void findings(Map<String, String> s) {
    s.put("refused.finding-day", "{t} lies outside {t} (when it began) to {t} (today)");
    s.put("refused.finding-no-day", "'{t}' is no day; write it as 2026-10-31");
    s.put(
        "refused.finding-site",
        "person {n} may not be sent to site {n}; assign the site to them first");
    s.put("refused.finding-done", "say in a few words what was done");
    s.put("refused.finding-note", "the note is empty; write what was seen or agreed");
    s.put("refused.finding-long", "the text has {n} characters; at most {n} are kept");
  }

  private static void reports(Map<String, String> s) {
    s.put("refused.report-decided", "the report was decided on since you saw it");
    s.put("refused.report-day-typed", "day '{t}' of the month; choose 1 to 28");
    s.put("refused.report-day", "day {n} of the month; choose 1 to 28, which every month has");
    s.put("refused.report-zone", "there is no time zone '{t}'; write one as America/Chicago");
    s.put(
        "refused.report-nobody",
        "no address is on the list of this customer's report; add one to the plan");
    s.put(
        "refused.report-changed",
        "the draft was changed or decided on since you saw it; look at it again");
    s.put("refused.draft-decided", "the draft was decided on since you saw it");
    s.put("refused.report-twice", "the report was decided on already: {n}");
  }

  private static void uploads(Map<String, String> s) {
    s.put("refused.file", "file '{t}' cannot be read: {s}");
    s.put("refused.file-take", "file '{t}' cannot be taken: {s}");
    s.put("refused.file-empty", "file '{t}' is empty; nothing was taken");
    s.put("refused.file-header", "file '{t}' is empty; its first row must name the columns");
    s.put(
        "refused.file-damaged",
        "file '{t}' in the ZIP is damaged (its checksum is wrong); pack it again");
    s.put("refused.file-office", "{t}.csv is taken from the office only; nothing was taken");
    s.put("refused.file-unknown", "files named '{t}' are not known; use one of {t}");
    s.put(
        "refused.no-file", "the upload holds no file of the interchange format; nothing was taken");
    s.put(
        "refused.zip",
        "'{t}' is no whole ZIP file ({t}); it may have been cut short on its way, so send it "
            + "again");
    s.put("refused.zip-empty", "the ZIP '{t}' holds no file; nothing was taken");
    s.put("refused.table-empty", "the table is empty; save the sheet as CSV and choose that file");
    s.put("refused.table", "the table cannot be read: {s}");
    s.put(
        "refused.pattern",
        "date pattern '{t}' is not understood; write for instance M/d/uuuu h:mm a or "
            + "d.M.uuuu H:mm");
    s.put("refused.one-row", "give exactly one row; put quotes around text that holds line ends");
    s.put("refused.line", "line {n}: {s}");
    s.put(
        "refused.more-rows",
        "and {n} more rows; all of them stand in quarantine with their reasons");
  }

  private static void cells(Map<String, String> s) {
    s.put("refused.cell-large", "{n} of {t} is too large");
    s.put("refused.cell-digits", "{n} of {t} has more digits than a meter or a bill; check it");
    s.put(
        "refused.cell-comma",
        "{n} '{t}' holds a comma; write the number with a point and without thousands "
            + "separators");
    s.put(
        "refused.cell-number",
        "{n} '{t}' is not a number; write digits with a point, or leave it empty if not known");
    s.put(
        "refused.cell-count",
        "the row has {n} cells, the header has {n}; look for a missing or spare comma, or "
            + "put quotes around text that holds one");
    s.put("refused.cell-empty", "{n} is empty; each row must give it");
    s.put(
        "refused.cell-code",
        "{n} '{t}' is no code; use at most 40 of letters, digits, '-', '_' and '.'");
    s.put("refused.cell-long", "{n} is {n} characters long; at most {n} are kept, so shorten it");
    s.put("refused.cell-word", "{n} '{t}' is not known; use one of {t}");
    s.put("refused.cell-true", "{n} '{t}' is neither true nor false");
    s.put("refused.cell-understood", "{n} '{t}' is not understood; write it {s}");
    s.put(
        "refused.cell-range-unit",
        "{n} of {t} is outside what is possible ({n} to {n} in {n}); check the number and "
            + "its unit");
    s.put(
        "refused.cell-range",
        "{n} of {t} is outside what is possible ({n} to {n}); check the number and its unit");
    s.put("refused.cell-whole", "{n} of {t} is not a whole number");
    s.put("refused.cell-clock", "{n} '{t}' is no time of day; write it as 07:30");
    s.put(
        "refused.cell-no-time", "{n} '{t}' has no time of day; write it as 2025-07-01T14:00-05:00");
    s.put(
        "refused.cell-moment",
        "{n} '{t}' is no moment; write it as 2025-07-01T14:30-05:00, as 2025-07-01T14:30 in "
            + "the site's time, or as 2025-07-01");
    s.put("refused.cell-day", "{n} '{t}' is no day of the calendar; write it as 2025-07-01");
    s.put("refused.cell-year", "{n} '{t}' is outside {n} to {n}; check the year");
    s.put("refused.known", "{w} '{t}' is not known; add it first or correct the code");
    s.put(
        "refused.schedule",
        "schedule '{t}' is not known; import it in rate_schedules or correct the code");
    s.put("refused.pressure", "the row tells neither supply nor valve inlet pressure; fill one");
    s.put("refused.sample", "the sample tells no figure; fill at least one");
    s.put(
        "refused.heat",
        "heat from temperatures needs hot_water, cold_water and water_flow; fill all three");
    s.put(
        "refused.season",
        "a season needs both first_month and last_month; fill both, or neither for all year");
    s.put(
        "refused.overlap",
        "{t} bill of site {t} from {d} to {d} overlaps the one from {d} to {d}; correct the "
            + "dates");
    s.put(
        "refused.below-zero",
        "register of {n} read at {t} is below 0; registers count upwards from 0");
  }

  private static void work(Map<String, String> s) {
    s.put("work.nothing", "the import changed nothing");
    s.put("work.sites", "{n} sites reckoned");
    s.put("work.done", "{n} sites reckoned, {n} months written");
    s.put("work.book", "The invented book is being read");
    s.put("work.rows", "{n} rows are taken; the months are being reckoned");
    s.put("work.reckoning", "The months are being reckoned: {s}");
    s.put("work.waiting", "waiting for a turn");
    s.put(
        "work.failed",
        "an unexpected error stopped the work; the log has the details under job {n}");
  }
}
