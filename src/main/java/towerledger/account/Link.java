package towerledger.account;

import java.time.Duration;

/** A link in a letter that lets its reader choose a password, once. */
public record Link(long personId, String email, String name, Purpose purpose) {

  /** Why the link was sent; decides how long it is good. */
  public enum Purpose {
    /** The first password of somebody invited. */
    INVITATION(Duration.ofDays(7)),
    /** A new password for somebody who forgot theirs. */
    RESET(Duration.ofHours(1));

    private final Duration life;

    Purpose(Duration life) {
      this.life = life;
    }

    /** How long a link is good. */
    public Duration life() {
      return life;
    }
  }
}
