package towerledger.page;

import java.util.List;
import towerledger.account.Role;
import towerledger.account.Viewer;

/**
 * An entry of the menu. A page says which section it belongs to by the name of the section.
 *
 * @param name name that pages use, for instance {@code review}
 * @param path where it begins
 */
public record Section(String name, String path) {

  /** In the order of the menu; an entry comes with its page. */
  private static final List<Section> OFFICE =
      List.of(
          new Section("review", "/"),
          new Section("findings", "/findings"),
          new Section("rounds", "/rounds"),
          new Section("intake", "/intake"),
          new Section("rates", "/rates"),
          new Section("credits", "/credits"),
          new Section("reports", "/reports"),
          new Section("calculators", "/calculators"),
          new Section("people", "/people"));

  private static final List<String> TECHNICIAN = List.of("findings", "rounds", "calculators");

  private static final List<Section> CUSTOMER =
      List.of(
          new Section("portal", "/portal"),
          new Section("portal-credits", "/portal/credits"),
          new Section("portal-reports", "/portal/reports"),
          new Section("portal-readings", "/portal/readings"));

  /** Key of the section's name in the texts. */
  public String messageKey() {
    return "section." + name;
  }

  static List<Section> listFor(Viewer viewer) {
    if (viewer.role() == Role.CUSTOMER) {
      return viewer.canEnterReadings()
          ? CUSTOMER
          : CUSTOMER.stream().filter(s -> !s.name().equals("portal-readings")).toList();
    }
    return viewer.role() == Role.OFFICE
        ? OFFICE
        : OFFICE.stream().filter(s -> TECHNICIAN.contains(s.name())).toList();
  }

  /** Where a viewer begins. */
  static String home(Viewer viewer) {
    return switch (viewer.role()) {
      case OFFICE -> "/";
      case TECHNICIAN -> "/rounds";
      case CUSTOMER -> "/portal";
    };
  }
}
