package towerledger.site;

import jakarta.persistence.Embedded;
import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A water meter of a system, or a site's service meter. */
@Entity
@Table(name = "site_meter")
public class Meter {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String code;
  private Long siteId;
  private @Nullable Long systemId;
  @Embedded private MeterDetails details;
  @Version private long version;
  private Instant createdAt;

  @SuppressWarnings("NullAway.Init") // filled by the persistence provider
  protected Meter() {}

  Meter(
      String code, long siteId, @Nullable Long systemId, MeterDetails details, Instant createdAt) {
    this.code = code;
    this.siteId = siteId;
    this.systemId = systemId;
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

  public long siteId() {
    return siteId;
  }

  /** The system it serves; empty for a site's service meter. */
  public Optional<Long> systemId() {
    return Optional.ofNullable(systemId);
  }

  public MeterDetails details() {
    return details;
  }

  /** Counts the changes; an edit names the version it started from. */
  public long version() {
    return version;
  }

  void change(MeterDetails details) {
    this.details = details;
  }
}
