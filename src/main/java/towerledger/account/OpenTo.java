package towerledger.account;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;

/**
 * Says which roles a handler of web requests is open to, and what it needs of them.
 *
 * <p>Closed by default: without this a handler of the portal is open to customers and any other to
 * the office alone. The annotation of a method counts before that of its class. It opens the door
 * only; whose things a viewer sees behind it is {@code site.SiteAccess}'s to say.
 */
@Target({ElementType.METHOD, ElementType.TYPE})
@Retention(RetentionPolicy.RUNTIME)
public @interface OpenTo {

  /** The roles that may come in. */
  Role[] value();

  /** What the viewer must be allowed to do. */
  Need need() default Need.BY_METHOD;

  /** What a request does to the ledger. */
  enum Need {
    /** {@link #LOOK} for GET and HEAD, {@link #CHANGE} for anything else. */
    BY_METHOD,
    /** Changes nothing, though it may be a POST: a calculation. */
    LOOK,
    /** Hands in readings, samples, heat loads or visits. */
    ENTER,
    /** Changes anything else; a token needs {@link TokenScope#ALL}. */
    CHANGE
  }
}
