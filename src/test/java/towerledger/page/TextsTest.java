package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.text.MessageFormat;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Texts of the pages exist in both languages, and no template holds one of its own. */
class TextsTest {

  private static final Path RESOURCES = Path.of("src/main/resources");

  private static final Pattern GAP = Pattern.compile("\\{(\\d+)");

  /** A tag with its attributes, and the text behind it. */
  private static final Pattern TAG =
      Pattern.compile(
          "<(/?[a-zA-Z][\\w:-]*)((?:\\s+[^\\s=>/\"]+(?:\\s*=\\s*\"[^\"]*\")?)*)\\s*/?>([^<]*)");

  private static final Pattern WORD = Pattern.compile("\\p{L}{2,}");
  private static final Pattern SPOKEN_ATTRIBUTE =
      Pattern.compile("\\s(?:aria-label|alt|title|placeholder)=\"[^\"]*\\p{L}{2,}[^\"]*\"");

  private static Properties texts(String name) {
    Properties texts = new Properties();
    try (Reader in = Files.newBufferedReader(RESOURCES.resolve(name), StandardCharsets.UTF_8)) {
      texts.load(in);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return texts;
  }

  private static Set<String> gaps(String text) {
    Set<String> gaps = new TreeSet<>();
    Matcher gap = GAP.matcher(text);
    while (gap.find()) {
      gaps.add(gap.group(1));
    }
    return gaps;
  }

  @Test
  void everyTextExistsInBothLanguagesWithNoGapOfItsOwn() {
    Properties english = texts("messages.properties");
    Properties spanish = texts("messages_es.properties");
    List<String> wrong = new ArrayList<>();
    for (String key : english.stringPropertyNames()) {
      String text = spanish.getProperty(key);
      if (text == null) {
        wrong.add(key + " is missing in messages_es.properties");
      } else if (!gaps(english.getProperty(key)).containsAll(gaps(text))) {
        wrong.add(key + " has gaps the English text has not");
      }
    }
    for (String key : spanish.stringPropertyNames()) {
      if (!english.containsKey(key)) {
        wrong.add(key + " is missing in messages.properties");
      }
    }
    assertThat(wrong).isEmpty();
  }

  @Test
  void everyTextIsAWholeFormat() {
    for (String name : List.of("messages.properties", "messages_es.properties")) {
      Properties texts = texts(name);
      for (String key : texts.stringPropertyNames()) {
        String text = texts.getProperty(key);
        if (text.contains("{")) {
          assertThat(
                  new MessageFormat(text, Locale.US).format(new Object[] {1, 1, 1, 1, 1, 1, 1, 1}))
              .as("%s in %s", key, name)
              .doesNotContain("{");
        }
      }
    }
  }

  static Stream<Path> templates() throws IOException {
    try (Stream<Path> files = Files.walk(RESOURCES.resolve("templates"))) {
      return files.filter(file -> file.toString().endsWith(".html")).toList().stream();
    }
  }

  /** The prototype text inside an element with {@code th:text} is never served. */
  private static List<String> untranslated(String template) {
    List<String> found = new ArrayList<>();
    String plain = template.replaceAll("(?s)<!--.*?-->|<style.*?</style>", "");
    Matcher tag = TAG.matcher(plain);
    while (tag.find()) {
      boolean filled = tag.group(2).matches("(?s).*\\sth:(?:text|utext|replace|insert)=.*");
      if (!filled && WORD.matcher(tag.group(3)).find()) {
        found.add(tag.group(3).strip());
      }
      Matcher spoken = SPOKEN_ATTRIBUTE.matcher(tag.group(2));
      while (spoken.find()) {
        found.add(spoken.group().strip());
      }
    }
    return found;
  }

  @ParameterizedTest
  @MethodSource("templates")
  void noTemplateHoldsAText(Path template) throws IOException {
    assertThat(untranslated(Files.readString(template))).isEmpty();
  }

  @Test
  void seesATextThatATemplateHolds() {
    assertThat(untranslated("<p>Losing water</p>")).containsExactly("Losing water");
    assertThat(untranslated("<p th:text=\"#{a}\">Losing</p> after <b>x</b>"))
        .containsExactly("after");
    assertThat(untranslated("<a aria-label=\"Next month\"></a>")).hasSize(1);
    assertThat(untranslated("<p th:text=\"${a > 1} ? #{b} : #{c}\">Losing</p>")).isEmpty();
  }
}
