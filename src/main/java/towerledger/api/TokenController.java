package towerledger.api;

import java.time.Duration;
import org.jspecify.annotations.Nullable;
import org.springframework.http.CacheControl;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.AccountException;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.TokenScope;
import towerledger.account.Tokens;
import towerledger.account.Viewer;

/** Makes bearer tokens from e-mail and password. */
@RestController
class TokenController {

  private static final int DEFAULT_DAYS = 365;

  private final Tokens tokens;

  TokenController(Tokens tokens) {
    this.tokens = tokens;
  }

  /**
   * What to make.
   *
   * @param name what the token is for
   * @param scope {@code READ}, {@code WRITE_READINGS} or {@code ALL} (the default)
   * @param customer code of the one customer to bind the token to; absent for all its owner may see
   * @param expiresInDays 1 to 3650; 365 if absent
   */
  record TokenRequest(
      @Nullable String name,
      @Nullable TokenScope scope,
      @Nullable String customer,
      @Nullable Integer expiresInDays) {}

  /**
   * The secret, shown this once.
   *
   * @param token to be sent as {@code Authorization: Bearer …}
   */
  record TokenAnswer(String token) {}

  @OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
  @PostMapping(ApiSecurity.TOKENS)
  ResponseEntity<TokenAnswer> issue(@RequestBody TokenRequest request, Viewer viewer, Actor actor) {
    if (request.name() == null) {
      throw new AccountException("give the token a name: {\"name\": \"what it is for\"}");
    }
    Integer days = request.expiresInDays();
    Tokens.Issued issued =
        tokens.issue(
            viewer,
            request.name(),
            request.scope() == null ? TokenScope.ALL : request.scope(),
            request.customer(),
            Duration.ofDays(days == null ? DEFAULT_DAYS : days),
            actor);
    return ResponseEntity.ok()
        .cacheControl(CacheControl.noStore())
        .body(new TokenAnswer(issued.secret()));
  }
}
