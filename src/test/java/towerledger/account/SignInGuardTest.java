package towerledger.account;

import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;

/** Guessing is bounded; nobody is locked out by somebody else's guesses. */
class SignInGuardTest {

  private final SignInGuard guard = new SignInGuard(new Limits(100, 100, 5, 20, 40, 60));

  @Test
  void stopsGuessesForOneLoginFromOneAddress() {
    guess("ann@firm.test", "203.0.113.1", 5);

    assertStopped("ann@firm.test", "203.0.113.1", null);
    assertOpen("ann@firm.test", "203.0.113.2", null);
    assertOpen("bob@firm.test", "203.0.113.1", null);
  }

  @Test
  void doesNotCountTheRightPassword() {
    for (int i = 0; i < 100; i++) {
      guard.enter("ann@firm.test", "203.0.113.1", null).cancel();
    }
    assertOpen("ann@firm.test", "203.0.113.1", null);
  }

  @Test
  void stopsOneAddressThatTriesManyLogins() {
    for (int i = 0; i < 20; i++) {
      guess("person" + i + "@firm.test", "203.0.113.1", 1);
    }
    assertStopped("another@firm.test", "203.0.113.1", null);
    assertOpen("another@firm.test", "203.0.113.2", null);
  }

  @Test
  void stopsManyAddressesThatTryOneLoginButNotThePersonsOwnBrowser() {
    for (int i = 0; i < 40; i++) {
      guess("ann@firm.test", "203.0.113." + i, 1);
    }
    assertStopped("ann@firm.test", "198.51.100.7", null);
    assertOpen("ann@firm.test", "198.51.100.7", "her own browser");
    assertOpen("ann@firm.test", "203.0.113.1", "her own browser");
  }

  @Test
  void stopsAStolenBrowserToo() {
    for (int i = 0; i < 5; i++) {
      guard.enter("ann@firm.test", "203.0.113.1", "stolen");
    }
    assertStopped("ann@firm.test", "203.0.113.9", "stolen");
  }

  private void guess(String login, String address, int times) {
    for (int i = 0; i < times; i++) {
      guard.enter(login, address, null);
    }
  }

  private void assertOpen(String login, String address, String device) {
    assertThatCode(() -> guard.enter(login, address, device)).doesNotThrowAnyException();
  }

  private void assertStopped(String login, String address, String device) {
    assertThatThrownBy(() -> guard.enter(login, address, device))
        .isInstanceOfSatisfying(
            TooManyAttempts.class,
            e -> org.assertj.core.api.Assertions.assertThat(e.retryAfterS()).isBetween(1L, 3600L));
  }
}
