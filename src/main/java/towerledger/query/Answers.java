package towerledger.query;

import java.util.IdentityHashMap;
import java.util.Map;
import java.util.Objects;

/** Answers to some questions. */
public final class Answers {

  private final Map<Question<?>, Object> known = new IdentityHashMap<>();

  Answers() {}

  void put(Question<?> question, Object answer) {
    known.put(question, answer);
  }

  /**
   * The answer to one of the questions.
   *
   * @throws NullPointerException when it was not among those asked
   */
  @SuppressWarnings("unchecked") // put with what the question made of its rows
  public <T> T to(Question<T> question) {
    return (T) Objects.requireNonNull(known.get(question), question.sql());
  }
}
