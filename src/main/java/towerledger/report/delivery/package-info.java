/** Carries reports to the mail relay: outbox, retries, answers, bounces. */
@NullMarked
package towerledger.report.delivery;

import org.jspecify.annotations.NullMarked;
