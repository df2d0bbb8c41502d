package towerledger.office.people;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.util.UriComponentsBuilder;
import tools.jackson.databind.json.JsonMapper;
import towerledger.account.HistoryFilter;
import towerledger.account.HistorySearch;
import towerledger.drawing.FigureText;
import towerledger.intake.DescribedRows;
import towerledger.intake.csv.Column;
import towerledger.office.SettingText;
import towerledger.page.AddressText;
import towerledger.site.SettingName;
import towerledger.wording.SpreadsheetGuard;
import towerledger.wording.Words;

/** Who did what to which thing, from where: searched, turned, taken along as CSV. */
@Controller
class HistoryController {

  private static final int ROWS = 25;
  private static final int LAST_PAGE = 100_000;
  private static final String DID = "history.did.";
  private static final String KIND = "history.kind.";
  private static final Pattern MOMENT =
      Pattern.compile("\\d{4}-\\d\\d-\\d\\dT\\d\\d:\\d\\d(:\\d\\d(\\.\\d+)?)?Z$");
  private static final String SIGNING = "signed-";

  /** A setting as history names it: its system, its name, and the day it holds from. */
  private static final Pattern SETTING = Pattern.compile("(.+) (\\w+) from (\\d{4}-\\d\\d-\\d\\d)");

  /** A bill as history names it: its site, its service, and its first day. */
  private static final Pattern BILL = Pattern.compile("(.+) (\\w+) (\\d{4}-\\d\\d-\\d\\d)");

  /** A report as history names it: its customer, its month and its edition. */
  private static final Pattern REPORT = Pattern.compile("(.+) (\\d{4}-\\d\\d) edition (\\d+)");

  private final HistorySearch history;
  private final MessageSource messages;
  private final JsonMapper json;
  private final Map<String, Column> columns;

  HistoryController(
      HistorySearch history, MessageSource messages, JsonMapper json, DescribedRows rows) {
    this.history = history;
    this.messages = messages;
    this.json = json;
    this.columns = rows.columnsBySiName();
  }

  /**
   * What is asked for, as it stands in the address; days in UTC, both included.
   *
   * @param who part of who did it
   * @param did what was done
   * @param kind sort of thing
   * @param code part of its code
   * @param from first day
   * @param to last day
   * @param page from 1 on
   */
  record Choice(
      @Nullable String who,
      @Nullable String did,
      @Nullable String kind,
      @Nullable String code,
      @Nullable String from,
      @Nullable String to,
      @Nullable Integer page) {

    int pageNumber() {
      return page == null ? 1 : Math.max(1, Math.min(page, LAST_PAGE));
    }

    HistoryFilter filter() {
      LocalDate last = day(to);
      LocalDate first = day(from);
      return new HistoryFilter(
          text(who),
          text(did),
          text(kind),
          text(code),
          first == null ? null : first.atStartOfDay(ZoneOffset.UTC).toInstant(),
          last == null ? null : last.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant());
    }

    private static String text(@Nullable String typed) {
      return typed == null ? "" : typed;
    }

    /** A day that is none bounds nothing; the page shows what was typed. */
    private static @Nullable LocalDate day(@Nullable String typed) {
      try {
        LocalDate day = typed == null || typed.isBlank() ? null : LocalDate.parse(typed.strip());
        // PostgreSQL counts no farther than some 290,000 years.
        return day == null || day.getYear() < 0 || day.getYear() > 9999 ? null : day;
      } catch (DateTimeException e) {
        return null;
      }
    }

    String path(String base, @Nullable Integer turnedTo) {
      var address = UriComponentsBuilder.fromPath(base);
      List<@Nullable String> values = java.util.Arrays.asList(who, did, kind, code, from, to);
      List<String> names = List.of("who", "did", "kind", "code", "from", "to");
      for (int i = 0; i < names.size(); i++) {
        String value = values.get(i);
        if (value != null && !value.isBlank()) {
          address.queryParam(names.get(i), "{" + names.get(i) + "}");
          address.uriVariables(Map.of(names.get(i), value));
        }
      }
      if (turnedTo != null) {
        address.queryParam("page", turnedTo);
      }
      return address.encode().build().toUriString();
    }
  }

  /**
   * What the page shows.
   *
   * @param lead in a sentence
   * @param choice what was asked for
   * @param actions every action to choose from
   * @param kinds every sort of thing to choose from
   * @param rows newest first
   * @param turning which rows these are
   * @param before address of newer rows; null for none
   * @param after address of older rows; null for none
   * @param csvPath address of all of them as CSV
   */
  record View(
      String lead,
      Choice choice,
      List<Named> actions,
      List<Named> kinds,
      List<Row> rows,
      String turning,
      @Nullable String before,
      @Nullable String after,
      String csvPath) {}

  /** A value to choose by its name. */
  record Named(String value, String name) {}

  /**
   * One change in words.
   *
   * @param kind sort of thing; empty where it is the login of who did it
   * @param code its code; empty likewise
   * @param told what is kept of it: of something new its fields, else those that changed
   */
  record Row(
      String at, String who, String from, String did, String kind, String code, String told) {}

  @GetMapping("/people/history")
  String show(
      @ModelAttribute Choice choice, @ModelAttribute("figureText") FigureText text, Model model) {
    Words words = new Words(messages, text.locale());
    KeptFields kept = new KeptFields(json, columns, words, text);
    HistoryFilter filter = choice.filter();
    long found = history.count(filter);
    int pages = (int) Math.min(LAST_PAGE, Math.max(1, (found + ROWS - 1) / ROWS));
    int page = Math.min(choice.pageNumber(), pages);
    int first = (page - 1) * ROWS;
    model.addAttribute(
        "view",
        new View(
            words.of("history.lead", found),
            choice,
            named(history.actions(), DID, words),
            named(history.kinds(), KIND, words),
            history.page(filter, first, ROWS).stream()
                .map(change -> row(change, kept, words, text))
                .toList(),
            words.of(
                "review.turning",
                found == 0 ? 0 : first + 1,
                Math.min(found, (long) first + ROWS),
                found),
            page > 1 ? choice.path("/people/history", page - 1) : null,
            page < pages ? choice.path("/people/history", page + 1) : null,
            choice.path("/people/history.csv", null)));
    return "office/history";
  }

  private static List<Named> named(List<String> values, String prefix, Words words) {
    return values.stream().map(value -> new Named(value, name(value, prefix, words))).toList();
  }

  /** A verb or kind in the reader's language; one that is not known is said as it was kept. */
  private static String name(String value, String prefix, Words words) {
    return words.or(prefix + value.replace(' ', '-'), value);
  }

  private Row row(HistorySearch.Change change, KeptFields kept, Words words, FigureText text) {
    boolean own = change.actor().equals(change.code()) && change.action().startsWith(SIGNING);
    Matcher setting = SETTING.matcher(change.code());
    SettingName name = setting.matches() ? SettingName.find(setting.group(2)).orElse(null) : null;
    return new Row(
        text.moment(change.at(), ZoneOffset.UTC),
        change.actor(),
        AddressText.of(change.source(), words),
        name(change.action(), DID, words),
        own ? "" : name(change.kind(), KIND, words),
        own
            ? ""
            : name == null
                ? named(change.code(), words, text)
                : words.of(
                    "history.setting",
                    setting.group(1),
                    SettingText.name(name, words),
                    text.day(LocalDate.parse(setting.group(3)))),
        kept.say(change.kind(), name, change.before(), change.after()));
  }

  /** A code; what goes with it as people write it. */
  private static String named(String code, Words words, FigureText text) {
    Matcher bill = BILL.matcher(code);
    if (bill.matches()) {
      return words.of(
          "history.bill",
          bill.group(1),
          words.or("kept." + bill.group(2), bill.group(2)),
          text.day(LocalDate.parse(bill.group(3))));
    }
    Matcher report = REPORT.matcher(code);
    if (report.matches()) {
      return words.of(
          "history.report",
          report.group(1),
          text.month(YearMonth.parse(report.group(2))),
          report.group(3));
    }
    return MOMENT
        .matcher(code)
        .replaceFirst(
            found ->
                Matcher.quoteReplacement(
                    text.moment(Instant.parse(found.group()), ZoneOffset.UTC) + "\u00a0UTC"));
  }

  @GetMapping("/people/history.csv")
  void csv(@ModelAttribute Choice choice, HttpServletResponse response) throws IOException {
    response.setContentType("text/csv");
    response.setCharacterEncoding(StandardCharsets.UTF_8.name());
    response.setHeader("Content-Disposition", "attachment; filename=\"history.csv\"");
    Writer out = response.getWriter();
    CSVPrinter printer = new CSVPrinter(out, CSVFormat.RFC4180);
    printer.printRecord("changed_at", "who", "from", "action", "kind", "code", "before", "after");
    history.forEach(choice.filter(), change -> write(printer, change));
    out.flush();
  }

  private static void write(CSVPrinter printer, HistorySearch.Change change) {
    try {
      printer.printRecord(
          change.at(),
          SpreadsheetGuard.apply(change.actor()),
          SpreadsheetGuard.apply(change.source()),
          change.action(),
          change.kind(),
          SpreadsheetGuard.apply(change.code()),
          change.before(),
          change.after());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
