package towerledger.simulation.demo;

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
import towerledger.simulation.demo.DemoSystem.Dated;

/** The school district: two schools. */
final class SchoolPlants {

  private final DemoHours hours;

  SchoolPlants(DemoHours hours) {
    this.hours = hours;
  }

  DemoSystem highSchool() {
    String site = "ALD-HIGH";
    return new DemoSystem(
        "ALD-HIGH",
        site,
        "High school cooling tower",
        true,
        new PlantSpec(
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
            hours.interval(site, LocalDate.of(2026, 8, 14), DemoBook.TO, 60)),
        nuisances(List.of(), List.of(), List.of(), List.of()),
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

  DemoSystem middleSchool() {
    String site = "ALD-MIDDLE";
    return new DemoSystem(
        "ALD-MIDDLE",
        site,
        "Middle school cooling tower",
        true,
        new PlantSpec(
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
        nuisances(List.of(), List.of(), List.of(), List.of()),
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
}
