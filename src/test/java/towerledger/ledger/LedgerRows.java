package towerledger.ledger;

import java.math.BigDecimal;
import java.time.YearMonth;
import java.util.Currency;
import java.util.List;
import org.springframework.jdbc.core.simple.JdbcClient;
import towerledger.account.Actor;
import towerledger.account.EmptyValues;
import towerledger.balance.Cause;
import towerledger.balance.EvidenceGrade;
import towerledger.site.CoolingSystem;
import towerledger.site.Nameplate;
import towerledger.site.SiteDetails;
import towerledger.site.Sites;
import towerledger.site.SystemDetails;

/** A tower of its own and rows for it that differ only in what a test is about. */
final class LedgerRows {

  static final Actor ACTOR = Actor.system("test");

  private LedgerRows() {}

  static CoolingSystem tower(JdbcClient jdbc, Sites sites, String prefix, String zone) {
    String customerCode = prefix + "-c";
    jdbc.sql(
            """
            INSERT INTO account_customer (code, name, created_at)
            SELECT :code, 'A customer', CURRENT_TIMESTAMP WHERE NOT EXISTS
              (SELECT 1 FROM account_customer WHERE code = :code)""")
        .param("code", customerCode)
        .update();
    long customer =
        jdbc.sql("SELECT id FROM account_customer WHERE code = :code")
            .param("code", customerCode)
            .query(Long.class)
            .single();
    sites.putSite(
        ACTOR,
        prefix + "-s",
        customer,
        new SiteDetails("A site", zone, null, null, null, null, null, null, null),
        EmptyValues.KEEP);
    sites.putTower(
        ACTOR,
        prefix + "-t",
        prefix + "-s",
        null,
        new Nameplate(
            "A tower", null, null, 440.0, null, null, null, null, null, null, null, null, null,
            null, null),
        SystemDetails.named("A tower"),
        EmptyValues.KEEP);
    return sites.getSystem(prefix + "-t");
  }

  /** A sound month that took in some water. */
  static NewRevision row(
      CoolingSystem system,
      YearMonth month,
      LedgerStatus status,
      String facts,
      String model,
      double makeupLitres) {
    return new NewRevision(
        system.customerId(),
        system.siteId(),
        system.id(),
        month,
        status,
        model,
        NewRevision.sha256(facts.getBytes(java.nio.charset.StandardCharsets.UTF_8)),
        EvidenceGrade.B,
        new LedgerWater(
            makeupLitres,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null,
            null),
        new LedgerVerdict(false, false, Cause.NONE, 0.9, null, null, List.of(Cause.NONE), null),
        new LedgerMoney(
            Currency.getInstance("USD"),
            BigDecimal.ZERO,
            BigDecimal.ZERO,
            BigDecimal.ZERO,
            null,
            null,
            null),
        new MonthWorking(
            List.of(), List.of(), List.of(), List.of(), List.of(), null, null, null, List.of(),
            null));
  }
}
