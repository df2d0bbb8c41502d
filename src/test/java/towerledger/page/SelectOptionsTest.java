package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;
import towerledger.page.SelectOptions.Choice;

class SelectOptionsTest {

  @Test
  void whatPeopleTypedStaysText() {
    String html =
        SelectOptions.html(
            List.of(new Choice("A\"><script>", "Bow & <b>Sons</b>"), new Choice("C", "Año")), "C");

    assertThat(html)
        .isEqualTo(
            "<option value=\"A&quot;&gt;&lt;script&gt;\">Bow &amp; &lt;b&gt;Sons&lt;/b&gt;</option>"
                + "<option value=\"C\" selected=\"selected\">Año</option>");
  }
}
