package towerledger.meter;

import java.math.BigDecimal;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.YearMonth;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.Outcome;
import towerledger.site.CoolingSystem;
import towerledger.site.FactsChanged;
import towerledger.site.LastReadings;
import towerledger.site.Meter;
import towerledger.site.Site;
import towerledger.site.Sites;

/**
 * Takes one register reading from a form or a script. A reading of the same meter and instant
 * corrects the one before, which is kept; nothing is refused for being unexpected.
 */
@Service
public class ReadingEntry {

  private static final Instant EARLIEST = Instant.parse("1990-01-01T00:00:00Z");
  private static final Duration AHEAD = Duration.ofDays(1);
  private static final int LONGEST_NOTE = 1000;

  private final Sites sites;
  private final MeterRecords records;
  private final LastReadings lastReadings;
  private final ChangeHistory history;
  private final ApplicationEventPublisher events;
  private final JdbcClient jdbc;
  private final TransactionTemplate transaction;
  private final Clock clock;

  ReadingEntry(
      Sites sites,
      MeterRecords records,
      LastReadings lastReadings,
      ChangeHistory history,
      ApplicationEventPublisher events,
      JdbcClient jdbc,
      PlatformTransactionManager transactions,
      Clock clock) {
    this.sites = sites;
    this.records = records;
    this.lastReadings = lastReadings;
    this.history = history;
    this.events = events;
    this.jdbc = jdbc;
    this.transaction = new TransactionTemplate(transactions);
    this.clock = clock;
  }

  /**
   * What became of a reading.
   *
   * @param outcome whether it is new, corrects an older one or was known already
   * @param remarks what to tell whoever entered it: out of the expected range, roll-over, register
   *     running backwards
   */
  public record Entered(Outcome outcome, List<Remark> remarks) {

    public Entered {
      remarks = List.copyOf(remarks);
    }
  }

  /**
   * Takes a reading.
   *
   * @param reading its mark 'implausible' is not looked at but set from {@code expected}
   * @param note words of the reader, at most 1000 characters
   * @param expected what the model expects to have passed since the reading before, if it is known
   * @throws IllegalArgumentException when the register does not fit on the meter's digits, the
   *     instant lies before 1990 or more than a day ahead, or the note is too long
   */
  public Entered enter(
      Actor actor,
      Meter meter,
      RegisterReading reading,
      @Nullable String note,
      Optional<ExpectedVolume> expected) {
    requirePossible(meter, reading, note);
    try {
      return store(actor, meter, reading, note, expected);
    } catch (DuplicateKeyException sameReadingJustArrived) {
      // Somebody else entered the same instant between look and write: now it is a correction.
      return store(actor, meter, reading, note, expected);
    }
  }

  private void requirePossible(Meter meter, RegisterReading reading, @Nullable String note) {
    Register.of(meter).requireShowable(reading.register());
    Instant latest = clock.instant().plus(AHEAD);
    if (reading.readAt().isBefore(EARLIEST) || reading.readAt().isAfter(latest)) {
      throw new IllegalArgumentException(
          "reading of meter %s at %s lies outside %s to %s; check the date"
              .formatted(meter.code(), reading.readAt(), EARLIEST, latest));
    }
    if (note != null && note.length() > LONGEST_NOTE) {
      throw new IllegalArgumentException(
          "note of %d characters is longer than %d; shorten it"
              .formatted(note.length(), LONGEST_NOTE));
    }
  }

  private Entered store(
      Actor actor,
      Meter meter,
      RegisterReading reading,
      @Nullable String note,
      Optional<ExpectedVolume> expected) {
    return Objects.requireNonNull(
        transaction.execute(status -> write(actor, meter, reading, note, expected)));
  }

  private record Stored(
      BigDecimal register,
      String kind,
      @Nullable String note,
      OffsetDateTime recordedAt,
      String recordedBy) {}

  private Entered write(
      Actor actor,
      Meter meter,
      RegisterReading reading,
      @Nullable String note,
      Optional<ExpectedVolume> expected) {
    List<Remark> remarks = remarks(meter, reading, expected);
    boolean implausible =
        remarks.stream().anyMatch(remark -> remark.kind() == Remark.Kind.NOT_EXPECTED);
    Site site = sites.findSite(meter.siteId()).orElseThrow();
    Optional<Stored> before = find(meter, reading.readAt());
    Outcome outcome;
    if (before.isEmpty()) {
      insert(actor, site, meter, reading, implausible, note);
      lastReadings.tell(Map.of(meter.id(), reading.readAt()));
      outcome = Outcome.ADDED;
    } else if (before.get().register().compareTo(reading.register()) == 0
        && before.get().kind().equals(reading.kind().code())
        && (note == null || note.equals(before.get().note()))) {
      return new Entered(Outcome.UNCHANGED, remarks);
    } else {
      correct(actor, site, meter, reading, implausible, note, before.get());
      outcome = Outcome.CHANGED;
    }
    history.record(
        actor,
        outcome == Outcome.ADDED ? "added" : "corrected",
        "reading",
        meter.code() + " " + reading.readAt(),
        site.customerId(),
        before.map(Stored::register).map(r -> Map.of("register", r)).orElse(null),
        Map.of("register", reading.register(), "kind", reading.kind().code()));
    publish(meter, site, reading.readAt());
    return new Entered(outcome, remarks);
  }

  private List<Remark> remarks(
      Meter meter, RegisterReading reading, Optional<ExpectedVolume> expected) {
    Optional<RegisterReading> last = records.findLastBefore(meter, reading.readAt());
    if (last.isEmpty()) {
      return List.of();
    }
    MeasuredRegister measured =
        RegisterArithmetic.measure(Register.of(meter), List.of(last.get(), reading));
    // Beside the two readings stand what the register showed when the meter was installed, and what
    // passed until the last one: that is not what is expected since.
    Instant since = last.get().readAt();
    var remarks = new ArrayList<Remark>();
    measured.remarks().stream().filter(remark -> remark.at().isAfter(since)).forEach(remarks::add);
    measured.volumes().stream()
        .filter(volume -> !volume.span().startInclusive().isBefore(since))
        .flatMap(volume -> expected.flatMap(range -> range.remarkOn(meter.code(), volume)).stream())
        .forEach(remarks::add);
    return remarks;
  }

  private Optional<Stored> find(Meter meter, Instant readAt) {
    return jdbc.sql(
            """
            SELECT register, kind, note, recorded_at, recorded_by FROM meter_register_reading
            WHERE meter_id = :meter AND read_at = :at
            FOR UPDATE""")
        .param("meter", meter.id())
        .param("at", at(readAt))
        .query(
            (row, number) ->
                new Stored(
                    row.getBigDecimal("register"),
                    row.getString("kind"),
                    row.getString("note"),
                    row.getObject("recorded_at", OffsetDateTime.class),
                    row.getString("recorded_by")))
        .optional();
  }

  private void insert(
      Actor actor,
      Site site,
      Meter meter,
      RegisterReading reading,
      boolean implausible,
      @Nullable String note) {
    jdbc.sql(
            """
            INSERT INTO meter_register_reading
              (customer_id, meter_id, read_at, register, kind, give_or_take_hours, implausible,
               note, recorded_at, recorded_by)
            VALUES (:customer, :meter, :at, :register, :kind, :hours, :implausible,
               :note, :now, :actor)""")
        .param("customer", site.customerId())
        .param("meter", meter.id())
        .param("at", at(reading.readAt()))
        .param("register", reading.register())
        .param("kind", reading.kind().code())
        .param("hours", hours(reading))
        .param("implausible", implausible)
        .param("note", note)
        .param("now", at(clock.instant()))
        .param("actor", actor.name())
        .update();
  }

  private void correct(
      Actor actor,
      Site site,
      Meter meter,
      RegisterReading reading,
      boolean implausible,
      @Nullable String note,
      Stored before) {
    OffsetDateTime now = at(clock.instant());
    jdbc.sql(
            """
            INSERT INTO meter_register_correction
              (customer_id, meter_id, read_at, replaced_at, register, kind, note, recorded_at,
               recorded_by)
            VALUES (:customer, :meter, :at, :now, :register, :kind, :note, :recorded, :by)""")
        .param("customer", site.customerId())
        .param("meter", meter.id())
        .param("at", at(reading.readAt()))
        .param("now", now)
        .param("register", before.register())
        .param("kind", before.kind())
        .param("note", before.note())
        .param("recorded", before.recordedAt())
        .param("by", before.recordedBy())
        .update();
    jdbc.sql(
            """
            UPDATE meter_register_reading
            SET register = :register, kind = :kind, give_or_take_hours = :hours,
              implausible = :implausible, note = :note, recorded_at = :now, recorded_by = :actor
            WHERE meter_id = :meter AND read_at = :at""")
        .param("register", reading.register())
        .param("kind", reading.kind().code())
        .param("hours", hours(reading))
        .param("implausible", implausible)
        .param("note", note == null ? before.note() : note)
        .param("now", now)
        .param("actor", actor.name())
        .param("meter", meter.id())
        .param("at", at(reading.readAt()))
        .update();
  }

  /** A reading bears on the months from the reading before it to the one after it. */
  private void publish(Meter meter, Site site, Instant readAt) {
    ZoneId zone = site.details().zone();
    Instant first = neighbour(meter, readAt, "MAX(read_at)", "<").orElse(readAt);
    Instant last = neighbour(meter, readAt, "MIN(read_at)", ">").orElse(readAt);
    List<Long> systems =
        meter
            .systemId()
            .map(List::of)
            .orElseGet(() -> sites.listSystems(site).stream().map(CoolingSystem::id).toList());
    if (systems.isEmpty()) {
      return;
    }
    events.publishEvent(
        new FactsChanged(
            systems.stream()
                .map(
                    system ->
                        new FactsChanged.Touched(
                            system,
                            YearMonth.from(first.atZone(zone)),
                            YearMonth.from(last.atZone(zone))))
                .toList(),
            "reading of meter " + meter.code()));
  }

  private Optional<Instant> neighbour(Meter meter, Instant readAt, String which, String side) {
    return jdbc.sql(
            "SELECT %s FROM meter_register_reading WHERE meter_id = :meter AND read_at %s :at"
                .formatted(which, side))
        .param("meter", meter.id())
        .param("at", at(readAt))
        .query((row, number) -> Optional.ofNullable(row.getObject(1, OffsetDateTime.class)))
        .single()
        .map(OffsetDateTime::toInstant);
  }

  private static double hours(RegisterReading reading) {
    return reading.giveOrTake().toSeconds() / 3600.0;
  }

  private static OffsetDateTime at(Instant instant) {
    return OffsetDateTime.ofInstant(instant, ZoneOffset.UTC);
  }
}
