package towerledger.simulation.demo;

import static towerledger.simulation.demo.DemoParts.clean;
import static towerledger.simulation.demo.DemoParts.cleanings;
import static towerledger.simulation.demo.DemoParts.evidence;
import static towerledger.simulation.demo.DemoParts.meter;
import static towerledger.simulation.demo.DemoParts.nuisances;
import static towerledger.simulation.demo.DemoParts.rating;
import static towerledger.simulation.demo.DemoParts.told;
import static towerledger.simulation.demo.DemoParts.tower;

import java.time.LocalDate;
import java.util.List;
import towerledger.simulation.EvidencePlan.HeatEvidence;
import towerledger.simulation.LoadPattern;
import towerledger.simulation.LoadPattern.Use;
import towerledger.simulation.Nuisances.PressureStep;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;
import towerledger.simulation.demo.DemoSystem.Dated;

/** The hotel by the harbor and its pavilion. */
final class HotelPlants {

  private final DemoHours hours;

  HotelPlants(DemoHours hours) {
    this.hours = hours;
  }

  DemoSystem harborHouse() {
    String site = "LBH-HARBOR";
    return new DemoSystem(
        "LBH-HARBOR",
        site,
        "Harbor House cooling water",
        false,
        new PlantSpec(
            "LBH-HARBOR",
            rating(Kind.OPEN, 350, 1.2, 0.6, 97, 87, 80, 93, 78, false, 0.005),
            new LoadPattern(0.72, 0.24, 12, 35, Use.HOTEL, true, 0.68),
            new PlantSpec.Water(430, 0.12, 0.13, 0.30, 47, 5, Double.NaN),
            new PlantSpec.Basin(13_500, 2_600, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 5.0, 2150, 4_000),
            new PlantSpec.FillValve("mechanical-float", 1.5, 22, false)),
        List.of(
            tower(
                "LBH-T1",
                "Roof tower",
                1,
                "crossflow",
                350,
                true,
                25,
                "two-speed",
                1750,
                false,
                2011)),
        told("electric-chiller", false, "hotel", null, null, "Mon-Sun", null, 50.0, false, true),
        evidence(
            HeatEvidence.MONTHLY_CHILLER_KWH,
            1.06,
            0.03,
            7,
            0.08,
            meter("gal", 10, 7, 0, 1.5, 1.5, "displacement", 0.995, -0.004, 8_221_940, -1),
            false,
            7,
            false,
            14,
            28,
            hours.interval(site, LocalDate.of(2026, 1, 1), DemoBook.TO, 60)),
        nuisances(
            List.of(),
            List.of(),
            List.of(),
            List.of(new PressureStep(hours.hour(site, "2026-03-04", 2), 27))),
        cleanings("2025-11-07", "2026-03-20", 0.9),
        List.of());
  }

  DemoSystem pierPavilion() {
    String site = "LBH-PIER";
    return new DemoSystem(
        "LBH-PIER",
        site,
        "Pier Pavilion cooling water",
        false,
        new PlantSpec(
            "LBH-PIER",
            rating(Kind.OPEN, 500, 1.25, 0.6, 97, 87, 80, 93, 79, false, 0.005),
            new LoadPattern(0.74, 0.26, 12, 35, Use.HOTEL, true, 0.66),
            new PlantSpec.Water(425, 0.12, 0.13, 0.30, 52, 6, Double.NaN),
            new PlantSpec.Basin(19_500, 3_600, 0, 0),
            new PlantSpec.Bleed(BleedMode.MAKEUP_PROPORTIONAL, 4.2, 1785, 6_500),
            new PlantSpec.FillValve("mechanical-float", 2, 38, false)),
        List.of(
            tower(
                "LBH-T2",
                "Pavilion tower",
                2,
                "crossflow",
                500,
                false,
                40,
                "two-speed",
                2400,
                false,
                2008)),
        told("electric-chiller", false, "hotel", null, null, "Mon-Sun", null, 60.0, false, true),
        evidence(
            HeatEvidence.DAILY_CHILLER_KWH,
            0.94,
            0.04,
            7,
            0.08,
            meter("gal", 10, 8, 0, 1.5, 2, "turbine", 1.002, -0.005, 21_530_870, -1),
            false,
            7,
            false,
            28,
            28,
            null),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        List.of(
            clean("2025-05-16", 0.9),
            new Dated(
                LocalDate.of(2026, 4, 17),
                List.of("level-control-adjusted", "basin-drained"),
                0.9,
                "Spring clean. Water standing at the lip of the overflow with the pumps on.",
                "Basin emptied and washed. Float arm lowered two inches, level checked through a stop and a start.")),
        List.of());
  }
}
