package towerledger.office.report;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** What the pages on reports show. */
final class ReportsView {

  private ReportsView() {}

  /**
   * All customers and what waits.
   *
   * @param lead how it stands, in a sentence
   * @param missing the setting without which nothing is sent; null for none
   * @param held drafts to look at
   * @param troubles mails to see to
   * @param search what was sought
   * @param rows customers found
   * @param before address of the rows before; null where there are none
   * @param after address of the rows after
   */
  record Shelf(
      String lead,
      @Nullable String missing,
      List<Line> held,
      List<Trouble> troubles,
      String search,
      List<Row> rows,
      @Nullable String before,
      @Nullable String after) {}

  /** A link with a few words. */
  record Line(String path, String name, String says) {}

  /** A mail that did not arrive. */
  record Trouble(
      long id, String recipient, String report, String path, String status, String answer) {}

  /** A customer. */
  record Row(
      String path,
      String name,
      String plan,
      String next,
      int recipients,
      String newest,
      @Nullable String newestPath) {}

  /**
   * One customer's plan and reports.
   *
   * @param code code of the customer
   * @param name its name
   * @param lead how it stands, in a sentence
   * @param missing the setting without which nothing is sent; null for none
   * @param form the plan as typed
   * @param trouble what is wrong with it; null for nothing
   * @param languages languages there are texts in
   * @param hours hours of a day
   * @param leavers recipients who asked to be left alone
   * @param months months to write a report of
   * @param issues reports written, newest first
   */
  record One(
      String code,
      String name,
      String lead,
      @Nullable String missing,
      PlanForm form,
      @Nullable String trouble,
      List<String> languages,
      List<Integer> hours,
      List<String> leavers,
      List<Choice> months,
      List<IssueRow> issues) {}

  /** A plan as it is typed. */
  record PlanForm(
      boolean active,
      String day,
      int hour,
      String zone,
      String language,
      String units,
      boolean onlyNotable,
      boolean held,
      String manager,
      String replyTo,
      String recipients) {}

  /** A choice with its name. */
  record Choice(String value, String name) {}

  /** A report in a list; its subject is in its own language, told by a tag. */
  record IssueRow(
      String path, String month, String status, String subject, String language, String when) {}

  /**
   * One report.
   *
   * @param id its key
   * @param customer name of the customer
   * @param customerPath its page
   * @param month month and edition
   * @param subject subject of the mail
   * @param language tag of the language it is written in
   * @param state how far it has come, in a sentence
   * @param draft whether it can still be changed
   * @param digest what whoever approves has seen
   * @param note the account manager's words
   * @param noteBy who says them
   * @param recipients who would get it
   * @param missing the setting without which nothing is sent; null for none
   * @param pages address of the mail as it arrives
   * @param mails what became of it, a row a recipient
   */
  record Issue(
      long id,
      String customer,
      String customerPath,
      String month,
      String subject,
      String language,
      String state,
      boolean draft,
      String digest,
      String note,
      String noteBy,
      List<String> recipients,
      @Nullable String missing,
      List<Mail> mails) {}

  /** What became of a report at one recipient. */
  record Mail(
      long id,
      String recipient,
      String status,
      boolean trouble,
      String answer,
      String messageId,
      List<String> log) {}
}
