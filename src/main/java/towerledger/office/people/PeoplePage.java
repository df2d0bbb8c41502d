package towerledger.office.people;

import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import towerledger.account.AccountException;
import towerledger.account.Customers;
import towerledger.account.LetterTroubles;
import towerledger.account.People;
import towerledger.account.Person;
import towerledger.account.Role;
import towerledger.account.Sessions;
import towerledger.account.Token;
import towerledger.account.Tokens;
import towerledger.account.Viewer;
import towerledger.drawing.FigureText;
import towerledger.site.Assignments;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Composes the pages on people and tokens. */
@Component
class PeoplePage {

  private static final int SHOWN = 200;
  private static final int SUGGESTED = 500;

  private final People people;
  private final Tokens tokens;
  private final Customers customers;
  private final LetterTroubles letters;
  private final Sessions sessions;
  private final Assignments assignments;
  private final MessageSource messages;
  private final JdbcClient jdbc;
  private final Clock clock;

  PeoplePage(
      People people,
      Tokens tokens,
      Customers customers,
      LetterTroubles letters,
      Sessions sessions,
      Assignments assignments,
      MessageSource messages,
      JdbcClient jdbc,
      Clock clock) {
    this.people = people;
    this.tokens = tokens;
    this.customers = customers;
    this.letters = letters;
    this.sessions = sessions;
    this.assignments = assignments;
    this.messages = messages;
    this.jdbc = jdbc;
    this.clock = clock;
  }

  PeopleView.Everybody everybody(
      String search,
      PeopleView.InvitationForm form,
      @Nullable AccountException refusal,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    List<Person> found = people.list(search, SHOWN + 1);
    List<Person> shown = found.subList(0, Math.min(found.size(), SHOWN));
    Map<Long, LetterTroubles.Trouble> troubles =
        letters.of(shown.stream().map(Person::id).toList());
    People.Count count = people.count();
    return new PeopleView.Everybody(
        words.of("people.lead", count.canSignIn(), count.invited()),
        search,
        shown.stream().map(person -> row(person, troubles.get(person.id()), words, text)).toList(),
        found.size() > SHOWN,
        form,
        suggested("account_customer"),
        refused(refusal, words, text));
  }

  private static PeopleView.@Nullable Refused refused(
      @Nullable AccountException refusal, Words words, FigureText text) {
    return refusal == null
        ? null
        : new PeopleView.Refused(refusal.about(), new ReasonText(words, text).say(refusal));
  }

  /** Codes to choose from with their names; beyond so many they are typed. */
  private List<PeopleView.Named> suggested(String table) {
    return jdbc.sql("SELECT code, name FROM " + table + " ORDER BY code FETCH FIRST ? ROWS ONLY")
        .param(SUGGESTED)
        .query((row, number) -> new PeopleView.Named(row.getString("code"), row.getString("name")))
        .list();
  }

  PeopleView.One one(
      Viewer viewer,
      Person person,
      @Nullable String link,
      @Nullable String trouble,
      FigureText text) {
    Instant now = clock.instant();
    Words words = new Words(messages, text.locale());
    LetterTroubles.Trouble letter = letters.of(List.of(person.id())).get(person.id());
    return new PeopleView.One(
        row(person, letter, words, text),
        person.role().name(),
        person.mayEnter(),
        person.enabled() && !person.hasPassword(),
        person.id() == viewer.personId(),
        letter == null
            ? null
            : words.of(
                "person.letter." + stand(letter),
                text.moment(letter.since(), ZoneOffset.UTC),
                person.email(),
                letter.said()),
        person.role() != Role.TECHNICIAN
            ? List.of()
            : assignments.list(person.id()).stream()
                .map(site -> new PeopleView.Named(site.code(), site.details().name()))
                .toList(),
        person.role() == Role.TECHNICIAN ? suggested("site_site") : List.of(),
        sessions.list(person.email(), "").size(),
        tokens.listOf(person.id()).stream().filter(token -> token.isGoodAt(now)).count(),
        link,
        new ReasonText(words, text).sayIfAny(trouble));
  }

  private static String stand(LetterTroubles.Trouble letter) {
    return letter.givenUp() ? "over" : "waiting";
  }

  private PeopleView.Row row(
      Person person, LetterTroubles.@Nullable Trouble letter, Words words, FigureText text) {
    return new PeopleView.Row(
        person.id(),
        person.name(),
        person.email(),
        words.of("role." + person.role()),
        reach(person, words),
        words.of("people.state." + state(person)),
        letter == null ? null : words.of("people.letter." + stand(letter)),
        moment(person.lastSignedInAt(), "people.never", words, text),
        !person.enabled());
  }

  private String reach(Person person, Words words) {
    return switch (person.role()) {
      case OFFICE -> words.of("people.reach.all");
      case TECHNICIAN -> words.of("people.reach.sites", assignments.list(person.id()).size());
      case CUSTOMER ->
          words.of(
              person.mayEnter() ? "people.reach.customer.enters" : "people.reach.customer",
              customers.get(person.customerId().orElseThrow()).name());
    };
  }

  private static String state(Person person) {
    if (!person.enabled()) {
      return "removed";
    }
    return person.hasPassword() ? person.mustChangePassword() ? "one-time" : "good" : "invited";
  }

  PeopleView.TokenList tokens(
      PeopleView.TokenForm form,
      @Nullable String secret,
      @Nullable AccountException refusal,
      FigureText text) {
    Words words = new Words(messages, text.locale());
    Instant now = clock.instant();
    List<Token> newest = tokens.list(SHOWN);
    return new PeopleView.TokenList(
        words.of("tokens.lead", tokens.countGood()),
        newest.stream().map(token -> row(token, now, words, text)).toList(),
        form,
        secret,
        refused(refusal, words, text));
  }

  private PeopleView.TokenRow row(Token token, Instant now, Words words, FigureText text) {
    String state =
        token.revokedAt().isPresent() ? "revoked" : token.isGoodAt(now) ? "good" : "over";
    return new PeopleView.TokenRow(
        token.id(),
        token.name(),
        people.get(token.personId()).email(),
        words.of("scope." + token.scope()),
        token
            .customerId()
            .map(id -> customers.get(id).name())
            .orElse(words.of("tokens.bound.none")),
        moment(token.expiresAt(), "people.never", words, text),
        moment(token.lastUsedAt(), "people.never", words, text),
        words.of("tokens.state." + state),
        state.equals("good"));
  }

  private static String moment(
      Optional<Instant> at, String otherwise, Words words, FigureText text) {
    return at.map(instant -> text.moment(instant, ZoneOffset.UTC)).orElse(words.of(otherwise));
  }
}
