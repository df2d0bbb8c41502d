package towerledger.simulation.demo;

import java.time.LocalDateTime;
import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import towerledger.simulation.Fault;
import towerledger.simulation.HourGrid;
import towerledger.simulation.PlantedCause;

/** The truth behind the demo: what is wrong where, from when to when. Tests alone read it. */
public final class DemoStories {

  /** A fault in local time of the site; size as {@link Fault} says. */
  public record Story(
      String system, PlantedCause cause, LocalDateTime from, LocalDateTime to, double size) {}

  private static final LocalDateTime STILL = LocalDateTime.of(2027, 1, 1, 0, 0);

  private static final Map<String, Story> STORIES =
      Map.of(
          "LBH-HARBOR",
          new Story(
              "LBH-HARBOR",
              PlantedCause.FILL_VALVE_LEAKING_BY,
              LocalDateTime.of(2026, 3, 4, 2, 0),
              STILL,
              950),
          "ALD-HIGH",
          new Story(
              "ALD-HIGH",
              PlantedCause.FILL_VALVE_STUCK_OPEN,
              LocalDateTime.of(2026, 10, 6, 15, 0),
              LocalDateTime.of(2026, 10, 15, 14, 0),
              1),
          "VOF-REFR",
          new Story(
              "VOF-REFR",
              PlantedCause.BLOWDOWN_STUCK_OPEN,
              LocalDateTime.of(2026, 6, 12, 20, 0),
              STILL,
              620),
          "MMC-LAB",
          new Story(
              "MMC-LAB",
              PlantedCause.MAKEUP_LINE_LEAK,
              LocalDateTime.of(2026, 5, 19, 4, 0),
              STILL,
              240),
          "NLR-ANNEX",
          new Story(
              "NLR-ANNEX",
              PlantedCause.CONDUCTIVITY_ERROR,
              LocalDateTime.of(2026, 2, 9, 0, 0),
              STILL,
              0.66),
          "LBH-PIER",
          new Story(
              "LBH-PIER",
              PlantedCause.LEVEL_SET_HIGH,
              LocalDateTime.of(2025, 9, 23, 11, 0),
              LocalDateTime.of(2026, 4, 17, 10, 0),
              450));

  private DemoStories() {}

  /** Systems with a story, with it. */
  public static Map<String, Story> all() {
    return STORIES;
  }

  static List<Fault> faultsOf(String system, HourGrid grid, ZoneId zone) {
    Story story = STORIES.get(system);
    if (story == null) {
      return List.of();
    }
    return List.of(
        new Fault(
            story.cause(),
            grid.indexOf(story.from().atZone(zone).toInstant()),
            grid.indexOf(story.to().atZone(zone).toInstant()),
            story.size()));
  }
}
