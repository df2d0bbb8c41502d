package towerledger.intake.file;

import java.time.LocalDate;
import org.jspecify.annotations.Nullable;

/**
 * A row of a rate schedule, ready for its table.
 *
 * @param cells in the order of the table's columns
 * @param schedule the schedule it belongs to
 * @param effectiveFrom first day it holds
 */
record RateRow(@Nullable Object[] cells, String schedule, LocalDate effectiveFrom) {}
