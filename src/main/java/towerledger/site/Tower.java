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

/** One tower (of one or more cells) of a system. */
@Entity
@Table(name = "site_tower")
public class Tower {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private String code;
  private Long systemId;
  @Embedded private Nameplate nameplate;
  @Version private long version;
  private Instant createdAt;

  @SuppressWarnings("NullAway.Init") // filled by the persistence provider
  protected Tower() {}

  Tower(String code, long systemId, Nameplate nameplate, Instant createdAt) {
    this.code = code;
    this.systemId = systemId;
    this.nameplate = nameplate;
    this.createdAt = createdAt;
  }

  /** Identity in the database. */
  public long id() {
    return Stored.id(id);
  }

  public String code() {
    return code;
  }

  public long systemId() {
    return systemId;
  }

  public Nameplate nameplate() {
    return nameplate;
  }

  /** Counts the changes; an edit names the version it started from. */
  public long version() {
    return version;
  }

  void change(Nameplate nameplate) {
    this.nameplate = nameplate;
  }
}
