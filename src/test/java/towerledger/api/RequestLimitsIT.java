package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.servlet.FilterChain;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.mock.web.MockFilterChain;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.security.core.context.SecurityContextHolder;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;
import towerledger.account.AddressLimit;
import towerledger.account.Limits;
import towerledger.account.RequestLimits;
import towerledger.account.Tokens;

/** A flood from one token or one address is told when to come back; others go on. */
@ApplicationOnH2
class RequestLimitsIT {

  private static final Limits THREE_A_MINUTE = new Limits(3, 3, 10, 50, 100, 15);

  @Autowired Tokens tokens;
  @Autowired ProblemWriter problems;
  @Autowired SignedIn signedIn;

  @Test
  void tellsATokenWhenToComeBack() throws Exception {
    var filter = new BearerTokens(tokens, new RequestLimits(THREE_A_MINUTE), problems);
    String busy = signedIn.token(signedIn.office());
    String quiet = signedIn.token(signedIn.office());
    for (int i = 0; i < 3; i++) {
      assertThat(ask(filter, busy).getStatus()).isEqualTo(200);
    }

    MockHttpServletResponse refused = ask(filter, busy);

    assertThat(refused.getStatus()).isEqualTo(429);
    assertThat(Integer.parseInt(refused.getHeader("Retry-After"))).isBetween(1, 60);
    assertThat(refused.getContentAsString()).contains("Too many requests with this token");
    assertThat(ask(filter, quiet).getStatus()).isEqualTo(200);
  }

  private static MockHttpServletResponse ask(BearerTokens filter, String secret) throws Exception {
    var request = new MockHttpServletRequest("GET", "/api/v1/ledger");
    request.addHeader("Authorization", "Bearer " + secret);
    var response = new MockHttpServletResponse();
    FilterChain chain = new MockFilterChain();
    try {
      filter.doFilter(request, response, chain);
    } finally {
      SecurityContextHolder.clearContext();
    }
    return response;
  }

  @Test
  void tellsAnAddressWhenToComeBackBeforeAnythingIsLookedUp() throws Exception {
    var filter = new AddressLimit(new RequestLimits(THREE_A_MINUTE));
    for (int i = 0; i < 3; i++) {
      assertThat(come(filter, "192.0.2.1", "/sign-in").getStatus()).isEqualTo(200);
    }

    MockHttpServletResponse refused = come(filter, "192.0.2.1", "/sign-in");

    assertThat(refused.getStatus()).isEqualTo(429);
    assertThat(Integer.parseInt(refused.getHeader("Retry-After"))).isBetween(1, 60);
    assertThat(come(filter, "192.0.2.2", "/sign-in").getStatus()).isEqualTo(200);
    assertThat(come(filter, "192.0.2.1", "/assets/ledger.css").getStatus()).isEqualTo(200);
    assertThat(come(filter, "192.0.2.1", "/actuator/health").getStatus()).isEqualTo(200);
  }

  private static MockHttpServletResponse come(AddressLimit filter, String address, String path)
      throws Exception {
    var request = new MockHttpServletRequest("GET", path);
    request.setRemoteAddr(address);
    var response = new MockHttpServletResponse();
    filter.doFilter(request, response, new MockFilterChain());
    return response;
  }
}
