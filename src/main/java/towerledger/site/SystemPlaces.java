package towerledger.site;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;
import towerledger.query.Question;

/**
 * One system with all that stands at it, in few statements. Who may see it is {@link SiteAccess}'s
 * business.
 */
@Service
@Transactional(readOnly = true)
public class SystemPlaces {

  private final SystemRepository systems;
  private final MeterRepository meters;
  private final Sites sites;

  SystemPlaces(SystemRepository systems, MeterRepository meters, Sites sites) {
    this.systems = systems;
    this.meters = meters;
    this.sites = sites;
  }

  /**
   * The system with its own or a tower's code, its site and its towers: one statement where the
   * code is its own.
   */
  Optional<SystemAtSite> find(String code) {
    List<TowerAtSite> found = systems.findAtSite(code);
    if (found.isEmpty()) {
      return sites.findSystem(code).flatMap(system -> find(system.code()));
    }
    return Optional.of(
        new SystemAtSite(
            found.get(0).system(),
            found.get(0).site(),
            found.stream().map(TowerAtSite::tower).flatMap(Stream::ofNullable).toList()));
  }

  /** Meters of a system, by code. */
  public List<Meter> listMeters(CoolingSystem system) {
    return meters.findBySystemIdOrderByCode(system.id());
  }

  /** The time line of a system's settings, as a question. */
  public static Question<Settings> settings(CoolingSystem system) {
    return Question.rows(
            """
            SELECT effective_from, setting, setting_value, reason, created_at FROM site_setting
            WHERE system_id = ? ORDER BY effective_from""",
            List.of(system.id()),
            (row, number) ->
                new DatedSetting(
                    system.id(),
                    row.getObject(1, LocalDate.class),
                    SettingName.find(row.getString(2)).orElseThrow(),
                    row.getString(3),
                    row.getString(4),
                    row.getObject(5, OffsetDateTime.class).toInstant()))
        .then(Settings::new);
  }
}
