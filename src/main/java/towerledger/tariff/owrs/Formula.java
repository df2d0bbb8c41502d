package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.math.MathContext;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.function.Function;

/**
 * A formula of names, decimal numbers, + − * / and parentheses, worked out in decimals of 34
 * digits. Anything else is refused with its place.
 */
final class Formula {

  private static final int DEEPEST_NESTING = 50;
  private static final int LONGEST_FORMULA = 2000;

  private final Node root;

  private Formula(Node root) {
    this.root = root;
  }

  /**
   * Reads a formula.
   *
   * @throws IllegalArgumentException naming the place where it stops making sense
   */
  static Formula parse(String text) {
    if (text.length() > LONGEST_FORMULA) {
      throw new IllegalArgumentException(
          "a formula has %d characters, more than %d; split it into parts"
              .formatted(text.length(), LONGEST_FORMULA));
    }
    Parser parser = new Parser(text);
    Node node = parser.sum(0);
    parser.skipSpace();
    if (parser.at < text.length()) {
      throw parser.wrong("an operator");
    }
    return new Formula(node);
  }

  BigDecimal value(Function<String, BigDecimal> names) {
    return value(root, names);
  }

  /** The terms added up or taken off at the top of the formula, each a formula of its own. */
  List<Formula> terms() {
    List<Formula> terms = new ArrayList<>();
    addTerms(root, false, terms);
    return terms;
  }

  Set<String> names() {
    Set<String> names = new LinkedHashSet<>();
    addNames(root, names);
    return names;
  }

  /** The name when the formula is nothing but a name, else empty. */
  String name() {
    return root instanceof Name name ? name.text() : "";
  }

  @Override
  public String toString() {
    return write(root);
  }

  private static void addTerms(Node node, boolean negative, List<Formula> terms) {
    if (node instanceof Operation operation && operation.sign() == '+') {
      addTerms(operation.left(), negative, terms);
      addTerms(operation.right(), negative, terms);
    } else if (node instanceof Operation operation && operation.sign() == '-') {
      addTerms(operation.left(), negative, terms);
      addTerms(operation.right(), !negative, terms);
    } else {
      terms.add(
          new Formula(negative ? new Operation('-', new Constant(BigDecimal.ZERO), node) : node));
    }
  }

  private static void addNames(Node node, Set<String> names) {
    if (node instanceof Name name) {
      names.add(name.text());
    } else if (node instanceof Operation operation) {
      addNames(operation.left(), names);
      addNames(operation.right(), names);
    }
  }

  private static BigDecimal value(Node node, Function<String, BigDecimal> names) {
    if (node instanceof Constant constant) {
      return constant.value();
    }
    if (node instanceof Name name) {
      return names.apply(name.text());
    }
    Operation operation = (Operation) node;
    BigDecimal left = value(operation.left(), names);
    BigDecimal right = value(operation.right(), names);
    return switch (operation.sign()) {
      case '+' -> left.add(right);
      case '-' -> left.subtract(right);
      case '*' -> left.multiply(right, MathContext.DECIMAL128);
      default -> {
        if (right.signum() == 0) {
          throw new IllegalArgumentException("it divides by zero in '%s'".formatted(write(node)));
        }
        yield left.divide(right, MathContext.DECIMAL128);
      }
    };
  }

  private static String write(Node node) {
    if (node instanceof Constant constant) {
      return constant.value().toPlainString();
    }
    if (node instanceof Name name) {
      return name.text();
    }
    Operation operation = (Operation) node;
    return "(" + write(operation.left()) + operation.sign() + write(operation.right()) + ")";
  }

  private sealed interface Node {}

  private record Constant(BigDecimal value) implements Node {}

  private record Name(String text) implements Node {}

  private record Operation(char sign, Node left, Node right) implements Node {}

  private static final class Parser {

    private final String text;
    private int at;

    Parser(String text) {
      this.text = text;
    }

    Node sum(int depth) {
      Node left = product(depth);
      while (next('+') || next('-')) {
        char sign = text.charAt(at++);
        left = new Operation(sign, left, product(depth));
      }
      return left;
    }

    private Node product(int depth) {
      Node left = factor(depth);
      while (next('*') || next('/')) {
        char sign = text.charAt(at++);
        left = new Operation(sign, left, factor(depth));
      }
      return left;
    }

    private Node factor(int depth) {
      if (depth > DEEPEST_NESTING) {
        throw new IllegalArgumentException(
            "it nests deeper than %d parentheses; simplify it".formatted(DEEPEST_NESTING));
      }
      if (next('-')) {
        at++;
        return new Operation('-', new Constant(BigDecimal.ZERO), factor(depth + 1));
      }
      if (next('(')) {
        at++;
        Node inner = sum(depth + 1);
        if (!next(')')) {
          throw wrong("')'");
        }
        at++;
        return inner;
      }
      skipSpace();
      int start = at;
      while (at < text.length() && (Character.isDigit(text.charAt(at)) || text.charAt(at) == '.')) {
        at++;
      }
      boolean letterFollows =
          at < text.length() && (Character.isLetter(text.charAt(at)) || text.charAt(at) == '_');
      if (at > start && !letterFollows) {
        String digits = text.substring(start, at);
        if (!digits.matches("\\d+\\.?\\d*|\\.\\d+")) {
          at = start;
          throw wrong("a number");
        }
        return new Constant(new BigDecimal(digits));
      }
      at = start;
      while (at < text.length()
          && (Character.isLetterOrDigit(text.charAt(at)) || text.charAt(at) == '_')) {
        at++;
      }
      if (at == start || Character.isDigit(text.charAt(start))) {
        at = start;
        throw wrong("a name, a number or '('");
      }
      String name = text.substring(start, at);
      if (next('(')) {
        throw new IllegalArgumentException(
            "it calls a function '%s'; only + - * / and parentheses are understood"
                .formatted(name));
      }
      return new Name(name);
    }

    private boolean next(char sign) {
      skipSpace();
      return at < text.length() && text.charAt(at) == sign;
    }

    void skipSpace() {
      while (at < text.length() && Character.isWhitespace(text.charAt(at))) {
        at++;
      }
    }

    IllegalArgumentException wrong(String expected) {
      return new IllegalArgumentException(
          at >= text.length()
              ? "formula '%s' ends where %s should follow".formatted(text, expected)
              : "formula '%s' has '%s' where %s should be"
                  .formatted(text, text.substring(at, Math.min(at + 20, text.length())), expected));
    }
  }
}
