package towerledger.balance.facts;

import java.time.ZoneId;
import java.util.Comparator;
import java.util.List;

/**
 * Everything known about one system: one cooling-water loop with one makeup balance. The order of
 * any list means nothing; lists are sorted by time here so that equal facts give equal figures.
 *
 * @param system code of the system
 * @param zone time zone of the site; calendar months are taken in it
 * @param attributes kind, volume, heat source and schedule
 * @param towers the towers or cells that share the basin water; at least one
 * @param settings settings with the instant from which each set holds; may be empty
 * @param weather hours of the station that speaks for the site
 * @param heat evidence of the heat load; spans may differ in length and leave gaps
 * @param meters meters of the system, whatever their role
 * @param samples water analyses
 * @param pressures supply pressure readings
 * @param visits what was seen and done on site
 */
public record SystemFacts(
    String system,
    ZoneId zone,
    SystemAttributes attributes,
    List<TowerFacts> towers,
    List<OperatingSettings> settings,
    WeatherHours weather,
    List<HeatEvidence> heat,
    List<MeterFacts> meters,
    List<WaterSample> samples,
    List<SupplyPressure> pressures,
    List<Visit> visits) {

  public SystemFacts {
    if (towers.isEmpty()) {
      throw new IllegalArgumentException(
          "system %s has no tower; name at least one with its nominal tons".formatted(system));
    }
    towers = sorted(towers, Comparator.comparing(TowerFacts::tower));
    settings = sorted(settings, Comparator.comparing(OperatingSettings::effectiveFrom));
    heat =
        sorted(
            heat,
            Comparator.comparing((HeatEvidence h) -> h.span().startInclusive())
                .thenComparing(h -> h.span().endExclusive())
                .thenComparing(h -> h.getClass().getSimpleName()));
    meters = sorted(meters, Comparator.comparing(MeterFacts::meter));
    samples = sorted(samples, Comparator.comparing(WaterSample::takenAt));
    pressures = sorted(pressures, Comparator.comparing(SupplyPressure::takenAt));
    visits = sorted(visits, Comparator.comparing(Visit::at));
  }

  private static <T> List<T> sorted(List<T> list, Comparator<? super T> order) {
    return list.stream().sorted(order).toList();
  }
}
