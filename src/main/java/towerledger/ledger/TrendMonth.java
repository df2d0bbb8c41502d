package towerledger.ledger;

import java.time.YearMonth;
import org.jspecify.annotations.Nullable;

/**
 * One month in the line of a system.
 *
 * @param month the month
 * @param waste whether water was wasted in it
 * @param makeup metered makeup, litres; null where there is none
 * @param expectedLow lower bound of what a sound system would have taken, litres
 * @param expectedHigh upper bound
 */
public record TrendMonth(
    YearMonth month,
    boolean waste,
    @Nullable Double makeup,
    @Nullable Double expectedLow,
    @Nullable Double expectedHigh) {}
