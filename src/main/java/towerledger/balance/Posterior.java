package towerledger.balance;

import java.time.Instant;
import java.util.List;

/**
 * The hypotheses as they stand when a month closes; good until the next month is walked.
 *
 * @param month number of the month that closes
 * @param hypotheses those still alive, weights adding up to one
 * @param lastPeriod number of the last period taken in; −1 for none
 * @param detectedAt last fact of the period of this month at which loss or fault first stood out;
 *     {@link Instant#MIN} when none did
 */
record Posterior(int month, List<Hypothesis> hypotheses, int lastPeriod, Instant detectedAt) {}
