package towerledger.tariff;

import static org.assertj.core.api.Assertions.assertThat;

import java.math.BigDecimal;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import towerledger.account.Outcome;
import towerledger.tariff.ScheduleRows.BlockRow;
import towerledger.tariff.ScheduleRows.ChargeRow;
import towerledger.tariff.ScheduleRows.Taken;
import towerledger.tariff.ScheduleRows.VersionRow;

/** Rows of rate files put together, and refused with the row and the remedy. */
class ScheduleMergeTest {

  private static final LocalDate JULY = LocalDate.of(2025, 7, 1);

  private final List<Taken> taken = new ArrayList<>();

  @Test
  void takesRowsInAnyOrderAndTheSameAgainWithoutChange() {
    VersionRows stored =
        merge(
            null,
            List.of(version("v")),
            List.of(charge("c", 50.8, "40.00")),
            List.of(block("b2", "100", "5"), block("b1", "0", "4")));

    assertThat(taken).extracting(Taken::outcome).containsOnly(Outcome.ADDED);
    assertThat(stored.assemble().tables().get(0).blocks())
        .extracting(block -> block.fromUnits().toPlainString())
        .containsExactly("0", "100");

    merge(
        stored,
        List.of(version("v")),
        List.of(charge("c", 50.8, "40")),
        List.of(block("b1", "0.0", "4.00"), block("b2", "100", "5")));
    assertThat(taken).extracting(Taken::outcome).containsOnly(Outcome.UNCHANGED);
  }

  @Test
  void tableFromZeroReplacesAndOtherRowsAreAdded() {
    VersionRows stored =
        merge(
            null,
            List.of(version("v")),
            List.of(),
            List.of(block("a", "0", "4"), block("b", "50", "5")));

    VersionRows replaced =
        merge(stored, List.of(), List.of(), List.of(block("a", "0", "4"), block("b", "60", "5")));
    VersionRows added = merge(stored, List.of(), List.of(), List.of(block("c", "90", "6")));

    assertThat(froms(replaced)).containsExactly("0", "60");
    assertThat(froms(added)).containsExactly("0", "50", "90");
  }

  @Test
  void seasonsDrawnAnewReplaceTheOldOnes() {
    VersionRows stored =
        merge(
            null,
            List.of(version("v")),
            List.of(),
            List.of(season("s", 5, 10, "6"), season("w", 11, 4, "4")));

    VersionRows redrawn =
        merge(
            stored, List.of(), List.of(), List.of(season("s", 4, 9, "6"), season("w", 10, 3, "4")));

    assertThat(refused()).isEmpty();
    assertThat(redrawn.assemble().tables())
        .extracting(table -> String.valueOf(table.season()))
        .containsExactlyInAnyOrder("4-9", "10-3");
  }

  @Test
  void refusesRowsWithTheRemedyAndTakesTheirNeighbours() {
    merge(
        null,
        List.of(version("v")),
        List.of(charge("c1", null, "10"), charge("c2", null, "11"), charge("c3", 25.4, "12")),
        List.of(
            block("b1", "0", "4"),
            block("b2", "50", "5"),
            block("b3", "50", "6"),
            block("b4", "-3", "6"),
            block("b5", "70", "-6")));

    assertThat(refused()).extracting(Taken::reference).containsExactly("b3", "b4", "b5", "c2");
    assertThat(reason("c2")).contains("is given twice, 10 and 11; keep one amount");
    assertThat(reason("b3")).contains("begin at 50 units, at rates 5 and 6; keep one");
    assertThat(reason("b4")).contains("from_units of -3 is below 0");
    assertThat(reason("b5")).contains("rate of -6 is below 0");
  }

  @Test
  void refusesBlocksWithoutABeginningAndSeasonsThatOverlapOrLeaveGaps() {
    merge(null, List.of(version("v")), List.of(), List.of(block("b", "50", "5")));
    assertThat(reason("b")).contains("do not begin at 0; add the row with from_units 0");

    merge(
        null,
        List.of(version("v")),
        List.of(),
        List.of(season("s", 5, 10, "6"), season("w", 10, 4, "4")));
    assertThat(reason("s")).contains("two block tables hold in month 10");

    merge(null, List.of(version("v")), List.of(), List.of(season("s", 5, 10, "6")));
    assertThat(reason("s")).contains("no block table holds in month 1; extend a season");
  }

  @Test
  void refusesVersionsThatMakeNoSense() {
    VersionRow sewer = sewer("v", "percent-of-water", "140");
    merge(null, List.of(sewer), List.of(charge("c", null, "1")), List.of());
    assertThat(reason("v"))
        .contains("schedule W1 from 2025-07-01: sewer_percent of 140 is outside 0 to 100; give");
    assertThat(reason("c")).contains("add or mend its row in rate_schedules first");

    merge(null, List.of(VersionRow.of("v", "W1", "water", JULY, "barrel")), List.of(), List.of());
    assertThat(reason("v")).contains("unit 'barrel' is not known; use one of gal, kgal");

    merge(
        null,
        List.of(version("v1"), VersionRow.of("v2", "W1", "water", JULY, "ccf")),
        List.of(),
        List.of());
    assertThat(reason("v2")).contains("two versions from 2025-07-01; keep one or change");

    merge(null, List.of(sewer("v", "by-the-moon", "90")), List.of(), List.of());
    assertThat(reason("v")).contains("sewer_basis 'by-the-moon' is not known; use metered-water");
  }

  @Test
  void scheduleKeepsItsService() {
    ScheduleMerge merge = new ScheduleMerge("W1", JULY, Service.SEWER, null);

    merge.put(List.of(version("v")), List.of(), List.of());

    assertThat(merge.taken().get(0).reason())
        .contains("schedule W1 bills sewer; give the water rates a schedule of their own");
  }

  private VersionRows merge(
      @Nullable VersionRows stored,
      List<VersionRow> versions,
      List<ChargeRow> charges,
      List<BlockRow> blocks) {
    ScheduleMerge merge = new ScheduleMerge("W1", JULY, null, stored);
    merge.put(versions, charges, blocks);
    taken.clear();
    taken.addAll(merge.taken());
    return merge
        .findMerged()
        .orElseGet(() -> new VersionRows(version("none"), List.of(), List.of()));
  }

  private List<Taken> refused() {
    return taken.stream()
        .filter(Taken::refused)
        .sorted(Comparator.comparing(Taken::reference))
        .toList();
  }

  private String reason(String reference) {
    return taken.stream()
        .filter(row -> row.reference().equals(reference))
        .findFirst()
        .orElseThrow()
        .reason();
  }

  private static List<String> froms(VersionRows rows) {
    return rows.assemble().tables().get(0).blocks().stream()
        .map(block -> block.fromUnits().toPlainString())
        .toList();
  }

  private static VersionRow version(String reference) {
    return VersionRow.of(reference, "W1", "water", JULY, "kgal");
  }

  private static VersionRow sewer(String reference, String basis, String percent) {
    return new VersionRow(
        reference,
        "W1",
        "sewer",
        JULY,
        "kgal",
        null,
        null,
        null,
        null,
        null,
        basis,
        new BigDecimal(percent),
        null,
        null,
        null,
        null,
        null,
        null);
  }

  private static ChargeRow charge(String reference, @Nullable Double size, String amount) {
    return new ChargeRow(reference, "W1", JULY, "service", size, new BigDecimal(amount));
  }

  private static BlockRow block(String reference, String from, String rate) {
    return new BlockRow(
        reference, "W1", JULY, null, null, null, new BigDecimal(from), new BigDecimal(rate));
  }

  private static BlockRow season(String reference, int first, int last, String rate) {
    return new BlockRow(
        reference, "W1", JULY, first, last, null, BigDecimal.ZERO, new BigDecimal(rate));
  }
}
