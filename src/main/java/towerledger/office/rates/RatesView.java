package towerledger.office.rates;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.page.FigureTable;

/** Pages of rates as they are read. */
final class RatesView {

  private RatesView() {}

  /** All schedules. */
  record Shelf(List<Entry> entries) {}

  /**
   * A schedule in the list.
   *
   * @param code its code
   * @param name its name
   * @param service key of the service's name
   * @param since when the rates in force began; when they begin, where none are in force yet
   * @param versions how many versions there are
   * @param systems how many systems are billed on it
   */
  record Entry(String code, String name, String service, String since, int versions, int systems) {}

  /**
   * One schedule.
   *
   * @param code its code
   * @param name its name
   * @param service key of the service's name
   * @param says since when it holds
   * @param versions newest first
   * @param billed systems billed on it, as links
   * @param sites sites billed on it, as links to their bills
   * @param tryOut the form to try a bill
   */
  record Schedule(
      String code,
      String name,
      String service,
      String says,
      List<Version> versions,
      List<Billed> billed,
      List<Billed> sites,
      TryOut tryOut) {}

  /** A system billed on a schedule. */
  record Billed(String code, String name) {}

  /**
   * The rates from a day on.
   *
   * @param from their first day, as in addresses
   * @param holds from when to when, in words
   * @param inForce whether they hold today
   * @param facts what holds for all of a bill, as name and value
   * @param charges fixed amounts per bill; null where there are none
   * @param blocks prices by volume, a table for each season and meter size
   */
  record Version(
      String from,
      String holds,
      boolean inForce,
      List<Fact> facts,
      @Nullable FigureTable charges,
      List<Blocks> blocks) {}

  /** A rule with its value. */
  record Fact(String name, String value) {}

  /** A table of blocks and what it holds for. */
  record Blocks(String title, FigureTable table) {}

  /**
   * A bill tried out.
   *
   * @param from first day billed, as typed
   * @param to first day no longer billed, as typed
   * @param amount use, as typed
   * @param unit code of its unit
   * @param units units to choose from
   * @param meter size of the service meter in inches, as typed
   * @param together code of another schedule on the same bill; empty for none
   * @param others schedules to choose from, as code and name
   * @param wrong what is wrong with a field, by its name
   * @param trouble why there is no bill; null where there is one or none was asked
   * @param bill the bill; null where none was asked or something is wrong
   */
  record TryOut(
      String from,
      String to,
      String amount,
      String unit,
      List<String> units,
      String meter,
      String together,
      List<Billed> others,
      java.util.Map<String, String> wrong,
      @Nullable String trouble,
      @Nullable BillText bill) {}

  /**
   * A bill.
   *
   * @param sentence what it comes to
   * @param lines its lines with their working
   * @param notes what to know besides
   */
  record BillText(String sentence, FigureTable lines, List<String> notes) {}
}
