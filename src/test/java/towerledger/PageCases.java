package towerledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.test.web.servlet.MockMvc;
import org.springframework.test.web.servlet.ResultMatcher;
import towerledger.account.Viewer;

/** What tests of pages share: opening one as somebody, and reading what it says. */
public abstract class PageCases {

  @Autowired protected MockMvc mvc;
  @Autowired protected SignedIn signedIn;
  @Autowired protected JdbcClient jdbc;

  /** A whole page as the office sees it. */
  protected String open(String path) throws Exception {
    return open(path, signedIn.office());
  }

  /** A whole page as somebody sees it; it must be complete and hold no gap. */
  protected String open(String path, Viewer viewer) throws Exception {
    String page =
        mvc.perform(get(URI.create(path)).with(SignedIn.page(viewer)))
            .andExpect(status().isOk())
            .andReturn()
            .getResponse()
            .getContentAsString(StandardCharsets.UTF_8);
    assertWhole(page);
    return page;
  }

  /** A page is whole: no text is missing, no figure is a slip of the program. */
  protected static void assertWhole(String page) {
    // A text that is not in the list of texts comes out as ??key_en_US??.
    assertThat(page).doesNotContain("??").doesNotContain(">null<");
    // Only between tags: a token in an attribute may spell anything.
    assertThat(page).doesNotContainPattern(">[^<]*\\bNaN\\b[^<]*<");
    assertThat(page).contains("</html>");
    assertThat(groups("\\sid=\"([^\"]*)\"", page))
        .as("one place for each id")
        .doesNotHaveDuplicates();
    for (String table : groups("(?s)(<table\\b.*?</table>)", page)) {
      assertThat(table).as("a table says what it holds").contains("<caption");
      if (table.contains("folds")) {
        // Cells below each other are no cells to a screen reader: roles say it (WCAG 2.2, 1.3.1).
        assertThat(table).contains("role=\"table\"");
        assertThat(groups("<((?:thead|tbody|tr|th|td)(?![^>]*role=)[^>]*)>", table))
            .as("parts of a folding table without a role")
            .isEmpty();
      }
    }
  }

  protected void asksFor(String path, Viewer viewer, ResultMatcher expected) throws Exception {
    mvc.perform(get(URI.create(path)).with(SignedIn.page(viewer))).andExpect(expected);
  }

  /** The sentence a page leads with. */
  protected static String lead(String page) {
    return group("(?s)<p class=\"lead\"[^>]*>(.*?)</p>", page);
  }

  /** The first group of a pattern that must be there. */
  protected static String group(String pattern, String text) {
    var found = Pattern.compile(pattern).matcher(text);
    assertThat(found.find()).as("'%s' in%n%s", pattern, text).isTrue();
    return found.group(1);
  }

  /** The first group of every place where a pattern is. */
  protected static List<String> groups(String pattern, String text) {
    return Pattern.compile(pattern).matcher(text).results().map(m -> m.group(1)).toList();
  }

  /** A figure as written, as a number. */
  protected static double figure(String text) {
    return Double.parseDouble(text.replace(",", "").replace('−', '-'));
  }

  protected long count(String sql) {
    return jdbc.sql(sql).query(Long.class).single();
  }
}
