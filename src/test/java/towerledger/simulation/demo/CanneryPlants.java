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
import towerledger.simulation.Nuisances.Drain;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;
import towerledger.simulation.demo.DemoSystem.Dated;

/** The cannery: process, refrigeration and compressed air. */
final class CanneryPlants {

  private final DemoHours hours;

  CanneryPlants(DemoHours hours) {
    this.hours = hours;
  }

  DemoSystem processCooler() {
    String site = "VOF-PLANT";
    return new DemoSystem(
        "VOF-PROC",
        site,
        "Canning line cooler",
        false,
        new PlantSpec(
            "VOF-PROC",
            rating(Kind.CLOSED_CIRCUIT, 220, 1.3, 0.6, 98, 88, 80, 93, 84, false, 0.003),
            new LoadPattern(0.72, 0.80, 15, 38, Use.THREE_SHIFTS, false, 0.6),
            new PlantSpec.Water(445, 0.12, 0.13, 0.30, 64, 7, 45),
            new PlantSpec.Basin(5_400, 1_200, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 4.5, 2000, 2_600),
            new PlantSpec.FillValve("float-switch", 1, 12, true)),
        List.of(
            tower(
                "VOF-C1",
                "Line cooler",
                1,
                "counterflow",
                220,
                false,
                20,
                "variable-speed",
                700,
                true,
                2020)),
        told(
            "process",
            null,
            "industrial",
            null,
            null,
            "Mon-Sun",
            null,
            null,
            false,
            true,
            "closed-circuit"),
        evidence(
            HeatEvidence.DAILY_HEAT,
            1.015,
            0.03,
            7,
            0.05,
            meter(
                "ft3",
                1,
                7,
                0,
                1.5,
                1,
                "displacement",
                0.997,
                -0.003,
                402_118,
                hours.hour(site, "2025-12-05", 10)),
            false,
            7,
            false,
            56,
            28,
            hours.interval(site, LocalDate.of(2026, 8, 1), DemoBook.TO, 60)),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        List.of(
            clean("2025-09-26", 0.95),
            new Dated(
                LocalDate.of(2025, 12, 5),
                List.of("meter-replaced"),
                null,
                "Makeup meter glass fogged over, plant asked for a new one.",
                "Makeup meter exchanged, registers of the old and the new one noted."),
            clean("2026-05-29", 0.95)),
        List.of());
  }

  DemoSystem refrigeration() {
    String site = "VOF-PLANT";
    return new DemoSystem(
        "VOF-REFR",
        site,
        "Cold store condensers",
        false,
        new PlantSpec(
            "VOF-REFR",
            rating(Kind.OPEN, 300, 1.15, 0.65, 97, 87, 80, 93, 80, false, 0.004),
            new LoadPattern(0.80, 0.55, 10, 35, Use.TWO_SHIFTS, true, 0.95),
            new PlantSpec.Water(440, 0.12, 0.13, 0.30, 63, 7, 46),
            new PlantSpec.Basin(11_000, 2_300, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 4.8, 2110, 3_600),
            new PlantSpec.FillValve("float-switch", 1.5, 24, true)),
        List.of(
            tower(
                "VOF-T1",
                "Cold store tower",
                1,
                "counterflow",
                300,
                true,
                25,
                "variable-speed",
                1500,
                false,
                2016)),
        told(
            "refrigeration",
            false,
            "industrial",
            "06:00",
            "22:00",
            "Mon-Sat",
            null,
            60.0,
            false,
            true),
        evidence(
            HeatEvidence.WEEKLY_TON_HOURS,
            0.96,
            0.03,
            7,
            0.05,
            meter("gal", 10, 7, 0, 1.5, 1.5, "turbine", 1.001, -0.003, 3_118_400, -1),
            true,
            7,
            false,
            28,
            28,
            null),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-09-19", "2026-03-27", 0.9),
        List.of());
  }

  DemoSystem compressedAir() {
    String site = "VOF-PLANT";
    return new DemoSystem(
        "VOF-AIR",
        site,
        "Compressor house",
        false,
        new PlantSpec(
            "VOF-AIR",
            rating(Kind.OPEN, 120, 1.4, 0.55, 97, 87, 80, 93, 82, false, 0.01),
            new LoadPattern(0.62, 0.86, 15, 35, Use.TWO_SHIFTS, false, 0.6),
            new PlantSpec.Water(440, 0.12, 0.13, 0.30, 62, 7, 48),
            new PlantSpec.Basin(4_600, 1_000, 0, 0),
            new PlantSpec.Bleed(BleedMode.TIMER, 3.5, 1540, 1_600),
            new PlantSpec.FillValve("mechanical-float", 1, 9.5, false)),
        List.of(
            tower(
                "VOF-T2",
                "Compressor tower",
                1,
                "crossflow",
                120,
                false,
                7.5,
                "single-speed",
                560,
                false,
                2005)),
        told("process", null, "industrial", "06:00", "22:00", "Mon-Sat", null, 50.0, false, false),
        evidence(
            HeatEvidence.NONE,
            1,
            0,
            14,
            0.1,
            meter("gal", 10, 6, 0, 2.0, 1, "displacement", 0.99, -0.006, 771_204, -1),
            false,
            14,
            false,
            56,
            28,
            null),
        nuisances(
            List.of(),
            List.of(new Drain(hours.hour(site, "2026-06-14", 9), 0.9, false)),
            List.of(),
            List.of()),
        cleanings("2025-10-03", "2026-04-24", 0.9),
        List.of());
  }
}
