package towerledger.office.finding;

import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.finding.Finding;
import towerledger.office.SystemEvents;

/** What the pages of findings show. */
final class FindingViews {

  private FindingViews() {}

  /**
   * The list.
   *
   * @param lead the sentence it begins with
   * @param group which statuses are shown: {@code waiting}, {@code worked} or {@code settled}
   * @param groups all of them with their counts
   * @param rows findings, dearest first
   * @param money whether the reader may see prices
   * @param before address of the rows before; null where there are none
   * @param after address of the rows after
   */
  record Listing(
      String lead,
      String group,
      List<Group> groups,
      List<Row> rows,
      boolean money,
      @Nullable String before,
      @Nullable String after) {}

  /** A group of statuses with how many findings it holds. */
  record Group(String name, long count) {}

  /** A finding in the list. */
  record Row(
      long id,
      String system,
      String whose,
      String causes,
      String since,
      String yearly,
      String status,
      String assignee,
      boolean waste) {}

  /**
   * One finding.
   *
   * @param id its number
   * @param version the version a change starts from
   * @param system code of the system
   * @param title name of the system
   * @param whose site and customer
   * @param sentences what is wrong and what became of it, the first one large
   * @param priced whether the second sentence says what a loss that goes on costs
   * @param status how far it has come
   * @param causes what to check and bring, per cause that the evidence cannot separate
   * @param figures name and value of each figure
   * @param cautions what to mind when working
   * @param steps what happened, newest last
   * @param visits visits to the system while the fault lasted, newest first
   * @param people who may be sent
   * @param assignee who is; 0 where nobody
   * @param mayAssign whether the reader may send somebody
   * @param today latest day work can have been done
   * @param month newest flagged month, as in addresses
   * @param typed what was typed into a form that was refused
   */
  record Page(
      long id,
      long version,
      String system,
      String title,
      String whose,
      List<String> sentences,
      boolean priced,
      String status,
      List<CauseAdvice> causes,
      List<Figure> figures,
      List<String> cautions,
      List<Step> steps,
      List<SystemEvents.Visited> visits,
      List<Finding.Assignee> people,
      long assignee,
      boolean mayAssign,
      String today,
      String month,
      Typed typed) {}

  /** What to do about one cause. */
  record CauseAdvice(String name, String checkFirst, String bring) {}

  /** A figure. */
  record Figure(String name, String value) {}

  /** One thing that happened. */
  record Step(String when, String what, String who, String note) {}

  /**
   * What was typed into a form that was refused.
   *
   * @param form {@code assign}, {@code note} or {@code work}; empty where nothing was refused
   * @param trouble why it was refused, and the remedy
   * @param note the words typed
   * @param day the day typed
   */
  record Typed(String form, String trouble, String note, String day) {

    static Typed nothing() {
      return new Typed("", "", "", "");
    }
  }
}
