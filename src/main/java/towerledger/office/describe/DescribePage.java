package towerledger.office.describe;

import java.math.BigDecimal;
import java.math.MathContext;
import java.time.Instant;
import java.time.LocalDateTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import towerledger.account.UnitPreference;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.intake.DescribedRows;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Twin;
import towerledger.office.ColumnText;
import towerledger.wording.Words;

/**
 * Composes forms from the columns of the interchange format, and reads what was typed into them.
 */
@Component
class DescribePage {

  private static final int SUGGESTIONS = 500;
  private static final String MOMENT = "datetime-local";
  private static final String TOWER = "tower";
  private static final String STATION = "station";
  private static final String SITE = "site";
  private static final String CUSTOMER = "customer";
  private static final MathContext SHOWN = new MathContext(6);

  private static final Map<String, String> SUGGEST =
      Map.of(
          "customer",
          "SELECT code, name FROM account_customer ORDER BY code",
          "site",
          "SELECT code, name FROM site_site ORDER BY code",
          "system",
          "SELECT code, name FROM site_system ORDER BY code",
          "station",
          "SELECT code, name FROM weather_station ORDER BY code",
          "schedule",
          "SELECT schedule, MAX(name) FROM tariff_schedule GROUP BY schedule ORDER BY schedule",
          "water_schedule",
          "SELECT schedule, MAX(name) FROM tariff_schedule WHERE service = 'water'"
              + " GROUP BY schedule ORDER BY schedule",
          "sewer_schedule",
          "SELECT schedule, MAX(name) FROM tariff_schedule WHERE service = 'sewer'"
              + " GROUP BY schedule ORDER BY schedule");

  private final DescribedRows rows;
  private final JdbcClient jdbc;
  private final MessageSource messages;

  DescribePage(DescribedRows rows, JdbcClient jdbc, MessageSource messages) {
    this.rows = rows;
    this.jdbc = jdbc;
    this.messages = messages;
  }

  /** What is known of a thing, as the reader types it, by column; empty when it is not there. */
  Optional<Map<String, String>> find(Viewer viewer, Sheet sheet, Map<String, String> key) {
    return rows.find(sheet.file(), key)
        .map(
            cells -> {
              ZoneId zone = zone(cells);
              Map<String, String> typed = new LinkedHashMap<>();
              for (Column column : rows.listColumns(sheet.file())) {
                String cell = cells.get(column.siName());
                if (cell != null) {
                  typed.put(column.name(), shown(viewer, column, cell, zone));
                }
              }
              if (sheet.path().equals(SettingCells.SETTING)) {
                SettingCells.show(viewer, typed, DescribePage::rounded);
              }
              return typed;
            });
  }

  /** The clock of a thing's site, by which moments are told; UTC where it stands at none. */
  private ZoneId zone(Map<String, String> cells) {
    return jdbc.sql(
            """
            SELECT s.time_zone FROM site_site s WHERE s.code = :site
              OR s.id = (SELECT y.site_id FROM site_system y WHERE y.code = :system)
            """)
        .param("site", cells.getOrDefault("site", ""))
        .param("system", cells.getOrDefault("system", ""))
        .query(String.class)
        .optional()
        .map(ZoneId::of)
        .orElse(ZoneOffset.UTC);
  }

  private static String shown(Viewer viewer, Column column, String cell, ZoneId zone) {
    if (type(column).equals(MOMENT) && cell.endsWith("Z")) {
      return LocalDateTime.ofInstant(Instant.parse(cell), zone).toString();
    }
    Twin twin = column.twin();
    if (twin == null || viewer.units() == UnitPreference.SI) {
      return twin == null ? cell : rounded(Double.parseDouble(cell));
    }
    return rounded(twin.toUs(Double.parseDouble(cell)));
  }

  /** How a column is typed: a day and a moment with the browser's own help. */
  private static String type(Column column) {
    String name = column.name();
    if (name.endsWith("_on") || name.equals("effective_from")) {
      return "date";
    }
    return name.endsWith("_at")
        ? MOMENT
        : name.startsWith("occupied_") && !name.endsWith("_days") ? "time" : "text";
  }

  private static String rounded(double value) {
    BigDecimal shown = new BigDecimal(value).round(SHOWN).stripTrailingZeros();
    return (shown.scale() < 0 ? shown.setScale(0) : shown).toPlainString();
  }

  /** The cells to take: what is told of a new thing, or what was typed over what was known. */
  Map<String, String> cells(
      Viewer viewer, Sheet sheet, Map<String, String> typed, boolean editing) {
    Map<String, String> cells = new LinkedHashMap<>();
    for (Column column : rows.listColumns(sheet.file())) {
      String value = typed.getOrDefault(column.name(), "").strip();
      boolean tells =
          editing
              ? typed.containsKey(column.name())
                  && !value.equals(typed.getOrDefault("was-" + column.name(), ""))
              : !value.isEmpty();
      if (tells) {
        boolean si = column.twin() != null && viewer.units() == UnitPreference.SI;
        cells.put(si ? column.siName() : column.name(), value);
      }
    }
    if (editing && sheet.path().equals(SettingCells.SETTING)) {
      SettingCells.take(viewer, typed.getOrDefault(SettingCells.SETTING, ""), cells);
    }
    return cells;
  }

  DescribeView compose(
      Viewer viewer,
      Sheet sheet,
      boolean editing,
      Map<String, String> typed,
      Map<String, String> known,
      String trouble,
      Map<String, String> changed,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    List<DescribeView.Field> first = new ArrayList<>();
    List<DescribeView.Field> more = new ArrayList<>();
    boolean open = false;
    String blamed = blamed(sheet, trouble);
    for (Column column : shown(sheet, editing, known)) {
      DescribeView.Field field =
          field(viewer, sheet, column, editing, typed, known, trouble, blamed, changed, words);
      (sheet.first().contains(column.name()) ? first : more).add(field);
      open |=
          !sheet.first().contains(column.name()) && (field.wrong() != null || field.now() != null);
    }
    return new DescribeView(
        sheet.path(),
        editing,
        words.of(
            (editing ? "describe.edit." : "describe.add.") + sheet.path(),
            typed.getOrDefault(sheet.key().get(0), "")),
        first,
        more,
        open || editing,
        trouble,
        !changed.isEmpty(),
        back(sheet, editing ? known : typed, editing),
        related(sheet, known, words));
  }

  /**
   * Columns that a form shows. That of a tower which is there leaves out what is edited elsewhere
   * and would stand empty though it is known: settings, which change by date, and what describes
   * the system of several towers. That of a station leaves out what its hours tell.
   */
  private List<Column> shown(Sheet sheet, boolean editing, Map<String, String> known) {
    List<Column> columns = rows.listColumns(sheet.file());
    if (sheet.path().equals(STATION)) {
      return columns.stream()
          .filter(column -> !Sheet.OF_A_STATION_S_HOURS.contains(column.name()))
          .toList();
    }
    if (!editing || !sheet.path().equals(TOWER)) {
      return columns;
    }
    Set<String> elsewhere =
        new HashSet<>(Sheet.CHOICES.getOrDefault(SettingCells.SETTING, List.of()));
    if (known.containsKey("system")) {
      rows.listColumns("systems").forEach(column -> elsewhere.add(column.name()));
    }
    return columns.stream()
        .filter(c -> Sheet.OF_A_TOWER.contains(c.name()) || !elsewhere.contains(c.name()))
        .toList();
  }

  /** Where the thing belongs, to go back to. */
  private static String back(Sheet sheet, Map<String, String> cells, boolean editing) {
    String system = cells.getOrDefault("system", "").strip();
    if (editing && sheet.path().equals(TOWER)) {
      // A tower of its own is a system of the same code.
      return "/systems/" + (system.isEmpty() ? cells.getOrDefault(TOWER, "").strip() : system);
    }
    String schedule = cells.getOrDefault("schedule", "").strip();
    boolean there = editing || !sheet.isKey("system") || sheet.path().equals(SettingCells.SETTING);
    if (!system.isEmpty() && there && !sheet.path().equals(TOWER)) {
      return "/systems/" + system;
    }
    return !schedule.isEmpty() && !sheet.path().equals("rate")
        ? "/rates/" + schedule
        : sheet.isKey("schedule") ? "/rates" : "/guide";
  }

  /** The column that the words of a refusal name first; empty where they name none. */
  private String blamed(Sheet sheet, String trouble) {
    String blamed = "";
    int earliest = Integer.MAX_VALUE;
    for (Column column : rows.listColumns(sheet.file())) {
      for (String name : List.of(column.name(), column.siName())) {
        Matcher found = Pattern.compile("\\b" + Pattern.quote(name) + "\\b").matcher(trouble);
        if (found.find() && found.start() < earliest) {
          earliest = found.start();
          blamed = column.name();
        }
      }
    }
    return blamed;
  }

  private DescribeView.Field field(
      Viewer viewer,
      Sheet sheet,
      Column column,
      boolean editing,
      Map<String, String> typed,
      Map<String, String> known,
      String trouble,
      String blamed,
      Map<String, String> changed,
      Words words) {
    String name = column.name();
    String setting = editing ? known.getOrDefault(SettingCells.SETTING, "") : "";
    List<DescribeView.Choice> choices =
        (name.equals(SettingCells.VALUE)
                ? SettingCells.choices(setting)
                : Sheet.CHOICES.getOrDefault(name, List.of()))
            .stream()
                .map(code -> new DescribeView.Choice(code, words.of("choice." + code)))
                .toList();
    boolean fixed = editing && sheet.isKey(name);
    return new DescribeView.Field(
        name,
        label(sheet, column, words),
        ColumnText.unit(column, viewer.units()),
        typed.getOrDefault(name, ""),
        known.getOrDefault(name, ""),
        column.required(),
        fixed,
        fixed && name.equals(SettingCells.SETTING)
            ? words.of("choice." + SettingCells.choice(viewer, setting))
            : null,
        type(column),
        column.twin() != null || column.highest() > column.lowest(),
        choices,
        choices.isEmpty() && !fixed ? suggestions(sheet, name) : List.of(),
        name.equals(blamed) ? trouble : null,
        changed.get(name));
  }

  /** A column's name; that of a station's own code, which is a site's station elsewhere. */
  private static String label(Sheet sheet, Column column, Words words) {
    return sheet.path().equals(STATION) && sheet.isKey(column.name())
        ? words.of("describe.code.station")
        : ColumnText.label(column, words);
  }

  private List<DescribeView.Choice> suggestions(Sheet sheet, String column) {
    if (column.equals("time_zone")) {
      return ZoneId.getAvailableZoneIds().stream()
          .filter(
              zone ->
                  zone.startsWith("America/") || zone.startsWith("Europe/") || zone.equals("UTC"))
          .sorted()
          .map(zone -> new DescribeView.Choice(zone, ""))
          .toList();
    }
    String sql =
        column.equals(sheet.key().get(0)) && sheet.key().size() == 1 ? null : SUGGEST.get(column);
    return sql == null
        ? List.of()
        : jdbc.sql(sql + " FETCH FIRST " + SUGGESTIONS + " ROWS ONLY")
            .query(
                (row, n) -> {
                  String name = row.getString(2);
                  return new DescribeView.Choice(row.getString(1), name == null ? "" : name);
                })
            .list();
  }

  /** Forms of what a site belongs to, from where a reader may well have come to look for them. */
  private List<DescribeView.Way> related(Sheet sheet, Map<String, String> known, Words words) {
    if (!sheet.path().equals(SITE)) {
      return List.of();
    }
    List<DescribeView.Way> ways = new ArrayList<>();
    String customer = known.getOrDefault(CUSTOMER, "");
    if (!customer.isEmpty()) {
      ways.add(
          new DescribeView.Way(
              "/describe/customer?edit&customer=" + customer,
              words.of("describe.edit.customer", customer)));
    }
    String station = known.getOrDefault(STATION, "");
    if (!station.isEmpty()) {
      boolean there = rows.find("weather_stations", Map.of(STATION, station)).isPresent();
      ways.add(
          new DescribeView.Way(
              "/describe/station?" + (there ? "edit&" : "") + "station=" + station,
              there
                  ? words.of("describe.edit.station", station)
                  : words.of("describe.station.unknown", station)));
    }
    ways.add(new DescribeView.Way("/describe/station", words.of("describe.add.station")));
    return ways;
  }

  static @Nullable String next(Sheet sheet, Map<String, String> typed) {
    String code = typed.getOrDefault(sheet.key().get(0), "").strip();
    String from = typed.getOrDefault("effective_from", "").strip();
    String system = typed.getOrDefault("system", "").strip();
    return switch (sheet.path()) {
      case "customer" -> "/describe/site?customer=" + code;
      case "site" -> "/describe/tower?site=" + code;
      case TOWER, "system" ->
          "/describe/meter?role=makeup&system=" + (system.isEmpty() ? code : system);
      case "meter" -> system.isEmpty() ? null : "/rounds/" + system;
      case "rate" -> "/describe/charge?schedule=" + code + "&effective_from=" + from;
      case "charge" -> "/describe/block?from_units=0&schedule=" + code + "&effective_from=" + from;
      default -> null;
    };
  }
}
