package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The same upload has the same hash whatever boundary the client drew for it. */
class BodyHashTest {

  private static final String BODY =
      """
      --%1$s\r
      Content-Disposition: form-data; name="file"; filename="a.csv"\r
      \r
      meter,read_at\r
      --not the boundary\r
      -\r
      --\r
      M-1,2026-01-01\r
      --%1$s--\r
      """;

  @ParameterizedTest
  @ValueSource(ints = {1, 2, 3, 7, 64, 4096})
  void ignoresTheBoundaryAndTheSizeOfTheChunks(int chunk) {
    assertThat(hash("first", BODY.formatted("first"), chunk))
        .isEqualTo(hash("another-one", BODY.formatted("another-one"), 5));
  }

  @Test
  void seesEveryChangeOfTheContent() {
    String changed = BODY.replace("M-1", "M-2");

    assertThat(hash("b", changed.formatted("b"), 9))
        .isNotEqualTo(hash("b", BODY.formatted("b"), 9));
  }

  @Test
  void isPlainSha256WithoutABoundary() {
    // FIPS 180-4, example 'abc'
    assertThat(hash(null, "abc", 2))
        .isEqualTo("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  }

  private static String hash(String boundary, String body, int chunk) {
    BodyHash hash = new BodyHash(boundary);
    byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
    for (int from = 0; from < bytes.length; from += chunk) {
      hash.add(bytes, from, Math.min(chunk, bytes.length - from));
    }
    return hash.hex();
  }
}
