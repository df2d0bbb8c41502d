package towerledger.site;

import java.time.Clock;
import java.time.LocalDate;
import java.time.YearMonth;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.ChangeHistory;
import towerledger.account.EmptyValues;
import towerledger.account.Outcome;

/**
 * How systems are run, day by day: sets a setting from a day on and reads what was set. Every
 * change goes into the history and is published as {@link FactsChanged} from its month on. Who may
 * see a setting is {@link SiteAccess}'s business, not this class's.
 */
@Service
@Transactional
public class DatedSettings {

  private final SettingRepository settings;
  private final ChangeHistory history;
  private final ApplicationEventPublisher events;
  private final Clock clock;

  DatedSettings(
      SettingRepository settings,
      ChangeHistory history,
      ApplicationEventPublisher events,
      Clock clock) {
    this.settings = settings;
    this.history = history;
    this.events = events;
    this.clock = clock;
  }

  /**
   * Sets a setting from a day on.
   *
   * @param value as returned by {@link SettingName#stored}
   */
  public Outcome put(
      Actor actor,
      CoolingSystem system,
      LocalDate effectiveFrom,
      SettingName name,
      String value,
      @Nullable String reason,
      EmptyValues empty) {
    String thing = system.code() + " " + name.code() + " from " + effectiveFrom;
    var found =
        settings.findBySystemIdAndSettingAndEffectiveFrom(system.id(), name.code(), effectiveFrom);
    Outcome outcome;
    if (found.isEmpty()) {
      settings.save(
          new DatedSetting(system.id(), effectiveFrom, name, value, reason, clock.instant()));
      history.record(
          actor, "added", "setting", thing, system.customerId(), null, told(value, reason));
      outcome = Outcome.ADDED;
    } else {
      DatedSetting setting = found.get();
      String oldReason = setting.reason().orElse(null);
      String newReason = empty == EmptyValues.CLEAR ? reason : Known.or(reason, oldReason);
      if (setting.value().equals(value) && Objects.equals(oldReason, newReason)) {
        return Outcome.UNCHANGED;
      }
      history.record(
          actor,
          "changed",
          "setting",
          thing,
          system.customerId(),
          told(setting.value(), oldReason),
          told(value, newReason));
      setting.change(value, newReason);
      outcome = Outcome.CHANGED;
    }
    events.publishEvent(
        FactsChanged.from(
            system.id(), YearMonth.from(effectiveFrom), "setting " + name.code() + " changed"));
    return outcome;
  }

  private static Map<String, String> told(String value, @Nullable String reason) {
    return reason == null ? Map.of("value", value) : Map.of("value", value, "reason", reason);
  }

  /** Time lines of the settings of many systems at once; a system without any has an empty one. */
  @Transactional(readOnly = true)
  public Map<Long, Settings> list(Collection<Long> systemIds) {
    var bySystem =
        settings.listOf(systemIds).stream().collect(Collectors.groupingBy(DatedSetting::systemId));
    var result = new HashMap<Long, Settings>();
    for (long systemId : systemIds) {
      result.put(systemId, new Settings(bySystem.getOrDefault(systemId, List.of())));
    }
    return result;
  }
}
