package towerledger.simulation.demo;

import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import towerledger.simulation.Climate;

/** Sites of the invented contractor's customers; the systems are in {@link DemoPlants}. */
final class DemoBook {

  static final LocalDate FROM = LocalDate.of(2025, 5, 1);
  static final LocalDate TO = LocalDate.of(2026, 11, 1);
  static final int RUN_IN_DAYS = 45;

  private static final ZoneId DESERT = ZoneId.of("America/Phoenix");
  private static final ZoneId CENTRAL = ZoneId.of("America/Chicago");
  private static final ZoneId EASTERN = ZoneId.of("America/New_York");

  /** A customer with the contact that the report goes to. */
  record Customer(String code, String name, String contact, String emails) {}

  private DemoBook() {}

  static List<Customer> customers() {
    return List.of(
        new Customer(
            "MMC",
            "Mesquite Bend Medical Center",
            "Ruth Aldana",
            "facilities@mesquitebend-medical.example;ruth.aldana@mesquitebend-medical.example"),
        new Customer(
            "LBH", "Lantern Bay Hotels", "Theo Marchetti", "engineering@lanternbay-hotels.example"),
        new Customer(
            "VOF", "Vale Orchard Foods", "Imogen Tarrant", "utilities@valeorchard-foods.example"),
        new Customer(
            "ALD",
            "Alderbrook Public Schools",
            "Desmond Okafor",
            "buildings@alderbrook-schools.example;bursar@alderbrook-schools.example"),
        new Customer(
            "NLR",
            "Northlight Research and Computing",
            "Signe Halvard",
            "plant@northlight-research.example"));
  }

  static List<DemoSite> sites() {
    return List.of(
        new DemoSite(
            "MMC-CAMPUS",
            "MMC",
            "Medical Center campus, Mesquite Bend",
            DESERT,
            33.21,
            -112.37,
            1150,
            "MB1",
            Climate.HOT_DRY,
            "MB-WATER",
            "MB-SEWER",
            6,
            92_000),
        new DemoSite(
            "NLR-MESA",
            "NLR",
            "Mesa hall, Mesquite Bend",
            DESERT,
            33.18,
            -112.44,
            1180,
            "MB1",
            Climate.HOT_DRY,
            "MB-WATER",
            "MB-SEWER",
            4,
            2_600),
        new DemoSite(
            "LBH-HARBOR",
            "LBH",
            "Harbor House, Port Amaranth",
            CENTRAL,
            29.62,
            -91.86,
            12,
            "PA1",
            Climate.HOT_HUMID,
            "PA-WATER",
            "PA-SEWER",
            4,
            31_000),
        new DemoSite(
            "LBH-PIER",
            "LBH",
            "Pier Pavilion, Port Amaranth",
            CENTRAL,
            29.64,
            -91.83,
            9,
            "PA1",
            Climate.HOT_HUMID,
            "PA-WATER",
            "PA-SEWER",
            6,
            47_000),
        new DemoSite(
            "VOF-PLANT",
            "VOF",
            "Canning and chilling plant, Port Amaranth",
            CENTRAL,
            29.71,
            -91.92,
            21,
            "PA1",
            Climate.HOT_HUMID,
            "PA-WATER",
            "PA-SEWER-IND",
            6,
            128_000),
        new DemoSite(
            "ALD-HIGH",
            "ALD",
            "Alderbrook High School",
            EASTERN,
            39.94,
            -77.52,
            310,
            "AB1",
            Climate.TEMPERATE,
            "AB-WATER",
            "AB-SEWER",
            2,
            6_800),
        new DemoSite(
            "ALD-MIDDLE",
            "ALD",
            "Alderbrook Middle School",
            EASTERN,
            39.97,
            -77.49,
            325,
            "AB1",
            Climate.TEMPERATE,
            "AB-WATER",
            "AB-SEWER",
            1,
            3_400),
        new DemoSite(
            "NLR-LAB",
            "NLR",
            "Laboratories, Lake Ostara",
            CENTRAL,
            45.83,
            -94.61,
            918,
            "LO1",
            Climate.COLD,
            "LO-WATER",
            "LO-SEWER",
            4,
            14_500),
        new DemoSite(
            "NLR-HALL",
            "NLR",
            "Computing hall, Lake Ostara",
            CENTRAL,
            45.86,
            -94.58,
            930,
            "LO1",
            Climate.COLD,
            "LO-WATER",
            "LO-SEWER",
            6,
            3_900));
  }
}
