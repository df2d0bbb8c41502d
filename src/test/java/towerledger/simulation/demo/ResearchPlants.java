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
import towerledger.simulation.Nuisances.SetpointChange;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;
import towerledger.simulation.demo.DemoSystem.Change;
import towerledger.simulation.demo.DemoSystem.Dated;

/** The research company: desert hall, laboratories, annex, two halls of computers. */
final class ResearchPlants {

  private final DemoHours hours;

  ResearchPlants(DemoHours hours) {
    this.hours = hours;
  }

  DemoSystem desertHall() {
    String site = "NLR-MESA";
    return new DemoSystem(
        "NLR-MESA",
        site,
        "Mesa hall loop",
        false,
        new PlantSpec(
            "NLR-MESA",
            rating(Kind.OPEN, 700, 1.05, 0.6, 93, 82, 73, 108, 74, false, 0.001),
            new LoadPattern(0.66, 0.82, 14, 42, Use.DATA_CENTER, true, 0.55),
            new PlantSpec.Water(705, 0.10, 0.16, 0.34, 66, 8, 52),
            new PlantSpec.Basin(27_000, 5_000, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 4.2, 2960, 9_000),
            new PlantSpec.FillValve("ultrasonic", 2, 44, true)),
        List.of(
            tower(
                "NLR-T7",
                "Mesa cells A and B",
                2,
                "counterflow",
                700,
                true,
                60,
                "variable-speed",
                4100,
                false,
                2021)),
        told(
            "electric-chiller",
            false,
            "data-center",
            null,
            null,
            "Mon-Sun",
            null,
            null,
            false,
            true),
        evidence(
            HeatEvidence.HOURLY_TEMPERATURES,
            0.985,
            0.02,
            7,
            0.03,
            meter("kgal", 1, 6, 2, 1.0, 2, "magnetic", 1.003, 0, 10_442.31, -1),
            true,
            7,
            false,
            56,
            28,
            null),
        nuisances(List.of(hours.step(site, "2026-01-12", 1.14)), List.of(), List.of(), List.of()),
        cleanings("2025-11-14", "2026-05-08", 0.4),
        List.of());
  }

  DemoSystem laboratories() {
    String site = "NLR-LAB";
    return new DemoSystem(
        "NLR-LAB",
        site,
        "Laboratory block",
        false,
        new PlantSpec(
            "NLR-LAB",
            rating(Kind.OPEN, 450, 1.1, 0.6, 93, 83, 75, 88, 73, true, 0.002),
            new LoadPattern(0.74, 0.36, 6, 32, Use.LABORATORY, true, 0.6),
            new PlantSpec.Water(385, 0.09, 0.08, 0.52, 60, 7, 50),
            new PlantSpec.Basin(17_000, 3_300, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 4.5, 1730, 5_000),
            new PlantSpec.FillValve("pressure-transducer", 2, 40, false)),
        List.of(
            tower(
                "NLR-T1",
                "Laboratory tower",
                2,
                "counterflow",
                450,
                true,
                40,
                "variable-speed",
                2300,
                true,
                2018)),
        told(
            "electric-chiller",
            true,
            "laboratory",
            "07:00",
            "19:00",
            "Mon-Sun",
            null,
            60.0,
            true,
            true),
        evidence(
            HeatEvidence.DAILY_TON_HOURS,
            1.03,
            0.03,
            7,
            0.05,
            meter("m3", 1, 6, 1, 1.0, 2, "magnetic", 1.001, 0, 38_210.4, -1),
            false,
            7,
            false,
            56,
            28,
            null),
        nuisances(
            List.of(),
            List.of(),
            List.of(new SetpointChange(hours.hour(site, "2026-03-13", 10), 1.1, true)),
            List.of()),
        List.of(
            clean("2025-10-17", 0.5),
            new Dated(
                LocalDate.of(2026, 3, 13),
                List.of("setpoint-changed"),
                null,
                "Scale coupons clean for a year.",
                "Bleed set-point raised with the treatment vendor's written consent.")),
        List.of(
            new Change(
                LocalDate.of(2026, 3, 13),
                "conductivity_setpoint_us_cm",
                "1903",
                "vendor's letter of 9 March"),
            new Change(
                LocalDate.of(2026, 3, 13), "target_cycles", "4.95", "vendor's letter of 9 March")));
  }

  DemoSystem annex() {
    String site = "NLR-LAB";
    return new DemoSystem(
        "NLR-ANNEX",
        site,
        "Cleanroom annex",
        false,
        new PlantSpec(
            "NLR-ANNEX",
            rating(Kind.OPEN, 250, 1.25, 0.6, 95, 85, 75, 88, 75, false, 0.005),
            new LoadPattern(0.72, 0.55, 5, 32, Use.LABORATORY, true, 0.66),
            new PlantSpec.Water(380, 0.09, 0.08, 0.52, 58, 6, 48),
            new PlantSpec.Basin(9_400, 1_900, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 3.4, 1290, 4_500),
            new PlantSpec.FillValve("mechanical-float", 1.5, 20, false)),
        List.of(
            tower(
                "NLR-T2",
                "Annex tower",
                1,
                "counterflow",
                250,
                false,
                20,
                "variable-speed",
                1250,
                true,
                2015)),
        told(
            "electric-chiller",
            false,
            "laboratory",
            null,
            null,
            "Mon-Sun",
            null,
            50.0,
            false,
            true),
        evidence(
            HeatEvidence.WEEKLY_TON_HOURS,
            1.04,
            0.03,
            7,
            0.05,
            meter("gal", 10, 7, 0, 1.5, 1.5, "turbine", 0.998, -0.003, 6_002_510, -1),
            false,
            7,
            false,
            28,
            28,
            null),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-10", "2026-05-15", 0.9),
        List.of());
  }

  DemoSystem hallA() {
    String site = "NLR-HALL";
    return new DemoSystem(
        "NLR-HALL-A",
        site,
        "Computing hall, loop A",
        false,
        new PlantSpec(
            "NLR-HALL-A",
            rating(Kind.OPEN, 1200, 1.0, 0.6, 92, 82, 75, 88, 70, false, 0.001),
            new LoadPattern(0.58, 0.9, 10, 32, Use.DATA_CENTER, false, 0.6),
            new PlantSpec.Water(390, 0.09, 0.08, 0.52, 68, 8, 55),
            new PlantSpec.Basin(46_000, 9_000, 0, 0),
            new PlantSpec.Bleed(BleedMode.MAKEUP_PROPORTIONAL, 5.0, 1950, 14_000),
            new PlantSpec.FillValve("ultrasonic", 3, 100, true)),
        List.of(
            tower(
                "NLR-T4",
                "Hall tower, four cells",
                4,
                "counterflow",
                1200,
                true,
                120,
                "variable-speed",
                6200,
                true,
                2022)),
        told("other", false, "data-center", null, null, "Mon-Sun", null, null, false, true),
        evidence(
            HeatEvidence.DAILY_HEAT,
            1.01,
            0.025,
            7,
            0.03,
            meter("gal", 100, 7, 0, 1.0, 3, "magnetic", 0.999, 0, 512_904, -1),
            true,
            7,
            false,
            56,
            28,
            hours.interval(site, LocalDate.of(2026, 9, 1), DemoBook.TO, 15)),
        nuisances(List.of(hours.step(site, "2026-02-02", 1.16)), List.of(), List.of(), List.of()),
        cleanings("2025-10-24", "2026-05-22", 0.3),
        List.of());
  }

  DemoSystem hallB() {
    String site = "NLR-HALL";
    return new DemoSystem(
        "NLR-HALL-B",
        site,
        "Computing hall, loop B",
        false,
        new PlantSpec(
            "NLR-HALL-B",
            rating(Kind.OPEN, 400, 1.2, 0.6, 95, 85, 75, 88, 74, false, 0.005),
            new LoadPattern(0.55, 0.85, 10, 32, Use.DATA_CENTER, true, 0.6),
            new PlantSpec.Water(390, 0.09, 0.08, 0.52, 68, 8, 55),
            new PlantSpec.Basin(15_500, 3_000, 0, 0),
            new PlantSpec.Bleed(BleedMode.TIMER, 4.0, 1560, 5_000),
            new PlantSpec.FillValve("mechanical-float", 2, 34, false)),
        List.of(
            tower(
                "NLR-T5",
                "Loop B tower",
                1,
                "crossflow",
                400,
                true,
                30,
                "variable-speed",
                1900,
                true,
                2010)),
        told(
            "electric-chiller",
            false,
            "data-center",
            null,
            null,
            "Mon-Sun",
            null,
            60.0,
            false,
            true),
        evidence(
            HeatEvidence.MONTHLY_CHILLER_KWH,
            0.97,
            0.03,
            7,
            0.05,
            null,
            false,
            14,
            false,
            56,
            28,
            null),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-31", "2026-05-29", 0.9),
        List.of());
  }
}
