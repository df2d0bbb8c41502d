package towerledger.account;

import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How much one address, token or guesser may ask for on one node. Generous for people and programs
 * at work; there to bound a flood.
 *
 * @param requestsPerMinuteAndAddress requests from one network address, files aside
 * @param requestsPerMinuteAndToken requests with one token
 * @param guessesPerLoginAndAddress wrong passwords for one login from one address, or from one
 *     known browser, before attempts are refused
 * @param guessesPerAddress wrong passwords from one address for any login
 * @param guessesPerLogin wrong passwords for one login from all unknown browsers together; NIST SP
 *     800-63B allows no more than 100 in a row
 * @param guessMinutes time in which each of these is allowed anew
 */
@ConfigurationProperties("towerledger.limits")
public record Limits(
    @DefaultValue("18000") int requestsPerMinuteAndAddress,
    @DefaultValue("18000") int requestsPerMinuteAndToken,
    @DefaultValue("10") int guessesPerLoginAndAddress,
    @DefaultValue("50") int guessesPerAddress,
    @DefaultValue("100") int guessesPerLogin,
    @DefaultValue("15") int guessMinutes) {

  public Limits {
    if (Math.min(
            Math.min(requestsPerMinuteAndAddress, requestsPerMinuteAndToken),
            Math.min(
                Math.min(guessesPerLoginAndAddress, guessesPerAddress),
                Math.min(guessesPerLogin, guessMinutes)))
        < 1) {
      throw new IllegalArgumentException("every limit in towerledger.limits has to be 1 or more");
    }
  }
}
