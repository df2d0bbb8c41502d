package towerledger.balance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.time.YearMonth;
import java.util.List;
import org.junit.jupiter.api.Test;

/** What a month's working tells, step by step. */
class WorkingTest {

  private static final YearMonth FIRST = YearMonth.of(2025, 1);

  /** The first of August. */
  private static final int ONSET = 212;

  /** Whoever follows a working with pencil and paper comes to the same expected makeup. */
  @Test
  void theStepsOfAWorkingAddUpInSoundAndInLeakingMonths() {
    MadeUpSystem system = new MadeUpSystem();
    double litres = VerdictCasesTest.leak(system);
    system.freshLossL = day -> day >= ONSET ? litres : 0;
    system.observed();

    List<MonthVerdict> verdicts =
        new Reconciler(ReconciliationPolicy.standard())
            .judge(system.facts(), FIRST, YearMonth.of(2026, 5));

    MonthVerdict sound = verdicts.get(5);
    assertThat(step(sound, "evaporation"))
        .isCloseTo(
            step(sound, "load multiplier of this month") * step(sound, "modelled evaporation")
                + step(sound, "evaporation beside the load's shape"),
            within(0.5));
    assertThat(step(sound, "load multiplier of this month"))
        .isCloseTo(step(sound, "load multiplier"), within(0.1));
    double parts =
        step(sound, "evaporation")
            + step(sound, "drift")
            + step(sound, "bleed and refill of the sound system");
    assertThat(step(sound, "expected makeup")).isCloseTo(parts, within(0.5));
    // Held by its controller, the basin bleeds what the aim asks for.
    assertThat(step(sound, "bleed and refill of the sound system"))
        .isCloseTo(step(sound, "needed blowdown"), within(0.15 * step(sound, "needed blowdown")));

    MonthVerdict leaking = verdicts.get(11);
    assertThat(leaking.judgement().waste()).isTrue();
    assertThat(step(leaking, "expected makeup"))
        .isCloseTo(
            step(leaking, "metered makeup") - step(leaking, "other use") - step(leaking, "loss"),
            within(0.5));
    assertThat(leaking.water().expectedMakeup().orElseThrow().value().litres())
        .isEqualTo(step(leaking, "expected makeup"));
  }

  private static double step(MonthVerdict verdict, String name) {
    return verdict.working().stream()
        .filter(step -> step.name().equals(name))
        .findFirst()
        .orElseThrow()
        .value();
  }
}
