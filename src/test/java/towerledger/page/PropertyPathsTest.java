package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.thymeleaf.context.Context;
import org.thymeleaf.exceptions.TemplateProcessingException;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.templateresolver.StringTemplateResolver;

class PropertyPathsTest {

  private final SpringTemplateEngine quick = engine();
  private final SpringTemplateEngine usual = engine();

  PropertyPathsTest() {
    var paths = new PropertyPaths(quick);
    assertThat(paths).isNotNull();
  }

  /** A row as pages have it. */
  record Row(
      String name, @Nullable String next, boolean waste, List<String> causes, List<String> none) {
    public boolean isSound() {
      return !waste;
    }

    public String getPlace() {
      return "row of " + name;
    }
  }

  /** A page. */
  record View(Row row, Map<String, String> words) {}

  @Test
  void everyExpressionSaysWhatTheExpressionLanguageSays() {
    for (String expression :
        List.of(
            "view.row.name",
            "view.row.next",
            "view.row.waste",
            "view.row.sound",
            "view.row.place",
            "view.row.causes",
            "view.row.causes.size()",
            "view.row.causes[0]",
            "view.words.one",
            "view.row.waste ? 'x' : 'y'",
            "#lists.isEmpty(view.row.causes)",
            "not #lists.isEmpty(view.row.causes)",
            "#lists.isEmpty(view.row.none)",
            "not #lists.isEmpty(view.row.none)",
            "#lists.isEmpty(view.row.next)",
            "#lists.isEmpty(unknown)",
            "unknown",
            "not view.row.waste",
            "null",
            "view.row.name.length()")) {
      String template =
          "<p th:text=\"${" + expression + "}\">-</p><i th:if=\"${" + expression + "}\">+</i>";
      assertThat(twice(quick, template)).as(expression).isEqualTo(twice(usual, template));
    }
  }

  @Test
  void aPropertyThatDoesNotExistIsRefusedAsBefore() {
    assertThatThrownBy(() -> twice(quick, "<p th:text=\"${view.row.nothing}\">-</p>"))
        .isInstanceOf(TemplateProcessingException.class);
    assertThatThrownBy(() -> twice(quick, "<p th:text=\"${view.row.next.length}\">-</p>"))
        .isInstanceOf(TemplateProcessingException.class);
  }

  @Test
  void aLoopSaysHowFarItHasComeAsBefore() {
    String template =
        "<p th:each=\"c, i : ${#numbers.sequence(1, 3)}\" th:classappend=\"${i.first} ? 'f'\""
            + " th:text=\"|${i.index} ${i.count} ${i.last} ${i.odd}|\">-</p>";
    assertThat(twice(quick, template)).isEqualTo(twice(usual, template)).contains("0 1 false true");
  }

  private static String twice(SpringTemplateEngine engine, String template) {
    Context context = new Context();
    context.setVariable(
        "view",
        new View(new Row("Tower 1", null, true, List.of("float"), List.of()), Map.of("one", "1")));
    return engine.process(template, context) + engine.process(template, context);
  }

  private static SpringTemplateEngine engine() {
    SpringTemplateEngine engine = new SpringTemplateEngine();
    engine.setTemplateResolver(new StringTemplateResolver());
    return engine;
  }
}
