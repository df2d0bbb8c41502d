package towerledger.simulation.demo;

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
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;

/** The hospital: two plants on one campus. */
final class HospitalPlants {

  private final DemoHours hours;

  HospitalPlants(DemoHours hours) {
    this.hours = hours;
  }

  DemoSystem medicalMain() {
    String site = "MMC-CAMPUS";
    return new DemoSystem(
        "MMC-MAIN",
        site,
        "Central plant",
        false,
        new PlantSpec(
            "MMC-MAIN",
            rating(Kind.OPEN, 1500, 1.15, 0.62, 95, 83, 73, 108, 76, false, 0.002),
            new LoadPattern(0.78, 0.30, 11, 42, Use.HOSPITAL, true, 0.62),
            new PlantSpec.Water(720, 0.10, 0.16, 0.34, 58, 6, Double.NaN),
            new PlantSpec.Basin(58_000, 11_000, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 3.8, 2740, 22_000),
            new PlantSpec.FillValve("conductance-probes", 3, 95, true)),
        List.of(
            tower(
                "MMC-T1",
                "Tower 1",
                1,
                "crossflow",
                500,
                true,
                40,
                "variable-speed",
                3400,
                false,
                2014),
            tower(
                "MMC-T2",
                "Tower 2",
                1,
                "crossflow",
                500,
                true,
                40,
                "variable-speed",
                3400,
                false,
                2014),
            tower(
                "MMC-T3",
                "Tower 3",
                1,
                "crossflow",
                500,
                true,
                40,
                "variable-speed",
                3400,
                false,
                2019)),
        told("electric-chiller", false, "hospital", null, null, "Mon-Sun", null, null, false, true),
        evidence(
            HeatEvidence.DAILY_TON_HOURS,
            1.022,
            0.03,
            7,
            0.06,
            meter("gal", 100, 6, 0, 1.5, 3, "turbine", 0.996, -0.004, 988_123, -1),
            true,
            7,
            false,
            28,
            14,
            hours.interval(site, LocalDate.of(2025, 11, 1), DemoBook.TO, 60)),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-24", "2026-04-10", 0.55),
        List.of());
  }

  DemoSystem medicalLaboratory() {
    String site = "MMC-CAMPUS";
    return new DemoSystem(
        "MMC-LAB",
        site,
        "Diagnostics annex",
        false,
        new PlantSpec(
            "MMC-LAB",
            rating(Kind.OPEN, 150, 1.3, 0.58, 95, 84, 73, 108, 77, false, 0.005),
            new LoadPattern(0.70, 0.34, 12, 42, Use.LABORATORY, true, 0.74),
            new PlantSpec.Water(735, 0.10, 0.16, 0.34, 61, 7, 48),
            new PlantSpec.Basin(6_200, 1_300, 0, 0),
            new PlantSpec.Bleed(BleedMode.CONDUCTIVITY, 3.5, 2560, 2_600),
            new PlantSpec.FillValve("mechanical-float", 1, 9.5, false)),
        List.of(
            tower(
                "MMC-T5",
                "Annex tower",
                1,
                "counterflow",
                150,
                false,
                10,
                "single-speed",
                620,
                false,
                2017)),
        told(
            "electric-chiller",
            false,
            "laboratory",
            "06:00",
            "19:00",
            "Mon-Sun",
            null,
            50.0,
            false,
            true),
        evidence(
            HeatEvidence.MONTHLY_CHILLER_KWH,
            0.95,
            0.03,
            7,
            0.08,
            meter("gal", 10, 7, 0, 1.5, 1, "displacement", 0.998, -0.003, 412_330, -1),
            false,
            7,
            false,
            28,
            28,
            hours.interval(site, LocalDate.of(2026, 2, 1), DemoBook.TO, 60)),
        nuisances(List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-31", "2026-04-17", 0.9),
        List.of());
  }
}
