package towerledger.wording;

import java.util.Locale;
import org.springframework.context.MessageSource;

/**
 * The texts in one reader's language.
 *
 * @param source all texts
 * @param locale the reader's language
 */
public record Words(MessageSource source, Locale locale) {

  /**
   * A text with its gaps filled.
   *
   * @throws org.springframework.context.NoSuchMessageException when there is no such text
   */
  public String of(String key, Object... gaps) {
    return source.getMessage(key, gaps, locale);
  }

  /** The text with a key, or another where there is none with it. */
  public String or(String key, String other) {
    return String.valueOf(source.getMessage(key, null, other, locale));
  }
}
