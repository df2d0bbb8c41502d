package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Where somebody is led after signing in: OWASP ASVS 4.0.3, 5.1.5. */
class OwnPathTest {

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/",
        "/people",
        "/systems/ALD-HIGH/working/2026-09",
        "/?month=2026-10&search=a%20b",
        "/portal/systems/A.1_b?month=2026-10#losses",
        "/people?x=1#//a",
        "/rounds/"
      })
  void followsAPathOfThisProgram(String wish) {
    assertThat(SignInSecurity.isOwnPath(wish)).isTrue();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "",
        "people",
        "//evil.example",
        "///evil.example",
        "/\\evil.example",
        "/.//evil.example",
        "/..//evil.example",
        "/portal/../people",
        "/people/..",
        "/people//evil.example",
        "/;//evil.example",
        "/%2f/evil.example",
        "/%09/evil.example",
        "/\t/evil.example",
        "/people\r\nSet-Cookie: a=b",
        "/people?a={b}",
        "/${b}",
        "https://evil.example",
        "javascript:alert(1)",
        "/sign-out"
      })
  void followsNothingElse(String wish) {
    assertThat(SignInSecurity.isOwnPath(wish)).isFalse();
  }
}
