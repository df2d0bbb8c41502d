package towerledger.report;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.YearMonth;
import java.util.Optional;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Component;
import towerledger.ledger.Ledger;

/**
 * Writes a report that is due, once the customer's months are reckoned: what came in shortly before
 * the hour is in it. It does not wait for ever, though; after a day it is written as the ledger
 * stands, and says that figures are still being reckoned.
 */
@Component
class DueReports {

  private static final Logger log = LoggerFactory.getLogger(DueReports.class);
  private static final Duration WAITS_AT_MOST = Duration.ofHours(24);
  private static final Duration LOOKS_AGAIN_AFTER = Duration.ofSeconds(30);

  private final Reports reports;
  private final ReportPlans plans;
  private final Ledger ledger;
  private final Clock clock;

  /** A program that was down for days has much to reckon first; its day begins when it is back. */
  private final Instant upSince;

  DueReports(Reports reports, ReportPlans plans, Ledger ledger, Clock clock) {
    this.reports = reports;
    this.plans = plans;
    this.ledger = ledger;
    this.clock = clock;
    this.upSince = clock.instant();
  }

  /**
   * Writes the report of a customer and month, or leaves it for later.
   *
   * @return when to try again; empty when there is nothing left to do
   */
  Optional<Instant> prepare(long customerId, YearMonth month) {
    Instant now = clock.instant();
    Instant due = plans.get(customerId).due(month);
    Instant latest = (due.isAfter(upSince) ? due : upSince).plus(WAITS_AT_MOST);
    int unsettled = ledger.countUnsettled(customerId, month);
    if (unsettled > 0 && now.isBefore(latest)) {
      log.info(
          "report {}:{} waits for {} systems to be reckoned, until {} at most",
          customerId,
          month,
          unsettled,
          latest);
      return Optional.of(now.plus(LOOKS_AGAIN_AFTER));
    }
    log.info("report {}:{}: {}", customerId, month, reports.prepareDue(customerId, month));
    return Optional.empty();
  }
}
