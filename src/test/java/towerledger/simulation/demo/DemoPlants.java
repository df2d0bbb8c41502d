package towerledger.simulation.demo;

import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import towerledger.simulation.EvidencePlan;
import towerledger.simulation.EvidencePlan.HeatEvidence;
import towerledger.simulation.EvidencePlan.IntervalPlan;
import towerledger.simulation.EvidencePlan.MeterPlan;
import towerledger.simulation.HourGrid;
import towerledger.simulation.LoadPattern;
import towerledger.simulation.LoadPattern.Use;
import towerledger.simulation.Nuisances;
import towerledger.simulation.Nuisances.Drain;
import towerledger.simulation.Nuisances.LoadStep;
import towerledger.simulation.Nuisances.PressureStep;
import towerledger.simulation.Nuisances.SetpointChange;
import towerledger.simulation.PlantSpec;
import towerledger.simulation.PlantSpec.BleedMode;
import towerledger.simulation.PlantSpec.Kind;
import towerledger.simulation.demo.DemoSystem.Change;
import towerledger.simulation.demo.DemoSystem.Dated;
import towerledger.simulation.demo.DemoSystem.Told;
import towerledger.simulation.demo.DemoSystem.Tower;

/** The fourteen systems: what stands there, how it is run, how it is watched. */
final class DemoPlants {

  private final Map<String, HourGrid> grids;
  private final Map<String, DemoSite> sites;

  /**
   * Plants on the hours of their sites.
   *
   * @param grids hours by site code
   * @param sites sites by code
   */
  DemoPlants(Map<String, HourGrid> grids, Map<String, DemoSite> sites) {
    this.grids = grids;
    this.sites = sites;
  }

  List<DemoSystem> all() {
    return List.of(
        medicalMain(),
        medicalLaboratory(),
        desertHall(),
        harborHouse(),
        pierPavilion(),
        processCooler(),
        refrigeration(),
        compressedAir(),
        highSchool(),
        middleSchool(),
        laboratories(),
        annex(),
        hallA(),
        hallB());
  }

  private DemoSystem medicalMain() {
    String site = "MMC-CAMPUS";
    return new DemoSystem(
        "MMC-MAIN",
        site,
        "Central plant",
        false,
        plant(
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
            interval(site, LocalDate.of(2025, 11, 1), DemoBook.TO, 60)),
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-24", "2026-04-10", 0.55),
        List.of());
  }

  private DemoSystem medicalLaboratory() {
    String site = "MMC-CAMPUS";
    return new DemoSystem(
        "MMC-LAB",
        site,
        "Diagnostics annex",
        false,
        plant(
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
            interval(site, LocalDate.of(2026, 2, 1), DemoBook.TO, 60)),
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-31", "2026-04-17", 0.9),
        List.of());
  }

  private DemoSystem desertHall() {
    String site = "NLR-MESA";
    return new DemoSystem(
        "NLR-MESA",
        site,
        "Mesa hall loop",
        false,
        plant(
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
        nuisances(site, List.of(step(site, "2026-01-12", 1.14)), List.of(), List.of(), List.of()),
        cleanings("2025-11-14", "2026-05-08", 0.4),
        List.of());
  }

  private DemoSystem harborHouse() {
    String site = "LBH-HARBOR";
    return new DemoSystem(
        "LBH-HARBOR",
        site,
        "Harbor House cooling water",
        false,
        plant(
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
            interval(site, LocalDate.of(2026, 1, 1), DemoBook.TO, 60)),
        nuisances(
            site,
            List.of(),
            List.of(),
            List.of(),
            List.of(new PressureStep(hour(site, "2026-03-04", 2), 27))),
        cleanings("2025-11-07", "2026-03-20", 0.9),
        List.of());
  }

  private DemoSystem pierPavilion() {
    String site = "LBH-PIER";
    return new DemoSystem(
        "LBH-PIER",
        site,
        "Pier Pavilion cooling water",
        false,
        plant(
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
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
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

  private DemoSystem processCooler() {
    String site = "VOF-PLANT";
    return new DemoSystem(
        "VOF-PROC",
        site,
        "Canning line cooler",
        false,
        plant(
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
                hour(site, "2025-12-05", 10)),
            false,
            7,
            false,
            56,
            28,
            interval(site, LocalDate.of(2026, 8, 1), DemoBook.TO, 60)),
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
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

  private DemoSystem refrigeration() {
    String site = "VOF-PLANT";
    return new DemoSystem(
        "VOF-REFR",
        site,
        "Cold store condensers",
        false,
        plant(
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
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-09-19", "2026-03-27", 0.9),
        List.of());
  }

  private DemoSystem compressedAir() {
    String site = "VOF-PLANT";
    return new DemoSystem(
        "VOF-AIR",
        site,
        "Compressor house",
        false,
        plant(
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
            site,
            List.of(),
            List.of(new Drain(hour(site, "2026-06-14", 9), 0.9, false)),
            List.of(),
            List.of()),
        cleanings("2025-10-03", "2026-04-24", 0.9),
        List.of());
  }

  private DemoSystem highSchool() {
    String site = "ALD-HIGH";
    return new DemoSystem(
        "ALD-HIGH",
        site,
        "High school cooling tower",
        true,
        plant(
            "ALD-HIGH",
            rating(Kind.OPEN, 180, 1.2, 0.6, 95, 85, 77, 90, 75, false, 0.005),
            new LoadPattern(0.72, 0.16, 9, 33, Use.SCHOOL, true, 0.72),
            new PlantSpec.Water(310, 0.14, 0.10, 0.42, 55, 6, Double.NaN),
            new PlantSpec.Basin(6_900, 1_500, 12, 2),
            new PlantSpec.Bleed(BleedMode.MANUAL, 4.0, 1240, 2_200),
            new PlantSpec.FillValve("float-switch", 0.75, 7.5, true)),
        List.of(
            tower(
                "ALD-HIGH",
                "High school cooling tower",
                1,
                "counterflow",
                180,
                false,
                15,
                "two-speed",
                820,
                true,
                2013)),
        told(
            "electric-chiller",
            false,
            "school",
            "06:00",
            "18:00",
            "Mon-Fri",
            "12-2",
            null,
            false,
            true),
        evidence(
            HeatEvidence.MONTHLY_RUNNING_HOURS,
            1.1,
            0.07,
            7,
            0.1,
            meter("gal", 1, 7, 0, 1.5, 0.75, "displacement", 0.996, -0.002, 1_904_221, -1),
            false,
            14,
            false,
            28,
            28,
            interval(site, LocalDate.of(2026, 8, 14), DemoBook.TO, 60)),
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        List.of(
            new Dated(
                LocalDate.of(2025, 12, 5),
                List.of("shut-down"),
                null,
                "Laid up for the winter.",
                "Makeup shut and drained at the stop, basin open to drain."),
            new Dated(
                LocalDate.of(2026, 3, 6),
                List.of("start-up"),
                null,
                "Filled and started for the season.",
                "Basin washed before filling, biocide dosed before the fan was released.")),
        List.of());
  }

  private DemoSystem middleSchool() {
    String site = "ALD-MIDDLE";
    return new DemoSystem(
        "ALD-MIDDLE",
        site,
        "Middle school cooling tower",
        true,
        plant(
            "ALD-MIDDLE",
            rating(Kind.OPEN, 60, 1.3, 0.6, 95, 85, 77, 90, 76, false, 0.008),
            new LoadPattern(0.66, 0.18, 9, 33, Use.SCHOOL, true, 0.8),
            new PlantSpec.Water(315, 0.14, 0.10, 0.42, 57, 6, Double.NaN),
            new PlantSpec.Basin(2_300, 600, 12, 2),
            new PlantSpec.Bleed(BleedMode.MANUAL, 3.5, 1100, 800),
            new PlantSpec.FillValve("mechanical-float", 0.75, 6, false)),
        List.of(
            tower(
                "ALD-MIDDLE",
                "Middle school cooling tower",
                1,
                "crossflow",
                60,
                false,
                5,
                "single-speed",
                300,
                true,
                2002)),
        told(
            "electric-chiller",
            false,
            "school",
            "06:00",
            "17:00",
            "Mon-Fri",
            "12-2",
            null,
            null,
            false),
        evidence(
            HeatEvidence.NONE,
            1,
            0,
            28,
            0.05,
            meter("gal", 1, 7, 0, 2.0, 0.75, "displacement", 0.992, -0.003, 655_870, -1),
            false,
            28,
            false,
            0,
            28,
            null),
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        List.of(
            new Dated(
                LocalDate.of(2025, 12, 5),
                List.of("shut-down"),
                null,
                "Laid up for the winter.",
                "Makeup shut and drained."),
            new Dated(
                LocalDate.of(2026, 3, 6),
                List.of("start-up"),
                null,
                "Filled and started.",
                "Strainer cleaned, biocide dosed before start.")),
        List.of());
  }

  private DemoSystem laboratories() {
    String site = "NLR-LAB";
    return new DemoSystem(
        "NLR-LAB",
        site,
        "Laboratory block",
        false,
        plant(
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
            site,
            List.of(),
            List.of(),
            List.of(new SetpointChange(hour(site, "2026-03-13", 10), 1.1, true)),
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

  private DemoSystem annex() {
    String site = "NLR-LAB";
    return new DemoSystem(
        "NLR-ANNEX",
        site,
        "Cleanroom annex",
        false,
        plant(
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
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-10", "2026-05-15", 0.9),
        List.of());
  }

  private DemoSystem hallA() {
    String site = "NLR-HALL";
    return new DemoSystem(
        "NLR-HALL-A",
        site,
        "Computing hall, loop A",
        false,
        plant(
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
            interval(site, LocalDate.of(2026, 9, 1), DemoBook.TO, 15)),
        nuisances(site, List.of(step(site, "2026-02-02", 1.16)), List.of(), List.of(), List.of()),
        cleanings("2025-10-24", "2026-05-22", 0.3),
        List.of());
  }

  private DemoSystem hallB() {
    String site = "NLR-HALL";
    return new DemoSystem(
        "NLR-HALL-B",
        site,
        "Computing hall, loop B",
        false,
        plant(
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
        nuisances(site, List.of(), List.of(), List.of(), List.of()),
        cleanings("2025-10-31", "2026-05-29", 0.9),
        List.of());
  }

  private PlantSpec plant(
      String code,
      PlantSpec.Rating rating,
      LoadPattern load,
      PlantSpec.Water water,
      PlantSpec.Basin basin,
      PlantSpec.Bleed bleed,
      PlantSpec.FillValve fill) {
    return new PlantSpec(code, rating, load, water, basin, bleed, fill);
  }

  /** Temperatures in °F as on a nameplate, drift in percent of circulation. */
  private static PlantSpec.Rating rating(
      Kind kind,
      double tons,
      double liquidToGas,
      double fillExponent,
      double hotF,
      double coldF,
      double wetBulbF,
      double dryBulbF,
      double setpointF,
      boolean economizer,
      double driftPercent) {
    return new PlantSpec.Rating(
        kind,
        tons,
        liquidToGas,
        fillExponent,
        0.1,
        c(hotF),
        c(coldF),
        c(wetBulbF),
        c(dryBulbF),
        c(setpointF),
        economizer,
        driftPercent / 100,
        0.3);
  }

  private static double c(double fahrenheit) {
    return (fahrenheit - 32) / 1.8;
  }

  private static Tower tower(
      String code,
      String name,
      int cells,
      String arrangement,
      double tons,
      boolean airFlowKnown,
      double fanHp,
      String fanControl,
      double basinGal,
      boolean heater,
      int year) {
    return new Tower(
        code,
        name,
        cells,
        arrangement,
        tons,
        airFlowKnown,
        fanHp,
        fanControl,
        basinGal,
        heater,
        LocalDate.of(year, 4, 1));
  }

  private static Told told(
      String heatSource,
      @Nullable Boolean economizer,
      String use,
      @Nullable String from,
      @Nullable String to,
      @Nullable String days,
      @Nullable String idle,
      @Nullable Double valveMaxPsi,
      @Nullable Boolean sensorOutside,
      boolean valveKnown) {
    return told(
        heatSource,
        economizer,
        use,
        from,
        to,
        days,
        idle,
        valveMaxPsi,
        sensorOutside,
        valveKnown,
        "open");
  }

  private static Told told(
      String heatSource,
      @Nullable Boolean economizer,
      String use,
      @Nullable String from,
      @Nullable String to,
      @Nullable String days,
      @Nullable String idle,
      @Nullable Double valveMaxPsi,
      @Nullable Boolean sensorOutside,
      boolean valveKnown,
      String kind) {
    return new Told(
        kind,
        heatSource,
        economizer,
        use,
        from,
        to,
        days,
        idle,
        valveMaxPsi,
        sensorOutside,
        valveKnown);
  }

  private static EvidencePlan evidence(
      HeatEvidence heat,
      double bias,
      double scatter,
      int readingDays,
      double missed,
      @Nullable MeterPlan meter,
      boolean bleedMeter,
      int sampleDays,
      boolean fromDisplay,
      int pressureDays,
      int visitDays,
      @Nullable IntervalPlan intervals) {
    return new EvidencePlan(
        heat,
        bias,
        scatter,
        readingDays,
        missed,
        0.06,
        meter,
        bleedMeter,
        sampleDays,
        fromDisplay,
        pressureDays,
        visitDays,
        intervals);
  }

  private static MeterPlan meter(
      String unit,
      double multiplier,
      int digits,
      int decimals,
      double accuracy,
      double size,
      String type,
      double scale,
      double yearlyDrift,
      double start,
      int swapHour) {
    return new MeterPlan(
        unit,
        multiplier,
        digits,
        decimals,
        accuracy,
        size,
        type,
        scale,
        yearlyDrift,
        start,
        swapHour);
  }

  private IntervalPlan interval(String site, LocalDate from, LocalDate to, int minutes) {
    return new IntervalPlan(hour(site, from.toString(), 0), hour(site, to.toString(), 0), minutes);
  }

  private Nuisances nuisances(
      String site,
      List<LoadStep> steps,
      List<Drain> drains,
      List<SetpointChange> changes,
      List<PressureStep> pressures) {
    return new Nuisances(steps, drains, changes, pressures, List.of());
  }

  private LoadStep step(String site, String day, double factor) {
    return new LoadStep(hour(site, day, 6), factor);
  }

  private int hour(String site, String day, int hour) {
    return grids
        .get(site)
        .indexOf(LocalDate.parse(day).atTime(hour, 0).atZone(sites.get(site).zone()).toInstant());
  }

  private static List<Dated> cleanings(String autumn, String spring, double part) {
    return List.of(clean(autumn, part), clean(spring, part));
  }

  private static Dated clean(String day, double part) {
    return new Dated(
        LocalDate.parse(day),
        List.of("basin-drained"),
        part,
        part > 0.8 ? "Seasonal clean of basin and fill." : "Seasonal clean, one cell at a time.",
        "Basin drained, silt shovelled out, strainers washed, refilled and dosed.");
  }
}
