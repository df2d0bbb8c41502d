package towerledger.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.springframework.context.support.ResourceBundleMessageSource;
import towerledger.balance.Cause;

class CautionsTest {

  private static final ResourceBundleMessageSource MESSAGES = new ResourceBundleMessageSource();

  static {
    MESSAGES.setBasename("messages");
    MESSAGES.setDefaultEncoding("UTF-8");
    MESSAGES.setFallbackToSystemLocale(false);
  }

  private static final Words ENGLISH = new Words(MESSAGES, Locale.ENGLISH);
  private static final Words SPANISH = new Words(MESSAGES, Locale.forLanguageTag("es"));

  @ParameterizedTest
  @EnumSource(
      value = Cause.class,
      mode = EnumSource.Mode.EXCLUDE,
      names = {"NONE", "MISSING_DATA"})
  void beginWithPowerHeightAndAerosolAndEndWithLocalCodes(Cause cause) {
    List<String> said = Cautions.of(List.of(cause), ENGLISH);

    assertThat(said.get(0)).startsWith("Lock out and tag out").contains("pressure off");
    assertThat(said.get(1)).contains("fall protection");
    assertThat(said.get(2)).contains("Legionella");
    assertThat(said.get(said.size() - 1)).contains("Local codes");
    assertThat(Cautions.of(List.of(cause), SPANISH)).hasSameSizeAs(said);
  }

  @Test
  void warnOfWhatThePlaceOfTheWorkBrings() {
    assertThat(Cautions.of(List.of(Cause.MAKEUP_LINE_LEAK), ENGLISH))
        .anyMatch(caution -> caution.contains("confined spaces"))
        .anyMatch(caution -> caution.contains("buried services"))
        .anyMatch(caution -> caution.contains("backflow preventer"));
    assertThat(Cautions.of(List.of(Cause.DRIFT_EXCESS), ENGLISH))
        .anyMatch(caution -> caution.contains("confined spaces"));
    assertThat(Cautions.of(List.of(Cause.OTHER_USE), ENGLISH))
        .anyMatch(caution -> caution.contains("backflow preventer"));
    assertThat(Cautions.of(List.of(Cause.BASIN_LEAK), ENGLISH))
        .anyMatch(caution -> caution.contains("never a heater that no water covers"))
        .anyMatch(caution -> caution.contains("discharge permit"));
  }

  @Test
  void areSaidOnceForSeveralCausesAndNotAtAllWhereNothingIsToBeDone() {
    assertThat(
            Cautions.of(List.of(Cause.FILL_VALVE_LEAKING_BY, Cause.FILL_VALVE_STUCK_OPEN), ENGLISH))
        .doesNotHaveDuplicates();
    assertThat(Cautions.of(List.of(Cause.NONE, Cause.MISSING_DATA), ENGLISH)).isEmpty();
  }
}
