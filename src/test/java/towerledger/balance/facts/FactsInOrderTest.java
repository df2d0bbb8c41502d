package towerledger.balance.facts;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.DayOfWeek;
import java.time.Instant;
import java.time.Month;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * The text of facts, of which the digest of a month is made, is the same in every run of the
 * program: sets of the JDK that cannot be changed have another order in each.
 */
class FactsInOrderTest {

  @Test
  void daysMonthsAndEventsStandInTheirOwnOrder() {
    OptionalDouble unknown = OptionalDouble.empty();
    var attributes =
        new SystemAttributes(
            SystemAttributes.Kind.OPEN,
            unknown,
            Optional.empty(),
            false,
            Optional.empty(),
            Optional.empty(),
            Optional.empty(),
            Set.copyOf(EnumSet.allOf(DayOfWeek.class)),
            Set.copyOf(EnumSet.allOf(Month.class)));
    var visit =
        new Visit(
            Instant.EPOCH,
            Set.copyOf(EnumSet.allOf(Visit.Event.class)),
            unknown,
            Set.copyOf(EnumSet.allOf(InspectionFinding.class)),
            unknown,
            unknown,
            unknown);

    assertThat(attributes.toString())
        .contains(List.of(DayOfWeek.values()).toString())
        .contains(List.of(Month.values()).toString());
    assertThat(visit.toString())
        .contains(Arrays.toString(Visit.Event.values()))
        .contains(Arrays.toString(InspectionFinding.values()));
  }
}
