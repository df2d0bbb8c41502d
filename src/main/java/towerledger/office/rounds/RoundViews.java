package towerledger.office.rounds;

import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/** What the pages of rounds show. */
final class RoundViews {

  private RoundViews() {}

  /**
   * What is due.
   *
   * @param lead the sentence it begins with
   * @param sent how many findings the reader was sent to, in words; null where there is none
   * @param search what was sought
   * @param describes whether the list is empty for want of a meter that the reader may describe
   * @param stops systems, longest unread first
   * @param before address of the rows before; null where there are none
   * @param after address of the rows after
   */
  record Due(
      String lead,
      @Nullable String sent,
      String search,
      boolean describes,
      List<Stop> stops,
      @Nullable String before,
      @Nullable String after) {}

  /** A system to be read. */
  record Stop(String system, String name, String whose, String lastRead, boolean due) {}

  /**
   * The sheet of one system.
   *
   * @param system its code
   * @param name its name
   * @param whose site and customer
   * @param lead what was last read, in a sentence
   * @param tasks what waits to be worked on the system
   * @param when time of the sheet in the site's zone, as the form carries it
   * @param zone the site's zone
   * @param meters registers to read
   * @param samples conductivities and pressures to measure
   * @param findings inspection list
   * @param events work that can be logged
   * @param typed what was typed, by name of the field
   * @param chosen boxes that were ticked
   * @param wrong what is wrong with a field, by its name
   * @param photos newest photos
   */
  record Sheet(
      String system,
      String name,
      String whose,
      String lead,
      List<Task> tasks,
      String when,
      String zone,
      List<MeterLine> meters,
      List<Measure> samples,
      List<Group> findings,
      List<String> events,
      Map<String, String> typed,
      Set<String> chosen,
      Map<String, String> wrong,
      List<Picture> photos) {}

  /** A finding that waits for work: its number, the likely causes, what to look at first. */
  record Task(long id, String causes, String checkFirst) {}

  /**
   * A register.
   *
   * @param field name of its field
   * @param name code and what it measures
   * @param unit unit of its counts
   * @param last what was last read and when, in words
   * @param expected the range to expect now, in words; empty where none is known
   * @param low lower bound of the register; empty where none is known
   * @param high upper bound
   */
  record MeterLine(
      String field,
      String name,
      String unit,
      String last,
      String expected,
      String low,
      String high) {}

  /** A value to measure: its field, the text of its name, its unit. */
  record Measure(String field, String label, String unit) {}

  /** Part of the inspection list: its heading and the codes in it. */
  record Group(String name, List<String> codes) {}

  /** A photo with when it was taken. */
  record Picture(long id, String when) {}
}
