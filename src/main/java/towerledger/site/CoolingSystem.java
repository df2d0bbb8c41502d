package towerledger.site;

import jakarta.persistence.Embedded;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import org.jspecify.annotations.Nullable;

/**
 * The unit of account: the towers or cells that share basin water, makeup, bleed and chemistry,
 * with one makeup balance.
 */
@Entity
@Table(name = "site_system")
public class CoolingSystem {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String code;
  private Long siteId;
  private Long customerId;
  @Embedded private SystemDetails details;
  private boolean ownTower;
  @Version private long version;
  private Instant createdAt;

  @SuppressWarnings("NullAway.Init") // filled by the persistence provider
  protected CoolingSystem() {}

  CoolingSystem(
      String code, Site site, SystemDetails details, boolean ownTower, Instant createdAt) {
    this.code = code;
    this.siteId = site.id();
    this.customerId = site.customerId();
    this.details = details;
    this.ownTower = ownTower;
    this.createdAt = createdAt;
  }

  /** Identity in the database. */
  public long id() {
    return Stored.id(id);
  }

  public String code() {
    return code;
  }

  public long siteId() {
    return siteId;
  }

  public long customerId() {
    return customerId;
  }

  public SystemDetails details() {
    return details;
  }

  /** Whether it came into being with the one tower of the same code. */
  public boolean ownTower() {
    return ownTower;
  }

  /** Counts the changes; an edit names the version it started from. */
  public long version() {
    return version;
  }

  void change(SystemDetails details) {
    this.details = details;
  }
}
