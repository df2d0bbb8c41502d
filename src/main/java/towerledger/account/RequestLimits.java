package towerledger.account;

import java.time.Duration;
import org.springframework.boot.context.properties.EnableConfigurationProperties;
import org.springframework.stereotype.Component;

/** How many requests one address and one token may make; see {@link Limits}. */
@Component
@EnableConfigurationProperties(Limits.class)
public class RequestLimits {

  private static final Duration MINUTE = Duration.ofMinutes(1);

  private final Allowances addresses;
  private final Allowances tokens;

  /** Counts from zero. */
  public RequestLimits(Limits limits) {
    this.addresses = new Allowances(limits.requestsPerMinuteAndAddress(), MINUTE);
    this.tokens = new Allowances(limits.requestsPerMinuteAndToken(), MINUTE);
  }

  /** Counts a request; 0, or the seconds to wait where it is one too many. */
  public long waitForAddress(String address) {
    return addresses.take(address);
  }

  /** The same for the bearer of a token. */
  public long waitForToken(String secret) {
    return tokens.take(Secrets.hash(secret));
  }
}
