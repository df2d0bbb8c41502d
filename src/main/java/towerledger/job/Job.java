package towerledger.job;

import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * A piece of queued, running or finished work.
 *
 * @param id its identity, a UUID
 * @param kind which {@link JobWork} does it
 * @param status how it stands
 * @param progress 0 to 100
 * @param message words for whoever waits; never a stack trace
 * @param payload what it works on, in the kind's own form; null when the kind needs nothing
 * @param customerId whose it is, when it is one customer's
 * @param actor who asked for it
 * @param createdAt when it was asked for
 */
public record Job(
    String id,
    String kind,
    JobStatus status,
    int progress,
    String message,
    @Nullable String payload,
    @Nullable Long customerId,
    String actor,
    Instant createdAt) {}
