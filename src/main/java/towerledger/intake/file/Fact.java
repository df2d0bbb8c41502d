package towerledger.intake.file;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A measured or logged row, ready for its table.
 *
 * @param row cells in the order of the table's columns
 * @param systemId the system it bears on; null if on all systems of its site
 * @param site where it was measured
 * @param from first instant it tells something about
 * @param to last instant it tells something about
 */
record Fact(
    @Nullable Object[] row,
    @Nullable Long systemId,
    Directory.SitePlace site,
    Instant from,
    Instant to) {}
