package towerledger.simulation.demo;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import towerledger.simulation.Chance;
import towerledger.simulation.HourGrid;
import towerledger.simulation.LocalHours;
import towerledger.simulation.SimulatedWeather;

/**
 * Generates the demo scenario. The same seed gives the same bytes; a test holds the committed files
 * against a fresh run, and writes them anew when told to.
 */
public final class DemoBundle {

  private static final long SEED = 20_250_501L;

  private final Map<String, DemoSite> sites = new LinkedHashMap<>();
  private final Map<String, SimulatedWeather> stations = new LinkedHashMap<>();
  private final List<DemoRun> runs;

  private DemoBundle() {
    Chance book = new Chance(SEED);
    Map<String, HourGrid> grids = new HashMap<>();
    for (DemoSite site : DemoBook.sites()) {
      sites.put(site.code(), site);
      HourGrid grid = HourGrid.of(DemoBook.FROM, DemoBook.TO, DemoBook.RUN_IN_DAYS, site.zone());
      grids.put(site.code(), grid);
      stations.computeIfAbsent(
          site.station(),
          code ->
              SimulatedWeather.of(
                  site.climate(),
                  site.elevationFt() * 0.3048,
                  new LocalHours(grid, site.zone()),
                  book.branch("weather " + code)));
    }
    runs =
        new DemoPlants(grids, sites)
            .all().stream()
                .map(
                    system -> {
                      DemoSite site = site(system.site());
                      return DemoRun.of(system, site, weather(site), book);
                    })
                .toList();
  }

  /** Simulates the whole book. */
  public static DemoBundle simulate() {
    return new DemoBundle();
  }

  /** The systems lived through, in the order of the book. */
  public List<DemoRun> runs() {
    return runs;
  }

  DemoSite site(String code) {
    DemoSite site = sites.get(code);
    if (site == null) {
      throw new IllegalArgumentException("no site " + code + " in the book");
    }
    return site;
  }

  SimulatedWeather weather(DemoSite site) {
    SimulatedWeather weather = stations.get(site.station());
    if (weather == null) {
      throw new IllegalArgumentException("no station " + site.station() + " in the book");
    }
    return weather;
  }

  Map<String, SimulatedWeather> stations() {
    return stations;
  }

  /** Writes every file of the bundle into a folder. */
  public void write(Path folder) {
    try {
      Files.createDirectories(folder);
    } catch (IOException e) {
      throw new IllegalStateException("cannot create " + folder, e);
    }
    CsvFolder csv = new CsvFolder(folder);
    new BookFiles(this, csv).write();
    new LogFiles(this, csv).write();
    new BillFiles(this, csv).write();
  }
}
