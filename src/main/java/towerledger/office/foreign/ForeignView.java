package towerledger.office.foreign;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** Pages of a foreign table as they are read. */
final class ForeignView {

  private ForeignView() {}

  /**
   * Where a table is handed in.
   *
   * @param kinds what it can become
   * @param kind the kind chosen
   * @param sender the sender typed
   * @param trouble why it was refused; null when it was not
   */
  record Choose(List<Choice> kinds, String kind, String sender, @Nullable String trouble) {}

  /** One of a list to choose from. */
  record Choice(String code, String name) {}

  /**
   * A table with its mapping.
   *
   * @param id its key
   * @param name its name
   * @param kind what it becomes, in words
   * @param about where the mapping comes from, in words
   * @param trouble why it was not taken; null when nothing was tried or all is well
   * @param questions what has to be settled
   * @param layout how the table is cut
   * @param first columns that every row needs or that are filled
   * @param more the other columns
   * @param open whether the others are shown
   * @param names the table's columns that have a name
   * @param heads all of the table's columns
   * @param given its first rows as they came
   * @param columns the interchange columns filled
   * @param becomes the same rows as they become
   * @param verdict how many of them would be taken, in words; empty when they were not tried
   */
  record Mapped(
      String id,
      String name,
      String kind,
      String about,
      @Nullable String trouble,
      List<String> questions,
      Layout layout,
      List<Field> first,
      List<Field> more,
      boolean open,
      List<String> names,
      List<String> heads,
      List<List<String>> given,
      List<String> columns,
      List<Becomes> becomes,
      String verdict) {}

  /**
   * How the table is cut into cells.
   *
   * @param builtRow the header row that the columns offered come from
   * @param builtDelimiter the delimiter that they come from
   */
  record Layout(
      List<Choice> delimiters,
      String delimiter,
      List<Choice> decimals,
      String decimal,
      String headerRow,
      @Nullable String wrongRow,
      String builtRow,
      String builtDelimiter) {}

  /**
   * A column to fill.
   *
   * @param at its number among the columns of its file
   * @param label its name in words
   * @param name its interchange name
   * @param required whether every row needs it
   * @param moment whether it holds a date
   * @param units units it may be in; empty when there is no choice
   * @param wrongFrom what is wrong with where it comes from; null when nothing is
   * @param wrongPattern what is wrong with how its dates are written; null when nothing is
   */
  record Field(
      int at,
      String label,
      String name,
      boolean required,
      boolean moment,
      List<Choice> units,
      String from,
      String and,
      String constant,
      String pattern,
      String unit,
      @Nullable String wrongFrom,
      @Nullable String wrongPattern) {}

  /** A row as it becomes, and why it would wait; empty when it would be taken. */
  record Becomes(List<String> cells, String problem) {}
}
