package towerledger.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.context.support.ResourceBundleMessageSource;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;

class ReasonTextTest {

  private static final ResourceBundleMessageSource MESSAGES = new ResourceBundleMessageSource();

  static {
    MESSAGES.setBasename("messages");
    MESSAGES.setDefaultEncoding("UTF-8");
    MESSAGES.setFallbackToSystemLocale(false);
  }

  @Test
  void saysReasonsInTheReadersLanguageAndUnits() {
    ReasonText american = reader("en", UnitPreference.US);
    ReasonText spanish = reader("es", UnitPreference.SI);

    // by hand: 12,491.9 L and 5,678.1 L are 3,300 and 1,500 US gallons
    assertThat(american.say("metered bleed 12492 L against 5678 L needed"))
        .isEqualTo("metered bleed 3,300\u00a0gal against 1,500\u00a0gal needed");
    assertThat(spanish.say("metered bleed 12492 L against 5678 L needed"))
        .startsWith("purga medida de 12.5\u00a0m³");
    assertThat(spanish.say("makeup 14 % more than the sound system would draw"))
        .isEqualTo("la reposición es un 14 % mayor que la de un sistema sano");
    assertThat(spanish.say("cycles 3.1 against a target of 4.0: concentrated water is lost"))
        .contains("3.1")
        .contains("4.0")
        .contains("agua concentrada");
    assertThat(spanish.say("a blowdown meter: it tells bleed from overflow, leak and drift"))
        .startsWith("un contador de purga");
  }

  @Test
  void readsWhatAMachineOfAnotherLanguageWrote() {
    assertThat(reader("en", UnitPreference.US).say("cycles 3,1 against a target of 4,0"))
        .isEqualTo("cycles 3.1 against a target of 4.0");
  }

  @Test
  void dropsNoReasonItDoesNotKnow() {
    assertThat(reader("es", UnitPreference.US).say(List.of("somebody’s own words")))
        .containsExactly("somebody’s own words");
  }

  /** The sentences themselves are the reference: a new one has to be taught to this class. */
  @Test
  void knowsEverySentenceTheBalanceAsksForMoreWith() throws IOException {
    String source = Files.readString(Path.of("src/main/java/towerledger/balance/Notes.java"));
    String wants =
        source.substring(source.indexOf("List<String> whatToAdd("), source.indexOf("budget("));
    List<String> sentences = new ArrayList<>();
    Matcher added = Pattern.compile("wants\\.add\\(([^;]*)\\);").matcher(wants);
    while (added.find()) {
      sentences.add(
          added.group(1).strip().replaceAll("\"\\s*\\+\\s*\"", "").replaceAll("^\"|\"$", ""));
    }

    assertThat(sentences).hasSizeGreaterThan(5);
    ReasonText spanish = reader("es", UnitPreference.US);
    assertThat(sentences).allSatisfy(want -> assertThat(spanish.say(want)).isNotEqualTo(want));
  }

  private static ReasonText reader(String language, UnitPreference units) {
    return new ReasonText(
        new Words(MESSAGES, Locale.forLanguageTag(language)), FigureText.of(units, language));
  }
}
