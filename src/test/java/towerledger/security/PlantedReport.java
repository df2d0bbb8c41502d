package towerledger.security;

import java.nio.charset.StandardCharsets;
import org.springframework.jdbc.core.simple.JdbcClient;

/** A sent report with words of one's choice in all its forms. */
final class PlantedReport {

  private PlantedReport() {}

  /** Writes it under a key of the test's own, for a customer and October 2026. */
  static void write(JdbcClient jdbc, long id, String customerCode, String words) {
    jdbc.sql(
            """
            INSERT INTO report_issue
              (id, customer_id, month_start, edition, status, language, units, time_zone, subject,
               notable, digest, prepared_at, prepared_by, decided_at, decided_by)
            SELECT CAST(? AS BIGINT), id, DATE '2026-10-01', 1, 'approved', 'en', 'US', 'UTC',
              CAST(? AS VARCHAR), TRUE, ?, CURRENT_TIMESTAMP, 'test', CURRENT_TIMESTAMP, 'test'
            FROM account_customer WHERE code = ?""")
        .params(id, words, "0".repeat(64), customerCode)
        .update();
    jdbc.sql(
            "INSERT INTO report_copy (issue_id, html, plain, pdf, csv, picture) VALUES (?, ?, ?, ?, ?, ?)")
        .params(
            id,
            words,
            words,
            words.getBytes(StandardCharsets.UTF_8),
            words,
            words.getBytes(StandardCharsets.UTF_8))
        .update();
  }
}
