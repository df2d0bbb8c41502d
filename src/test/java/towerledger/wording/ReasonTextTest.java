package towerledger.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.springframework.context.support.ResourceBundleMessageSource;
import towerledger.account.UnitPreference;
import towerledger.drawing.FigureText;
import towerledger.psychrometrics.MoistAir;

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
    assertThat(american.say("makeup 24 times what the sound system would draw"))
        .isEqualTo("makeup 24 times what a sound system would draw");
    assertThat(spanish.say("makeup where the sound system would hardly draw any"))
        .isEqualTo("hay reposición donde un sistema sano apenas tomaría agua");
    assertThat(spanish.say("cycles 3.1 against a target of 4.0: concentrated water is lost"))
        .contains("3.1")
        .contains("4.0")
        .contains("agua concentrada");
    assertThat(spanish.say("a blowdown meter: it tells bleed from overflow, leak and drift"))
        .startsWith("un contador de purga");
  }

  @Test
  void tellsMomentsByTheSitesClockAndSaysWhatToCorrect() {
    String kept =
        "meter M-1 went from 999990 (2026-10-02T14:00:00Z) to 20; register_digits is not known, so a"
            + " roll-over cannot be told. The volume between is left open: correct the reading, give"
            + " register_digits, or record the exchange of the meter with its last and first"
            + " register";
    ReasonText anywhere = reader("en", UnitPreference.US);
    ReasonText atSite =
        new ReasonText(anywhere.words(), anywhere.figures(), ZoneId.of("America/Chicago"));

    assertThat(anywhere.say(kept)).contains("Oct 2, 2026, 2:00").contains("UTC");
    assertThat(atSite.say(kept))
        .contains("(Oct 2, 2026, 9:00")
        .contains("the digits of the register")
        .doesNotContain("UTC", "register_digits");
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

  @Test
  void saysAssumptionsAndStepsInTheReadersLanguageAndUnits() {
    ReasonText american = reader("en", UnitPreference.US);
    ReasonText spanish = reader("es", UnitPreference.SI);

    // by hand: 3,785.4 L are 1,000 US gallons; 26.7 °C are 80.06 °F; a range of 5 K is one of 9 °F
    assertThat(american.say("water in the loop taken as 3785 L from the nominal tons"))
        .isEqualTo("water in the loop taken as 1,000\u00a0gal from the nominal tons");
    assertThat(american.say("cold-water set-point not known: 26.7 °C"))
        .isEqualTo("cold-water set-point not known: 80.1\u00a0°F");
    assertThat(
            american.say(
                "design point of tower T-1 is not possible (cold water 26.7 °C, wet bulb 26.7 °C,"
                    + " range 5.0 K): the usual one is taken"))
        .contains("tower T-1")
        .contains("range 9.0\u00a0°F");
    assertThat(spanish.say("priced under PA-WATER and PA-SEWER on 12500 L of the whole site's use"))
        .isEqualTo(
            "valorado según PA-WATER y PA-SEWER sobre 12.5\u00a0m³ del consumo de todo el lugar");
    assertThat(spanish.say("metered makeup")).isEqualTo("reposición medida");
    assertThat(american.say("evaporation and drift of 139828 L, heat evidence D"))
        .as("139,828 L ÷ 3.785411784 = 36,939 gal, to three digits")
        .isEqualTo("evaporation and drift of 36,900\u00a0gal, heat evidence D");
    assertThat(american.say("evaporation credit of 2739.10 on the bill; 1569.58 is due"))
        .isEqualTo("evaporation credit of 2,739.10 on the bill; 1,569.58 is due");
  }

  /** What a month was priced on stands in one method of the ledger, and both ways are known. */
  @Test
  void knowsEveryWayAMonthIsPriced() throws IOException {
    String source = Files.readString(Path.of("src/main/java/towerledger/ledger/SiteMoney.java"));
    String basis = source.substring(source.indexOf("String basis("));
    ReasonText spanish = reader("es", UnitPreference.SI);
    List<String> ways =
        Pattern.compile("[?:] \"(the [^\"]+)\"")
            .matcher(basis)
            .results()
            .map(found -> "priced under W on 12500 L of " + found.group(1))
            .toList();

    assertThat(ways).hasSize(2);
    assertThat(ways).allSatisfy(way -> assertThat(spanish.say(way)).isNotEqualTo(way));
  }

  /** The steps and the budget of a working are written in one file, and every one is known. */
  @Test
  void knowsEveryStepAndEveryLineOfTheBudget() throws IOException {
    String source = Files.readString(Path.of("src/main/java/towerledger/balance/Notes.java"));
    String steps = source.substring(source.indexOf("List<BudgetLine> budget("));
    ReasonText spanish = reader("es", UnitPreference.SI);
    List<String> untold =
        Pattern.compile("\"([^\"\n]{3,})\"")
            .matcher(steps)
            .results()
            .map(
                found ->
                    found.group(1).equals("grade ") ? "grade B, month to month" : found.group(1))
            .filter(said -> !said.startsWith(", ") && !said.contains("C* − 1"))
            .filter(said -> spanish.say(said).equals(said))
            .toList();

    assertThat(untold).isEmpty();
  }

  @Test
  void knowsEveryAssumption() throws IOException {
    ReasonText spanish = reader("es", UnitPreference.SI);
    for (String file : List.of("Notes", "TowerModel", "HourlyModel")) {
      String source =
          Files.readString(Path.of("src/main/java/towerledger/balance/%s.java".formatted(file)));
      List<String> untold =
          Pattern.compile("(?:notes|assumptions)\\.add\\(\\s*\"([^\"]+)\"")
              .matcher(source)
              .results()
              .map(
                  found ->
                      found
                          .group(1)
                          .replace("%%", "%")
                          .replaceAll("%\\.[012]f", "12")
                          .replace("%s", "T-1"))
              .filter(said -> spanish.say(said).equals(said))
              .toList();

      assertThat(untold).as("sentences of %s", file).isEmpty();
    }
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

  @Test
  void hasWordsForEverySentenceInEachLanguage() {
    for (String language : List.of("en", "es")) {
      Words words = new Words(MESSAGES, Locale.forLanguageTag(language));
      KeptSentences.all()
          .forEach(
              (key, sentence) -> {
                long gaps = Pattern.compile("\\{\\w}").matcher(sentence).results().count();
                Object[] fill = IntStream.range(0, (int) gaps).mapToObj(i -> "#" + i).toArray();
                assertThat(words.of(key, fill).matches("[^#]*(#\\d[^#]*){%d}".formatted(gaps)))
                    .as("%s in %s", key, language)
                    .isTrue();
              });
    }
  }

  @Test
  void saysRemarksOnReadingsBillsAndClaimsAnew() {
    ReasonText american = reader("en", UnitPreference.US);
    ReasonText spanish = reader("es", UnitPreference.SI);

    // by hand: 3,785.4 L are 1,000 US gallons
    assertThat(
            american.say(
                "meter M-1 passed 37854 L since the reading before; 3785 to 7571 L were expected."
                    + " Taken and marked: read the register again if you can"))
        .contains("10,000\u00a0gal")
        .contains("1,000\u00a0gal to 2,000\u00a0gal");
    assertThat(
            spanish.say(
                "120 ccf billed, 12.0 by the readings, 10.0 times as much: a zero too many, or a"
                    + " meter multiplier of 10"))
        .isEqualTo(
            "120 ccf facturados, 12.0 según las lecturas, 10.0 veces esa cantidad: un cero de más,"
                + " o un multiplicador de 10 del contador");
    assertThat(spanish.say("T1: limited to the cap of the rule"))
        .isEqualTo("T1: limitado al tope de la regla");
    assertThat(spanish.say("meter M-1 (makeup)")).isEqualTo("contador M-1 (reposición)");
    assertThat(american.say("41877 × 1 gal, actual")).isEqualTo("41877 gal, read");
    assertThat(spanish.say("rates of PA-WATER from 2026-07-01 changed"))
        .startsWith("cambiaron los precios de PA-WATER desde el")
        .doesNotContain("2026-07");
  }

  /** By hand: 37,854.1 L are 10,000 US gallons. */
  @Test
  void saysWhatIsMissingInTheReadersLanguageAndUnits() {
    ReasonText spanish = reader("es", UnitPreference.SI);

    assertThat(
            reader("en", UnitPreference.US)
                .say("makeup readings give 37854 L, more than the fill could pass"))
        .isEqualTo("makeup readings give 10,000\u00a0gal, more than the fill could pass");
    assertThat(spanish.say("weather is missing for 16 % of the hours"))
        .isEqualTo("faltan datos meteorológicos de un 16 % de las horas");
    assertThat(spanish.say("makeup readings cover 40 % of the month"))
        .isEqualTo("las lecturas de reposición cubren el 40 % del mes");
    assertThat(spanish.say("there is no makeup meter")).isEqualTo("no hay contador de reposición");
  }

  /** By hand: 25 °C are 77 °F, 20 °C are 68 °F. */
  @Test
  void saysInTheReadersLanguageAndUnitsWhatTheModelsCannotTake() {
    List<RuntimeException> refusals =
        List.of(
            refusal(() -> MoistAir.fromWetBulb(20, 25, 101_325)),
            refusal(() -> MoistAir.fromWetBulb(40, 5, 101_325)));

    assertThat(reader("en", UnitPreference.US).say(refusals.get(0)))
        .startsWith("the wet bulb of 77.0\u00a0°F is above the dry bulb of 68.0\u00a0°F");
    assertThat(
            reader("es", UnitPreference.SI)
                .say(
                    "basin conductivity of 200 µS/cm must be above the makeup's 1100 µS/cm; check"
                        + " whether the two were exchanged"))
        .startsWith("la conductividad de la balsa, 200 µS/cm")
        .contains("1,100 µS/cm");
    assertThat(refusals)
        .allSatisfy(
            refusal ->
                assertThat(reader("es", UnitPreference.SI).say(refusal))
                    .startsWith("el bulbo húmedo de ")
                    .doesNotContain("°F"));
  }

  private static RuntimeException refusal(Runnable what) {
    try {
      what.run();
    } catch (RuntimeException e) {
      return e;
    }
    throw new AssertionError("was taken");
  }

  private static ReasonText reader(String language, UnitPreference units) {
    return new ReasonText(
        new Words(MESSAGES, Locale.forLanguageTag(language)), FigureText.of(units, language));
  }
}
