package towerledger.site;

import jakarta.persistence.Entity;
import jakarta.persistence.GeneratedValue;
import jakarta.persistence.GenerationType;
import jakarta.persistence.Id;
import jakarta.persistence.Table;
import jakarta.persistence.Version;
import java.time.Instant;
import java.time.LocalDate;
import java.util.Optional;
import org.jspecify.annotations.Nullable;

/** A setting of a system, in force from its date until the next of the same name. */
@Entity
@Table(name = "site_setting")
public class DatedSetting {

  @Id
  @GeneratedValue(strategy = GenerationType.IDENTITY)
  private @Nullable Long id;

  private Long systemId;
  private LocalDate effectiveFrom;
  private String setting;
  private String settingValue;
  private @Nullable String reason;
  @Version private long version;
  private Instant createdAt;

  @SuppressWarnings("NullAway.Init") // filled by the persistence provider
  protected DatedSetting() {}

  DatedSetting(
      long systemId,
      LocalDate effectiveFrom,
      SettingName name,
      String value,
      @Nullable String reason,
      Instant createdAt) {
    this.systemId = systemId;
    this.effectiveFrom = effectiveFrom;
    this.setting = name.code();
    this.settingValue = value;
    this.reason = reason;
    this.createdAt = createdAt;
  }

  public long systemId() {
    return systemId;
  }

  public LocalDate effectiveFrom() {
    return effectiveFrom;
  }

  public SettingName name() {
    return SettingName.find(setting).orElseThrow();
  }

  /** The stored text: SI number, code, or true/false. */
  public String value() {
    return settingValue;
  }

  public Optional<String> reason() {
    return Optional.ofNullable(reason);
  }

  void change(String value, @Nullable String reason) {
    this.settingValue = value;
    this.reason = reason;
  }
}
