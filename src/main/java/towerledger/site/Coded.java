package towerledger.site;

import java.util.Arrays;
import java.util.stream.Collectors;

/** A choice that import files, forms and the database write as a short code. */
public interface Coded {

  /** The code in import files, for instance {@code closed-circuit}. */
  String code();

  /**
   * The choice with a code; case and surrounding space are ignored.
   *
   * @throws IllegalArgumentException naming the field and the codes that exist
   */
  static <E extends Enum<E> & Coded> E parse(Class<E> choices, String field, String code) {
    for (E choice : choices.getEnumConstants()) {
      if (choice.code().equalsIgnoreCase(code.strip())) {
        return choice;
      }
    }
    throw new IllegalArgumentException(
        "%s '%s' is not known; use one of %s"
            .formatted(
                field,
                code,
                Arrays.stream(choices.getEnumConstants())
                    .map(Coded::code)
                    .collect(Collectors.joining(", "))));
  }
}
