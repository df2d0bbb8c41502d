package towerledger.office.describe;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * A form.
 *
 * @param sheet what is described, as in addresses
 * @param editing whether the thing is there already
 * @param title name of the page
 * @param first fields shown at once
 * @param more fields folded away
 * @param open whether the folded fields are shown, since one of them needs a look
 * @param trouble why the form was not taken; empty where it was not refused
 * @param changed whether somebody else changed the thing meanwhile
 * @param back address of where the thing belongs
 * @param related other forms that go with it
 */
record DescribeView(
    String sheet,
    boolean editing,
    String title,
    List<Field> first,
    List<Field> more,
    boolean open,
    String trouble,
    boolean changed,
    String back,
    List<Way> related) {

  /** Whether a field itself says what is wrong. */
  public boolean marked() {
    return first.stream().anyMatch(field -> field.wrong() != null)
        || more.stream().anyMatch(field -> field.wrong() != null);
  }

  /**
   * A field.
   *
   * @param name its column
   * @param label its name in words
   * @param unit unit it is typed in; empty where it has none
   * @param value what is typed or known
   * @param was what was known when the form was opened
   * @param required whether it must be filled
   * @param fixed whether it names the thing and cannot be changed
   * @param says what a fixed value says in words; null where it says it by itself
   * @param type how it is typed: {@code text}, {@code date}, {@code time} or {@code datetime-local}
   * @param number whether it is a number
   * @param choices codes with their names; empty where anything may be typed
   * @param suggestions what is likely; may be left for something else
   * @param wrong what is wrong with it; null where nothing is
   * @param now what somebody else changed it to meanwhile; null where nobody did
   */
  record Field(
      String name,
      String label,
      String unit,
      String value,
      String was,
      boolean required,
      boolean fixed,
      @Nullable String says,
      String type,
      boolean number,
      List<Choice> choices,
      List<Choice> suggestions,
      @Nullable String wrong,
      @Nullable String now) {}

  /** A code and what it is called; empty where the code says it. */
  record Choice(String code, String name) {}

  /** A way to another page. */
  record Way(String path, String name) {}
}
