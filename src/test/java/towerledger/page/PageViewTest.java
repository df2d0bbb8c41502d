package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Who is sent a compressed page: RFC 9110, 12.5.3 (Accept-Encoding, weights of 0 refuse). */
class PageViewTest {

  @ParameterizedTest
  @ValueSource(strings = {"gzip", "gzip, deflate, br", "br;q=1.0, gzip;q=0.8", "deflate,gzip;q=1"})
  void compressesForWhoTakesIt(String encodings) {
    assertThat(PageView.takesGzip(encodings)).isTrue();
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "identity", "br", "gzip;q=0", "deflate, gzip;q=0.0", "x-gzip-not"})
  void sendsItAsItIsToOthers(String encodings) {
    assertThat(PageView.takesGzip(encodings)).isFalse();
    assertThat(PageView.takesGzip(null)).isFalse();
  }
}
