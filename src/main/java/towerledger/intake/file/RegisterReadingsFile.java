package towerledger.intake.file;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Component;
import towerledger.bulk.BatchResult.Fate;
import towerledger.intake.csv.Column;
import towerledger.intake.csv.Columns;
import towerledger.intake.csv.Row;
import towerledger.meter.MeterTables;
import towerledger.meter.ReadingNeighbours;
import towerledger.meter.RegisterReading;
import towerledger.site.LastReadings;

/** {@code register_readings.csv}: what registers showed. */
@Component
class RegisterReadingsFile implements FileFormat<Fact> {

  private static final Columns COLUMNS = new Columns("register_readings");
  private static final Column METER = COLUMNS.required("meter");
  private static final Column READ_AT = COLUMNS.required("read_at");
  private static final Column REGISTER = COLUMNS.requiredNumber("register", 0, 999_999_999_999.0);
  private static final Column KIND = COLUMNS.optional("kind");
  private static final Column NOTE = COLUMNS.optional("note");
  private static final Column DOUBTFUL = COLUMNS.optional("doubtful");

  private final FactStore facts;
  private final ReadingNeighbours neighbours;
  private final LastReadings lastReadings;
  private final ApplicationEventPublisher events;

  RegisterReadingsFile(
      FactStore facts,
      ReadingNeighbours neighbours,
      LastReadings lastReadings,
      ApplicationEventPublisher events) {
    this.facts = facts;
    this.neighbours = neighbours;
    this.lastReadings = lastReadings;
    this.events = events;
  }

  @Override
  public Columns columns() {
    return COLUMNS;
  }

  @Override
  public int order() {
    return 100;
  }

  @Override
  public boolean officeOnly() {
    return false;
  }

  @Override
  public int batchSize() {
    return 20_000;
  }

  @Override
  public Fact read(Row row, Taking taking) {
    var meter = taking.directory().meter(row.code(METER));
    var readAt = row.moment(READ_AT, meter.site().zone());
    Instant read = taking.happened(READ_AT, readAt);
    BigDecimal register = row.decimal(REGISTER, 6);
    meter.register().requireShowable(register);
    var kind = row.word(KIND).map(RegisterReading.Kind::ofCode);
    return new Fact(
        MeterTables.reading(
            meter.site().customerId(),
            meter.meterId(),
            read,
            register,
            kind.orElse(null),
            readAt.giveOrTakeHours(),
            row.findText(NOTE, 1000),
            row.yesNo(DOUBTFUL),
            taking.startedAt(),
            taking.actor().name()),
        meter.systemId(),
        meter.site(),
        read,
        read);
  }

  @Override
  public List<RowFate> take(List<Fact> rows, Taking taking) {
    List<@Nullable Object[]> cells = rows.stream().map(Fact::row).toList();
    List<Fate> fates = taking.load(MeterTables.REGISTER_READING).apply(cells).fates();
    var reach = new HashMap<Long, Fact>();
    for (int i = 0; i < fates.size(); i++) {
      if (FactStore.isNews(fates.get(i))) {
        Fact fact = rows.get(i);
        reach.merge(meterOf(fact), fact, RegisterReadingsFile::both);
      }
    }
    var newest = new HashMap<Long, Instant>();
    reach.forEach((meter, fact) -> newest.put(meter, fact.to()));
    lastReadings.tell(newest);
    var touched = new TouchedMonths();
    for (Map.Entry<Long, Fact> entry : reach.entrySet()) {
      facts.touch(touched, toNeighbours(entry.getKey(), entry.getValue()));
    }
    touched.publish(events, "register readings came in");
    return RowFate.ofAll(fates);
  }

  private static long meterOf(Fact fact) {
    Object meter = fact.row()[MeterTables.REGISTER_READING.index("meter_id")];
    return meter instanceof Long id ? id : 0;
  }

  private static Fact both(Fact one, Fact other) {
    return new Fact(
        one.row(),
        one.systemId(),
        one.site(),
        earlier(one.from(), other.from()),
        earlier(one.to(), other.to()).equals(one.to()) ? other.to() : one.to());
  }

  private static Instant earlier(Instant one, Instant other) {
    return one.isBefore(other) ? one : other;
  }

  /** The volumes before and after a reading are both news, up to the readings next to it. */
  private Fact toNeighbours(long meterId, Fact fact) {
    return new Fact(
        fact.row(),
        fact.systemId(),
        fact.site(),
        neighbours.before(meterId, fact.from()).orElse(fact.from()),
        neighbours.after(meterId, fact.to()).orElse(fact.to()));
  }
}
