package towerledger.tariff;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * A utility's rates for one service over time. Each version holds from its first day until the next
 * one begins, so versions can neither overlap nor leave a gap; before the first there are no rates.
 *
 * @param code the user's code
 * @param service water or sewer
 * @param name name for people
 * @param versions at least one, by effective day
 */
public record RateSchedule(String code, Service service, String name, List<RateVersion> versions) {

  public RateSchedule {
    List<RateVersion> sorted = new ArrayList<>(versions);
    sorted.sort(Comparator.comparing(RateVersion::effectiveFrom));
    if (sorted.isEmpty()) {
      throw new IllegalArgumentException(
          "schedule %s has no version; give the rates of at least one effective_from"
              .formatted(code));
    }
    for (int i = 1; i < sorted.size(); i++) {
      if (sorted.get(i).effectiveFrom().equals(sorted.get(i - 1).effectiveFrom())) {
        throw new IllegalArgumentException(
            "schedule %s has two versions from %s; keep one or change its effective_from"
                .formatted(code, sorted.get(i).effectiveFrom()));
      }
    }
    if (service == Service.WATER) {
      for (RateVersion version : sorted) {
        if (version.credit().method() != CreditRule.Method.NONE) {
          throw new IllegalArgumentException(
              "schedule %s bills water, where no evaporation_credit is given; put it on the sewer"
                      .formatted(code)
                  + " schedule");
        }
      }
    }
    versions = List.copyOf(sorted);
  }

  public static RateSchedule of(String code, Service service, RateVersion... versions) {
    return new RateSchedule(code, service, code, List.of(versions));
  }

  /** The version in force on a day; empty before the first. */
  public Optional<RateVersion> findVersion(LocalDate day) {
    int index = indexInForce(day);
    return index < 0 ? Optional.empty() : Optional.of(versions.get(index));
  }

  /**
   * Place of the version in force on a day.
   *
   * @return −1 before the first
   */
  int indexInForce(LocalDate day) {
    int index = versions.size() - 1;
    while (index >= 0 && versions.get(index).effectiveFrom().isAfter(day)) {
      index--;
    }
    return index;
  }
}
