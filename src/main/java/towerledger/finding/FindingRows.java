package towerledger.finding;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneOffset;
import java.util.Arrays;
import java.util.Currency;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.jdbc.support.GeneratedKeyHolder;
import org.springframework.stereotype.Component;
import towerledger.balance.Cause;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.site.CoolingSystem;
import towerledger.site.Site;

/** Writes findings and their steps. */
@Component
class FindingRows {

  private final JdbcClient jdbc;
  private final Clock clock;

  FindingRows(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /** Adds a finding; returns its number. */
  long open(
      Site site,
      CoolingSystem system,
      FindingStatus status,
      Episode episode,
      Optional<MonthWorking> working,
      Optional<Saving> saving,
      LedgerEntry newest) {
    Map<String, @Nullable Object> columns = figures(status, episode, working, saving, newest);
    columns.put("customer_id", site.customerId());
    columns.put("site_id", site.id());
    columns.put("system_id", system.id());
    columns.put("opened_at", at(clock.instant()));
    Instant detected = episode.rows().get(0).verdict().detectedAt();
    columns.put("detected_at", detected == null ? null : at(detected));
    String names = String.join(", ", columns.keySet());
    String gaps = columns.keySet().stream().map(c -> ":" + c).collect(Collectors.joining(", "));
    var key = new GeneratedKeyHolder();
    jdbc.sql("INSERT INTO finding_finding (" + names + ") VALUES (" + gaps + ")")
        .params(columns)
        .update(key, "id");
    return java.util.Objects.requireNonNull(key.getKey()).longValue();
  }

  /** Brings a finding's own figures up to date; what people did stays. */
  void refresh(
      long id,
      FindingStatus status,
      Episode episode,
      Optional<MonthWorking> working,
      Optional<Saving> saving,
      LedgerEntry newest) {
    Map<String, @Nullable Object> columns = figures(status, episode, working, saving, newest);
    String sets =
        columns.keySet().stream().map(c -> c + " = :" + c).collect(Collectors.joining(", "));
    columns.put("id", id);
    jdbc.sql("UPDATE finding_finding SET " + sets + " WHERE id = :id").params(columns).update();
  }

  private static Map<String, @Nullable Object> figures(
      FindingStatus status,
      Episode episode,
      Optional<MonthWorking> working,
      Optional<Saving> saving,
      LedgerEntry newest) {
    Map<String, @Nullable Object> columns = new LinkedHashMap<>();
    columns.put("status", status.code());
    columns.put(
        "cause_set",
        newest.verdict().causeSet().stream().map(Cause::code).collect(Collectors.joining(";")));
    columns.put("likeliest_cause", newest.verdict().likeliest().code());
    columns.put("probability", newest.verdict().probability());
    columns.put("waste", episode.waste());
    columns.put("first_month", day(episode.first()));
    columns.put("last_month", day(episode.last()));
    YearMonth onset = working.map(MonthWorking::onset).orElse(null);
    columns.put("onset_month", onset == null ? null : day(onset));
    Instant onsetAt = working.map(MonthWorking::onsetAt).orElse(null);
    columns.put("onset_at", onsetAt == null ? null : at(onsetAt));
    Range since =
        working
            .map(MonthWorking::lossSinceOnset)
            .map(
                loss -> new Range(loss.value().litres(), loss.low().litres(), loss.high().litres()))
            .orElse(null);
    put(columns, "loss_since", "_l", since, false);
    columns.put("currency", newest.money().currency().getCurrencyCode());
    put(columns, "yearly", "_l", episode.yearlyLitres().orElse(null), false);
    put(columns, "yearly_amount", "", episode.yearlyAmount().orElse(null), true);
    columns.put("saved_months", saving.map(Saving::months).orElse(null));
    Range saved = saving.map(Saving::litres).orElse(null);
    put(columns, "saved", "_l", saved, false);
    OptionalDouble price = episode.pricePerLitre();
    put(
        columns,
        "saved_amount",
        "",
        saved == null || price.isEmpty() ? null : saved.times(price.getAsDouble()),
        true);
    return columns;
  }

  private static void put(
      Map<String, @Nullable Object> columns,
      String name,
      String unit,
      @Nullable Range range,
      boolean money) {
    columns.put(name + unit, range == null ? null : number(range.value(), money));
    columns.put(name + "_low" + unit, range == null ? null : number(range.low(), money));
    columns.put(name + "_high" + unit, range == null ? null : number(range.high(), money));
  }

  private static Object number(double value, boolean money) {
    return money
        ? (Object) BigDecimal.valueOf(value).setScale(4, RoundingMode.HALF_EVEN)
        : (Object) value;
  }

  void setStatus(long id, FindingStatus status) {
    jdbc.sql("UPDATE finding_finding SET status = ? WHERE id = ?")
        .params(status.code(), id)
        .update();
  }

  void setWorked(long id, Instant when) {
    jdbc.sql("UPDATE finding_finding SET worked_at = ? WHERE id = ?").params(at(when), id).update();
  }

  void addStep(long id, String actor, String kind, String note) {
    jdbc.sql(
            """
            INSERT INTO finding_step (finding_id, happened_at, actor, kind, note)
            VALUES (?, ?, ?, ?, ?)\
            """)
        .params(id, at(clock.instant()), actor, kind, note)
        .update();
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }

  private static LocalDate day(YearMonth month) {
    return month.atDay(1);
  }

  /** A finding with its names, as {@link Findings} asks for it. */
  static Finding finding(ResultSet row, int number) throws SQLException {
    String onsetMonth = row.getString("onset_month");
    long assignee = row.getLong("assignee_id");
    String assigneeName = row.getString("assignee_name");
    int savedMonths = row.getInt("saved_months");
    Optional<Range> saved = litres(row, "saved");
    return new Finding(
        row.getLong("id"),
        row.getLong("version"),
        new Finding.Of(
            row.getString("system_code"),
            row.getString("system_name"),
            row.getLong("site_id"),
            row.getString("site_code"),
            row.getString("site_name"),
            row.getString("customer_code"),
            row.getString("customer_name"),
            row.getString("time_zone")),
        FindingStatus.ofCode(row.getString("status")),
        Arrays.stream(row.getString("cause_set").split(";")).map(Cause::ofCode).toList(),
        Cause.ofCode(row.getString("likeliest_cause")),
        row.getDouble("probability"),
        row.getBoolean("waste"),
        YearMonth.from(row.getObject("first_month", LocalDate.class)),
        YearMonth.from(row.getObject("last_month", LocalDate.class)),
        onsetMonth == null
            ? Optional.empty()
            : Optional.of(YearMonth.from(row.getObject("onset_month", LocalDate.class))),
        instant(row, "onset_at"),
        instant(row, "detected_at"),
        litres(row, "loss_since"),
        Currency.getInstance(row.getString("currency")),
        litres(row, "yearly"),
        range(row, "yearly_amount", "yearly_amount_low", "yearly_amount_high"),
        assigneeName == null
            ? Optional.empty()
            : Optional.of(new Finding.Assignee(assignee, assigneeName)),
        instant(row, "opened_at").orElseThrow(),
        instant(row, "worked_at"),
        saved.isEmpty()
            ? Optional.empty()
            : Optional.of(
                new Finding.Saved(
                    savedMonths,
                    saved.get(),
                    range(row, "saved_amount", "saved_amount_low", "saved_amount_high"))));
  }

  private static Optional<Range> litres(ResultSet row, String name) throws SQLException {
    return range(row, name + "_l", name + "_low_l", name + "_high_l");
  }

  private static Optional<Range> range(ResultSet row, String value, String low, String high)
      throws SQLException {
    BigDecimal middle = row.getBigDecimal(value);
    BigDecimal least = row.getBigDecimal(low);
    BigDecimal most = row.getBigDecimal(high);
    return middle == null || least == null || most == null
        ? Optional.empty()
        : Optional.of(new Range(middle.doubleValue(), least.doubleValue(), most.doubleValue()));
  }

  private static Optional<Instant> instant(ResultSet row, String column) throws SQLException {
    OffsetDateTime at = row.getObject(column, OffsetDateTime.class);
    return at == null
        ? Optional.empty()
        : Optional.of(at.withOffsetSameInstant(ZoneOffset.UTC).toInstant());
  }
}
