package towerledger.account;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * Which changes to show.
 *
 * @param actor part of who did it, any case; empty for anybody
 * @param action exactly what was done; empty for anything
 * @param kind exactly what sort of thing; empty for all
 * @param code part of the thing's code, any case; empty for all
 * @param fromInclusive not before this; null for no bound
 * @param toExclusive before this; null for no bound
 */
public record HistoryFilter(
    String actor,
    String action,
    String kind,
    String code,
    @Nullable Instant fromInclusive,
    @Nullable Instant toExclusive) {}
