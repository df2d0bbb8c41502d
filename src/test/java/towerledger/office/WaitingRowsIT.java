package towerledger.office;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.multipart;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.post;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.nio.charset.StandardCharsets;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import org.junit.jupiter.api.Test;
import org.springframework.mock.web.MockMultipartFile;
import towerledger.ApplicationOnH2;
import towerledger.PageCases;
import towerledger.SignedIn;

/** Rows of one file that wait, settled together. */
@ApplicationOnH2
class WaitingRowsIT extends PageCases {

  @Test
  void triesAllAgainOnceWhatTheyNeedIsThere() throws Exception {
    String receipt =
        handIn(
            "sites.csv",
            """
            site,customer,name,time_zone
            WR-S1,WR-C,"Plant, one",UTC
            WR-S2,WR-OTHER,Plant two,UTC
            WR-S3,WR-C,Plant three,UTC
            """);
    String page = receipt + "/waiting/sites";
    assertThat(open("/intake")).contains("href=\"" + page + "\"").contains("3 rows wait");
    assertThat(open(page)).contains("sites, line 2", "sites, line 3", "sites, line 4");

    handIn("customers.csv", "customer,name\nWR-C,Waiting Mills\n");
    String back = press(page + "/retry");

    assertThat(back).isEqualTo(page);
    assertThat(count("SELECT COUNT(*) FROM site_site WHERE code IN ('WR-S1', 'WR-S3')"))
        .isEqualTo(2);
    assertThat(count("SELECT COUNT(*) FROM site_site WHERE name = 'Plant, one'")).isEqualTo(1);
    assertThat(open(page)).contains("sites, line 3").doesNotContain("sites, line 2");
    assertThat(
            count(
                "SELECT COUNT(*) FROM account_change WHERE thing_kind = 'quarantined rows'"
                    + " AND action = 'mended' AND thing_code LIKE 'sites of import %' AND"
                    + " before_json LIKE '%2%'"))
        .isEqualTo(1);

    assertThat(press(page + "/drop")).isEqualTo("/intake");
    assertThat(open("/intake")).doesNotContain("WR-S2");
    asksFor(page, signedIn.office(), status().isNotFound());
  }

  @Test
  void triesAThousandAtATimeAndGoesOnWhereItStopped() throws Exception {
    String receipt =
        handIn(
            "sites.csv",
            "site,customer,name,time_zone\n"
                + IntStream.range(0, 1003)
                    .mapToObj(i -> "WM-S%d,WM-C,Plant %d,UTC".formatted(i, i))
                    .collect(Collectors.joining("\n")));
    String page = receipt + "/waiting/sites";
    assertThat(open(page)).contains("1,003 rows wait").contains("?from=100");
    assertThat(open(page + "?from=1000")).contains("sites, line 1004").contains("?from=900");

    String next = press(page + "/retry");
    assertThat(next).startsWith(page + "?after=");
    String after = next.substring(next.indexOf('=') + 1);
    assertThat(open(next)).contains("name=\"after\" value=\"" + after + "\"");

    handIn("customers.csv", "customer,name\nWM-C,Many Mills\n");
    press(page + "/retry", after);
    assertThat(count("SELECT COUNT(*) FROM site_site WHERE code LIKE 'WM-S%'")).isEqualTo(3);
    press(page + "/drop");
  }

  private String handIn(String name, String content) throws Exception {
    return mvc.perform(
            multipart("/intake")
                .file(
                    new MockMultipartFile(
                        "file", name, "text/csv", content.getBytes(StandardCharsets.UTF_8)))
                .with(SignedIn.page(signedIn.office())))
        .andExpect(status().is3xxRedirection())
        .andReturn()
        .getResponse()
        .getRedirectedUrl();
  }

  private String press(String path) throws Exception {
    return press(path, "0");
  }

  private String press(String path, String after) throws Exception {
    return mvc.perform(post(path).param("after", after).with(SignedIn.page(signedIn.office())))
        .andExpect(status().is3xxRedirection())
        .andReturn()
        .getResponse()
        .getRedirectedUrl();
  }
}
