package towerledger.tariff;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import towerledger.account.Outcome;
import towerledger.tariff.RateVersion.Block;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.Taken;
import towerledger.tariff.ScheduleRows.VersionRow;

/**
 * Puts new rows over the stored rows of one version of a schedule and refuses those that would make
 * no valid rates.
 *
 * <p>Charges are updated by name and meter size. Block rows that include one from 0 units replace
 * their table (season and meter size); rows without it are added to the stored table. When the
 * seasons are drawn anew the new tables replace all tables of their meter sizes.
 */
final class ScheduleMerge {

  private final String schedule;
  private final LocalDate effectiveFrom;
  private final @Nullable Service service;
  private final @Nullable VersionRows stored;
  private final List<Taken> taken = new ArrayList<>();
  private @Nullable VersionRows merged;

  /**
   * @param service service of the schedule's other versions; null when there are none
   * @param stored rows stored so far; null when the version is new
   */
  ScheduleMerge(
      String schedule,
      LocalDate effectiveFrom,
      @Nullable Service service,
      @Nullable VersionRows stored) {
    this.schedule = schedule;
    this.effectiveFrom = effectiveFrom;
    this.service = service;
    this.stored = stored;
    this.merged = stored;
  }

  /** What became of every row given. */
  List<Taken> taken() {
    return List.copyOf(taken);
  }

  /** The rows to store; empty when there is no version. */
  Optional<VersionRows> findMerged() {
    return Optional.ofNullable(merged);
  }

  boolean changed() {
    return taken.stream()
        .anyMatch(row -> row.outcome() == Outcome.ADDED || row.outcome() == Outcome.CHANGED);
  }

  void put(List<VersionRow> versions, List<ChargeRow> charges, List<BlockRow> blocks) {
    putVersions(versions);
    VersionRows base = merged;
    if (base == null) {
      String reason =
          "schedule %s has no version from %s; add or mend its row in rate_schedules first"
              .formatted(schedule, effectiveFrom);
      charges.forEach(row -> taken.add(Taken.refused(row.reference(), reason)));
      blocks.forEach(row -> taken.add(Taken.refused(row.reference(), reason)));
      return;
    }
    merged = putBlocks(putCharges(base, charges), blocks);
  }

  private void putVersions(List<VersionRow> rows) {
    VersionRow first = null;
    for (VersionRow row : rows) {
      if (first != null) {
        boolean same = updated(first, row).equals(first) && updated(row, first).equals(row);
        taken.add(
            same
                ? Taken.as(row.reference(), Outcome.UNCHANGED)
                : Taken.refused(
                    row.reference(),
                    "schedule %s has two versions from %s; keep one or change its effective_from"
                        .formatted(schedule, effectiveFrom)));
        continue;
      }
      first = row;
      VersionRow after = stored == null ? row : updated(stored.version(), row);
      VersionRows candidate =
          stored == null
              ? new VersionRows(after, List.of(), List.of())
              : new VersionRows(after, stored.charges(), stored.blocks());
      Optional<String> wrong = findFault(candidate);
      if (wrong.isPresent()) {
        taken.add(Taken.refused(row.reference(), wrong.get()));
      } else {
        merged = candidate;
        taken.add(
            Taken.as(
                row.reference(),
                stored == null
                    ? Outcome.ADDED
                    : after.equals(stored.version()) ? Outcome.UNCHANGED : Outcome.CHANGED));
      }
    }
  }

  private VersionRows putCharges(VersionRows base, List<ChargeRow> rows) {
    VersionRows result = base;
    Map<String, ChargeRow> given = new HashMap<>();
    for (ChargeRow row : rows) {
      ChargeRow twin = null;
      Optional<String> wrong = Optional.empty();
      try {
        VersionRows.charge(row);
        twin = given.putIfAbsent(VersionRows.chargeKey(row), row);
      } catch (IllegalArgumentException e) {
        wrong = Optional.of(String.valueOf(e.getMessage()));
      }
      if (twin != null && twin.amount().compareTo(row.amount()) != 0) {
        wrong =
            Optional.of(
                "charge '%s' of schedule %s from %s is given twice, %s and %s; keep one amount"
                    .formatted(
                        row.charge(),
                        schedule,
                        effectiveFrom,
                        twin.amount().toPlainString(),
                        row.amount().toPlainString()));
      }
      if (wrong.isPresent()) {
        taken.add(Taken.refused(row.reference(), wrong.get()));
        continue;
      }
      List<ChargeRow> charges = new ArrayList<>(result.charges());
      Outcome outcome = Outcome.ADDED;
      int place = charges.size();
      for (int i = 0; i < charges.size(); i++) {
        if (VersionRows.chargeKey(charges.get(i)).equals(VersionRows.chargeKey(row))) {
          outcome =
              charges.get(i).amount().compareTo(row.amount()) == 0
                  ? Outcome.UNCHANGED
                  : Outcome.CHANGED;
          place = i;
        }
      }
      if (place < charges.size()) {
        charges.set(place, row);
      } else {
        charges.add(row);
      }
      result = result.withCharges(charges);
      taken.add(Taken.as(row.reference(), outcome));
    }
    return result;
  }

  private VersionRows putBlocks(VersionRows base, List<BlockRow> rows) {
    Map<String, List<BlockRow>> tables = readTables(base, rows);
    if (tables.isEmpty()) {
      return base;
    }
    VersionRows narrow = base.withBlocks(replaced(base, tables, false));
    VersionRows wide = base.withBlocks(replaced(base, tables, true));
    Optional<String> wrong = findFault(narrow);
    VersionRows result = narrow;
    if (wrong.isPresent() && findFault(wide).isEmpty()) {
      wrong = Optional.empty();
      result = wide;
    }
    Optional<String> reason = wrong;
    tables.values().stream()
        .flatMap(List::stream)
        .filter(rows::contains)
        .forEach(
            row ->
                taken.add(
                    reason
                        .map(text -> Taken.refused(row.reference(), text))
                        .orElseGet(() -> Taken.as(row.reference(), outcome(base, row)))));
    return wrong.isPresent() ? base : result;
  }

  /** The new rows by table, those of tables that cannot stand refused on the way. */
  private Map<String, List<BlockRow>> readTables(VersionRows base, List<BlockRow> rows) {
    Map<String, List<BlockRow>> tables = new LinkedHashMap<>();
    for (BlockRow row : rows) {
      try {
        requireBlock(row);
        List<BlockRow> table =
            tables.computeIfAbsent(VersionRows.tableKey(row), key -> new ArrayList<>());
        Optional<BlockRow> twin =
            table.stream()
                .filter(other -> other.fromUnits().compareTo(row.fromUnits()) == 0)
                .findFirst();
        if (twin.isEmpty()) {
          table.add(row);
        } else if (VersionRows.same(twin.get(), row)) {
          taken.add(Taken.as(row.reference(), Outcome.UNCHANGED));
        } else {
          taken.add(Taken.refused(row.reference(), twice(row, twin.get())));
        }
      } catch (IllegalArgumentException e) {
        taken.add(Taken.refused(row.reference(), String.valueOf(e.getMessage())));
      }
    }
    Map<String, List<BlockRow>> standing = new LinkedHashMap<>();
    tables.forEach(
        (key, table) -> {
          List<BlockRow> whole = withStored(base, key, table);
          if (whole.stream().noneMatch(row -> row.fromUnits().signum() == 0)) {
            table.forEach(
                row ->
                    taken.add(
                        Taken.refused(
                            row.reference(),
                            "the blocks of schedule %s from %s do not begin at 0; add the row with"
                                    .formatted(schedule, effectiveFrom)
                                + " from_units 0")));
          } else if (!table.isEmpty()) {
            standing.put(key, whole);
          }
        });
    return standing;
  }

  private String twice(BlockRow row, BlockRow twin) {
    return "two blocks of schedule %s from %s begin at %s units, at rates %s and %s; keep one"
        .formatted(
            schedule,
            effectiveFrom,
            row.fromUnits().toPlainString(),
            twin.rate().toPlainString(),
            row.rate().toPlainString());
  }

  private static List<BlockRow> withStored(VersionRows base, String key, List<BlockRow> table) {
    if (table.stream().anyMatch(row -> row.fromUnits().signum() == 0)) {
      return table;
    }
    List<BlockRow> whole = new ArrayList<>(table);
    base.blocks().stream()
        .filter(old -> VersionRows.tableKey(old).equals(key))
        .filter(
            old -> table.stream().noneMatch(row -> row.fromUnits().compareTo(old.fromUnits()) == 0))
        .forEach(whole::add);
    return whole;
  }

  private static List<BlockRow> replaced(
      VersionRows base, Map<String, List<BlockRow>> tables, boolean allSeasons) {
    Set<String> sizes = new LinkedHashSet<>();
    tables.values().forEach(table -> sizes.add(String.valueOf(table.get(0).meterSizeMm())));
    List<BlockRow> blocks = new ArrayList<>();
    base.blocks().stream()
        .filter(old -> !tables.containsKey(VersionRows.tableKey(old)))
        .filter(old -> !allSeasons || !sizes.contains(String.valueOf(old.meterSizeMm())))
        .forEach(blocks::add);
    tables.values().forEach(blocks::addAll);
    return blocks;
  }

  private static Outcome outcome(VersionRows base, BlockRow row) {
    for (BlockRow old : base.blocks()) {
      if (VersionRows.tableKey(old).equals(VersionRows.tableKey(row))
          && old.fromUnits().compareTo(row.fromUnits()) == 0) {
        return VersionRows.same(old, row) ? Outcome.UNCHANGED : Outcome.CHANGED;
      }
    }
    return Outcome.ADDED;
  }

  private static void requireBlock(BlockRow row) {
    new Block(row.fromUnits(), row.rate());
    VersionRows.tableKey(row);
    VersionRows.season(row);
  }

  private Optional<String> findFault(VersionRows rows) {
    try {
      rows.assemble();
      Service own = rows.service();
      return service == null || service == own
          ? Optional.empty()
          : Optional.of(
              "schedule %s bills %s; give the %s rates a schedule of their own"
                  .formatted(schedule, service.code(), own.code()));
    } catch (IllegalArgumentException e) {
      return Optional.of(
          "schedule %s from %s: %s".formatted(schedule, effectiveFrom, e.getMessage()));
    }
  }

  private static VersionRow updated(VersionRow old, VersionRow row) {
    return new VersionRow(
        old.reference(),
        old.schedule(),
        row.service(),
        old.effectiveFrom(),
        row.billingUnit(),
        or(row.name(), old.name()),
        or(row.monthsPerBill(), old.monthsPerBill()),
        number(row.minimumCharge(), old.minimumCharge()),
        number(row.surchargePercent(), old.surchargePercent()),
        number(row.taxPercent(), old.taxPercent()),
        or(row.sewerBasis(), old.sewerBasis()),
        number(row.sewerPercent(), old.sewerPercent()),
        or(row.winterMonths(), old.winterMonths()),
        or(row.evaporationCredit(), old.evaporationCredit()),
        number(row.creditPercent(), old.creditPercent()),
        number(row.creditMinimumUnits(), old.creditMinimumUnits()),
        number(row.creditCapPercent(), old.creditCapPercent()),
        or(row.creditDeadline(), old.creditDeadline()));
  }

  private static <T> @Nullable T or(@Nullable T newer, @Nullable T older) {
    return newer == null ? older : newer;
  }

  /** The newer number, or the older where they are equal in value, so that 5 and 5.00 are one. */
  private static @Nullable BigDecimal number(
      @Nullable BigDecimal newer, @Nullable BigDecimal older) {
    return newer == null || (older != null && newer.compareTo(older) == 0) ? older : newer;
  }
}
