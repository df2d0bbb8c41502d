package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Passwords after NIST SP 800-63B-4 section 3.1.1.2: minimum 15 as a single factor, at least 64
 * accepted, Unicode accepted, no composition rules, common and own-name ones refused.
 */
class PasswordRulesTest {

  private final PasswordRules rules = new PasswordRules();

  @ParameterizedTest
  @ValueSource(
      strings = {
        "correct ibex battery gneiss",
        "qualmish ibex and turnip",
        "aaaa bbbb cccc dddd gneiss",
        "ヘリコプターで東京へ飛んだ昨日の朝",
        "пятеро ежей на крыше",
        "xK9#vRt2!mQ8zLw",
        "               gneiss"
      })
  void takesLongPhrasesInAnyScriptWithoutRulesOfComposition(String password) {
    assertThat(rules.check(password, "ann@firm.test", "Ann Miller")).isEmpty();
  }

  @ParameterizedTest
  @CsvSource({
    "short phrase 1, TOO_SHORT",
    "passwordpassword, COMMON",
    "P@ssw0rdP@ssw0rd1!, COMMON",
    "Password123456789, COMMON",
    "qwertyuiopasdfghjkl, COMMON",
    "1qaz2wsx3edc4rfv, COMMON",
    "aaaaaaaaaaaaaaaaaaaa, COMMON",
    "123456789012345678, COMMON",
    "abcdefghijklmnopqrst, COMMON",
    "Summer2026!Summer2026!, COMMON",
    "iloveyou-iloveyou-1, COMMON",
    "ChickenWing101!, COMMON",
    "23176djivanfros, COMMON",
    "NewProject2004!!, COMMON",
    "chickenwing101chickenwing101, COMMON",
    "12345678900987654321, COMMON",
    "Correct Horse Battery Staple, COMMON",
    "tower water ledger 1, OWN_NAME",
    "ann.miller.firm.2026, OWN_NAME",
  })
  void refusesWhatGuessersTryFirst(String password, PasswordFault fault) {
    assertThat(rules.check(password, "ann@firm.test", "Ann Miller")).contains(fault);
  }

  @Test
  void knowsAHundredThousandLeakedOnes() {
    LeakedPasswords leaked = new LeakedPasswords();

    assertThat(leaked.size()).isGreaterThan(90_000);
    assertThat(leaked.isOne("123456789qwerty")).isTrue();
    assertThat(leaked.isOne("correct ibex battery gneiss")).isFalse();
  }

  @Test
  void countsCodePointsNotBytesOrHalves() {
    assertThat(rules.check("🦔".repeat(7) + "🦊🐢🦎🐝🦉🐌🦡", "a@b.test", "A"))
        .contains(PasswordFault.TOO_SHORT);
    assertThat(rules.check("🦔🐢🦎🐝🦉🐌🦡🦔🐝🦎🐢🦉🐌🦡ж", "a@b.test", "A")).isEmpty();
  }

  @Test
  void takes256CharactersAndRefusesMore() {
    String phrase = "gneiss ".repeat(37).substring(0, 256);

    assertThat(rules.check(phrase, "a@b.test", "A")).isEmpty();
    assertThat(rules.check(phrase + "x", "a@b.test", "A")).contains(PasswordFault.TOO_LONG);
  }

  @Test
  void refusesAMillionCharactersWithoutReadingThem() {
    String million = "x".repeat(1_000_000);
    Passwords passwords = new Passwords();
    String hash = passwords.hash("correct horse battery staple");

    assertThat(rules.check(million, "a@b.test", "A")).contains(PasswordFault.TOO_LONG);
    assertThat(
            org.junit.jupiter.api.Assertions.assertTimeout(
                Duration.ofSeconds(1), () -> passwords.matches(million, hash)))
        .isFalse();
  }

  @Test
  void hashesTheSameWhicheverWayAnAccentIsTyped() {
    Passwords passwords = new Passwords();
    String hash = passwords.hash("caf\u00e9 au lait at noon");

    assertThat(hash).startsWith("$argon2id$v=19$m=19456,t=2,p=1$");
    assertThat(passwords.matches("cafe\u0301 au lait at noon", hash)).isTrue();
    assertThat(passwords.matches("cafe au lait at noon", hash)).isFalse();
  }
}
