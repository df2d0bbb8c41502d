package towerledger.office.people;

import java.util.List;
import org.jspecify.annotations.Nullable;

/** What the pages on people show. */
final class PeopleView {

  private PeopleView() {}

  /**
   * Everybody.
   *
   * @param lead in a sentence
   * @param search what was sought; empty for nothing
   * @param rows the people found
   * @param cut whether there are more than are shown
   * @param form what was typed to invite somebody
   * @param customers customers to choose from
   * @param refused why that was refused; null for nothing
   */
  record Everybody(
      String lead,
      String search,
      List<Row> rows,
      boolean cut,
      InvitationForm form,
      List<Named> customers,
      @Nullable Refused refused) {}

  /**
   * Why something was not done.
   *
   * @param about the field of the form that is to blame; empty for none alone
   * @param says the reason in words
   */
  record Refused(String about, String says) {}

  /**
   * One of them.
   *
   * @param id key
   * @param name as shown
   * @param email sign-in name
   * @param role role in words
   * @param reach whose or which sites they see
   * @param state whether they can sign in, in words
   * @param letter that the last letter did not reach them, in words; null where it did
   * @param lastSignedIn when they last did
   * @param removed whether they were removed
   */
  record Row(
      long id,
      String name,
      String email,
      String role,
      String reach,
      String state,
      @Nullable String letter,
      String lastSignedIn,
      boolean removed) {}

  /**
   * Invites somebody.
   *
   * @param email as typed
   * @param name as typed
   * @param role name of the role
   * @param customer code of a customer's login's customer; empty for none
   * @param mayEnter whether a customer's login may hand in readings
   */
  record InvitationForm(String email, String name, String role, String customer, boolean mayEnter) {

    static final InvitationForm EMPTY = new InvitationForm("", "", "CUSTOMER", "", false);
  }

  /**
   * One person.
   *
   * @param row as in the list
   * @param role name of the role
   * @param mayEnter whether a customer's login may hand in readings
   * @param canBeInvitedAgain whether they have no password yet
   * @param self whether it is the viewer
   * @param letter what came of the last letter that did not reach them; null where it did
   * @param sites assigned sites of a technician
   * @param choices sites to assign
   * @param sessions places where they are signed in
   * @param tokens how many tokens of theirs are good
   * @param link a link to hand over where there is no mail server; null for none
   * @param trouble why the last act was refused; null for nothing
   */
  record One(
      Row row,
      String role,
      boolean mayEnter,
      boolean canBeInvitedAgain,
      boolean self,
      @Nullable String letter,
      List<Named> sites,
      List<Named> choices,
      int sessions,
      long tokens,
      @Nullable String link,
      @Nullable String trouble) {}

  /** A code and the name that goes with it. */
  record Named(String code, String name) {}

  /**
   * The tokens of programs.
   *
   * @param lead in a sentence
   * @param rows newest first
   * @param form what was typed to make one
   * @param secret of the token just made, shown this once; null for none
   * @param refused why none was made; null for nothing
   */
  record TokenList(
      String lead,
      List<TokenRow> rows,
      TokenForm form,
      @Nullable String secret,
      @Nullable Refused refused) {}

  /**
   * Makes a token.
   *
   * @param name what it is for, as typed
   * @param scope name of what it may
   * @param customer code of the customer it is bound to; empty for none
   * @param days how long it is good
   */
  record TokenForm(String name, String scope, String customer, int days) {

    static final TokenForm EMPTY = new TokenForm("", "READ", "", 365);
  }

  /** One token; all in words. */
  record TokenRow(
      long id,
      String name,
      String owner,
      String scope,
      String bound,
      String expires,
      String lastUsed,
      String state,
      boolean good) {}
}
