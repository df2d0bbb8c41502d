package towerledger.wording;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * What refuses a person's row, file, form or bill is written in English where the rule stands, and
 * said anew on a page: every such sentence of these packages is known to {@link KeptSentences}.
 */
class RefusalsAreTranslatedTest {

  private static final Path SOURCES = Path.of("src/main/java/towerledger");

  /** Where rows, files and forms are judged. */
  private static final List<String> JUDGES =
      List.of("intake", "logsheet", "meter", "site", "tariff", "weather");

  /** Where forms are; what they refuse is thrown. */
  private static final List<String> FORMS =
      List.of("account", "finding", "office", "report", "retrofit");

  /** Files that put their sentences together from parts; {@link ReasonTextTest} looks at those. */
  private static final Set<String> OF_PARTS =
      Set.of(
          "tariff/AmountReasons.java",
          "tariff/BillCheck.java",
          "tariff/Billing.java",
          "tariff/Claim.java",
          "tariff/Projection.java",
          "tariff/VersionChecks.java",
          "meter/IntervalLog.java",
          "meter/RegisterArithmetic.java",
          "office/calculator/CyclesCalculator.java",
          "intake/ExportFiles.java");

  /** What only a fault of the program, its setting or its log says, and what the API alone does. */
  private static final Set<String> NOT_ON_PAGES =
      Set.of(
          " could not be written",
          "%s of scope %s is not let in to %s %s",
          "%s only grows: a line of history is neither changed nor removed",
          "%s: %d rows came in but %d + %d + %d + %d are told of",
          "A log row of system {} at {} is left out: {}",
          "TOWERLEDGER_ADMIN_EMAIL is '%s', which is no e-mail address of the form name@host.domain",
          "TOWERLEDGER_ADMIN_PASSWORD has %d characters; at most %d are taken",
          "The import at start could not be closed properly",
          "The import at start was refused: {}",
          "a finding is never '%s'",
          "a packed font is damaged",
          "a rate row was lost: ",
          "an episode has at least one month",
          "column %s does not end in %s",
          "e-mail or password is wrong",
          "edition %d of a report for %s; editions count from 1",
          "estimate %s lies outside its interval %s to %s",
          "every Java has SHA-256",
          "every Java platform has SHA-256",
          "every Java runtime has SHA-256",
          "every limit in towerledger.limits has to be 1 or more",
          "import {} from {} begins: {} files",
          "import {} is done",
          "no mail relay is set",
          "no number for ",
          "no session was named in this thread",
          "nobody is signed in at this point",
          "not saved yet, so without identity",
          "report mail %d to %s could not be written",
          "the ZIP no longer holds ",
          "the database does not give imports their turn",
          "the fonts of the reports could not be laid out",
          "the notice to ",
          "the picture of the report could not be drawn",
          "the picture of the report could not be written",
          "the row was lost on the way",
          "there is no customer with key ",
          "there is no person with key ",
          "there is no report with key ",
          "there is no token with key ",
          "towerledger.mail.from is not set",
          "towerledger.mail.public-url is '%s'; give the address this program is reached at, such as https://ledger.example",
          "upper bound of modelled evaporation",
          "viewer %s has no customer",
          "viewer %s: role %s and customer %s do not go together; exactly a customer's login names a customer",
          "{}: {} rows, {} added, {} changed, {} unchanged, {} in quarantine");

  /** A text in quotation marks, or several joined by plus, with what stands between them. */
  private static final Pattern LITERALS =
      Pattern.compile("\"(?:[^\"\\\\\n]|\\\\.)*\"(?:\\s*\\+\\s*\"(?:[^\"\\\\\n]|\\\\.)*\")*");

  /** Three words are a name, not a sentence. */
  private static final Pattern SENTENCE = Pattern.compile("[a-z](?:[^ ]* ){3}");

  private static final Pattern SQL =
      Pattern.compile("\\b(?:SELECT|UPDATE|INSERT|DELETE|WHERE|AND|ORDER BY|FROM)\\b");

  private static final Pattern THROWN =
      Pattern.compile("(?:new \\w*(?:Exception|Refused|Problem)|\\w*Problem\\.of)\\(");

  @Test
  void everySentenceIsKnown() {
    Set<String> known =
        KeptSentences.all().values().stream()
            .map(RefusalsAreTranslatedTest::bare)
            .collect(Collectors.toSet());
    Set<String> untold = new TreeSet<>();
    JUDGES.forEach(name -> add(untold, name, known, true));
    FORMS.forEach(name -> add(untold, name, known, false));
    assertThat(untold).as("teach these to KeptSentences").isEmpty();
  }

  /** These are put together from parts, so written out here as they come. */
  @Test
  void knowsTheChecksOfARateVersionWithAndWithoutMeterSize() {
    assertThat(
            List.of(
                "charge 'Base' is given twice; keep one amount",
                "charge 'Base' for 2 in is given twice; keep one amount",
                "two block tables hold in month 5; make first_month and last_month of the seasons"
                    + " meet without overlap",
                "two block tables for meter size 2 in hold in month 5; make first_month and"
                    + " last_month of the seasons meet without overlap",
                "no block table holds in month 5; extend a season or add blocks without one",
                "no block table for meter size 2 in holds in month 5; extend a season or add blocks"
                    + " without one"))
        .allSatisfy(check -> assertThat(KeptSentences.find(check)).isNotEmpty());
  }

  /** What is written into the record of changes: verb, kind of thing. */
  private static final Pattern RECORDED = Pattern.compile("\\brecord\\(([^;{]*?)\\);");

  private static final Pattern WORD = Pattern.compile("\"([a-z][a-z -]*)\"");

  /** Names of fields kept beside, and where a change came from. */
  private static final Set<String> BESIDE =
      Set.of(
          "first start", "kind", "recipient", "register", "row", "rows", "unsubscribe ", "value");

  @Test
  void everyVerbAndKindOfTheHistoryHasAName() throws IOException {
    Properties spanish = new Properties();
    try (Reader in =
        Files.newBufferedReader(Path.of("src/main/resources/messages_es.properties"))) {
      spanish.load(in);
    }
    Set<String> unnamed = new TreeSet<>();
    for (Path file : files(SOURCES)) {
      String code = read(file);
      if (code.contains("ChangeHistory")) {
        RECORDED
            .matcher(code)
            .results()
            .flatMap(call -> WORD.matcher(call.group(1)).results())
            .map(word -> word.group(1))
            .filter(
                word ->
                    !BESIDE.contains(word)
                        && !spanish.containsKey("history.did." + word.replace(' ', '-'))
                        && !spanish.containsKey("history.kind." + word.replace(' ', '-')))
            .forEach(unnamed::add);
      }
    }
    assertThat(unnamed).as("name these under history.did. or history.kind.").isEmpty();
  }

  private static void add(Set<String> untold, String name, Set<String> known, boolean all) {
    for (Path file : files(SOURCES.resolve(name))) {
      String path = SOURCES.relativize(file).toString();
      if (OF_PARTS.contains(path) || path.startsWith("tariff/owrs/")) {
        continue; // the API alone reads rate files of that format
      }
      String code =
          read(file)
              .replaceAll("(?s)\"\"\".*?\"\"\"|/\\*.*?\\*/|(?m)^\\s*//.*$", "")
              .replaceAll("\\.formatted\\((?:[^()]|\\([^()]*\\))*\\)", "");
      Stream<String> texts =
          all
              ? texts(code)
              : THROWN.matcher(code).results().flatMap(found -> argument(code, found.end()));
      texts
          .filter(text -> SENTENCE.matcher(text).find() && !SQL.matcher(text).find())
          .filter(text -> !known.contains(bare(text)) && !NOT_ON_PAGES.contains(text))
          .forEach(text -> untold.add(SOURCES.relativize(file) + ": " + text));
    }
  }

  /** The first literals inside a call's parentheses. */
  private static Stream<String> argument(String code, int start) {
    int depth = 1;
    int end = start;
    boolean quoted = false;
    while (depth > 0 && end < code.length()) {
      char c = code.charAt(end);
      if (c == '"' && code.charAt(end - 1) != '\\') {
        quoted = !quoted;
      } else if (!quoted) {
        depth += c == '(' ? 1 : c == ')' ? -1 : 0;
      }
      end++;
    }
    return texts(code.substring(start, Math.max(start, end - 1)));
  }

  private static Stream<String> texts(String code) {
    return LITERALS
        .matcher(code)
        .results()
        .map(found -> found.group().replaceAll("\"\\s*\\+\\s*\"", "").replaceAll("^\"|\"$", ""));
  }

  /** A sentence without what fills it. */
  private static String bare(String sentence) {
    return sentence
        .replaceAll("\\{L}", "# L")
        .replaceAll("\\{C}", "# °C")
        .replaceAll("\\{K}", "# K")
        .replaceAll("\\{\\w}|%[,.\\d]*[sdf]", "#")
        .replace("'#'", "#")
        .replace("%%", "%")
        .replaceFirst(" $", " #");
  }

  private static List<Path> files(Path folder) {
    try (Stream<Path> files = Files.walk(folder)) {
      return files.filter(file -> file.toString().endsWith(".java")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static String read(Path file) {
    try {
      return Files.readString(file);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
