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

/** A customer's place with its own utility account, weather and calendar. */
@Entity
@Table(name = "site_site")
public class Site {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String code;
  private Long customerId;
  @Embedded private SiteDetails details;
  @Version private long version;
  private Instant createdAt;

  @SuppressWarnings("NullAway.Init") // filled by the persistence provider
  protected Site() {}

  Site(String code, long customerId, SiteDetails details, Instant createdAt) {
    this.code = code;
    this.customerId = customerId;
    this.details = details;
    this.createdAt = createdAt;
  }

  /** Identity in the database. */
  public long id() {
    return Stored.id(id);
  }

  public String code() {
    return code;
  }

  public long customerId() {
    return customerId;
  }

  public SiteDetails details() {
    return details;
  }

  /** Counts the changes; an edit names the version it started from. */
  public long version() {
    return version;
  }

  void change(SiteDetails details) {
    this.details = details;
  }
}
