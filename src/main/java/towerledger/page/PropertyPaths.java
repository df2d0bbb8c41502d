package towerledger.page;

import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Modifier;
import java.util.Collection;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Component;
import org.thymeleaf.context.IExpressionContext;
import org.thymeleaf.spring6.SpringTemplateEngine;
import org.thymeleaf.spring6.dialect.SpringStandardDialect;
import org.thymeleaf.spring6.expression.SPELVariableExpressionEvaluator;
import org.thymeleaf.standard.expression.IStandardVariableExpression;
import org.thymeleaf.standard.expression.IStandardVariableExpressionEvaluator;
import org.thymeleaf.standard.expression.StandardExpressionExecutionContext;
import org.thymeleaf.standard.expression.VariableExpression;

/**
 * Evaluates the expressions that templates are mostly made of, a name or a name and its properties
 * such as {@code row.name}, by calling the accessor; and whether such a list is empty. Anything
 * else, and whatever is not of this program, is left to the expression language, which takes many
 * times as long for each of the thousands of cells of a page.
 */
@Component
final class PropertyPaths implements IStandardVariableExpressionEvaluator {

  private static final Pattern PATH = Pattern.compile("[A-Za-z]\\w*(\\.[A-Za-z]\\w*){0,4}");

  private static final Pattern EMPTY =
      Pattern.compile("(not )?#lists\\.isEmpty\\((" + PATH.pattern() + ")\\)");

  /** Words of the language, and what it guards: the parameters, session and application. */
  private static final Set<String> NOT_NAMES =
      Set.of(
          "null",
          "true",
          "false",
          "new",
          "not",
          "and",
          "or",
          "eq",
          "ne",
          "lt",
          "le",
          "gt",
          "ge",
          "div",
          "mod",
          "between",
          "instanceof",
          "matches",
          "t",
          "param",
          "session",
          "application",
          "execinfo");

  private static final String OURS = "towerledger.";

  /** How far a loop has come. */
  private static final String LOOP = "org.thymeleaf.engine.IterationStatusVar";

  private final IStandardVariableExpressionEvaluator language =
      SPELVariableExpressionEvaluator.INSTANCE;

  private final Map<Property, Optional<Method>> accessors = new ConcurrentHashMap<>();

  /** Takes the place of the expression language in an engine that has not written anything yet. */
  PropertyPaths(SpringTemplateEngine engine) {
    engine.setDialects(
        engine.getDialects().stream()
            .map(dialect -> dialect instanceof SpringStandardDialect ? new Quicker(this) : dialect)
            .collect(Collectors.toSet()));
  }

  /** The usual dialect, with this way to evaluate. */
  private static final class Quicker extends SpringStandardDialect {

    private final PropertyPaths paths;

    Quicker(PropertyPaths paths) {
      this.paths = paths;
    }

    @Override
    public IStandardVariableExpressionEvaluator getVariableExpressionEvaluator() {
      return paths;
    }
  }

  private record Property(Class<?> owner, String name) {}

  /** What is asked of the value at the end of a path. */
  private enum Asked {
    ITSELF,
    EMPTY,
    NOT_EMPTY
  }

  /** An expression that is a path; kept with the parsed expression, so parsed once. */
  private record Path(String[] names, Asked asked) {}

  @Override
  public @Nullable Object evaluate(
      IExpressionContext context,
      IStandardVariableExpression expression,
      StandardExpressionExecutionContext way) {
    Path path =
        expression instanceof VariableExpression variable && !way.getPerformTypeConversion()
            ? path(variable)
            : null;
    if (path == null) {
      return language.evaluate(context, expression, way);
    }
    Object value = context.getVariable(path.names()[0]);
    for (int step = 1; step < path.names().length; step++) {
      if (value == null) {
        return language.evaluate(context, expression, way); // which says what is missing
      }
      Optional<Method> accessor =
          accessors.computeIfAbsent(
              new Property(value.getClass(), path.names()[step]), PropertyPaths::accessor);
      if (accessor.isEmpty()) {
        return language.evaluate(context, expression, way); // a property of something else
      }
      value = call(accessor.get(), value);
    }
    if (path.asked() == Asked.ITSELF) {
      return value;
    }
    if (value != null && !(value instanceof Collection<?>)) {
      return language.evaluate(context, expression, way);
    }
    boolean empty = value == null || ((Collection<?>) value).isEmpty();
    return empty == (path.asked() == Asked.EMPTY);
  }

  private static @Nullable Path path(VariableExpression expression) {
    Object known = expression.getCachedExpression();
    if (known instanceof Path path) {
      return path;
    }
    if (known != null) {
      return null;
    }
    String text = expression.getExpression();
    Asked asked = Asked.ITSELF;
    Matcher empty = EMPTY.matcher(text);
    if (empty.matches()) {
      asked = empty.group(1) == null ? Asked.EMPTY : Asked.NOT_EMPTY;
      text = empty.group(2);
    }
    if (!PATH.matcher(text).matches()) {
      return null;
    }
    String[] names = text.split("\\.");
    if (Stream.of(names).anyMatch(name -> NOT_NAMES.contains(name.toLowerCase(Locale.ROOT)))) {
      return null;
    }
    Path path = new Path(names, asked);
    expression.setCachedExpression(path);
    return path;
  }

  /** The public method that answers a property: getX, isX or x. */
  private static Optional<Method> accessor(Property property) {
    String owner = property.owner().getName();
    if (!owner.startsWith(OURS) && !owner.equals(LOOP)) {
      return Optional.empty();
    }
    String name = property.name();
    String capital = name.substring(0, 1).toUpperCase(Locale.ROOT) + name.substring(1);
    return Stream.of("get" + capital, "is" + capital, name)
        .flatMap(
            method -> Stream.of(property.owner().getMethods()).filter(m -> isCalled(m, method)))
        .findFirst()
        .map(
            method -> {
              method.setAccessible(true); // records of a page are seen by their module only
              return method;
            });
  }

  private static boolean isCalled(Method method, String name) {
    return method.getName().equals(name)
        && method.getParameterCount() == 0
        && method.getReturnType() != void.class
        && !Modifier.isStatic(method.getModifiers())
        && method.getDeclaringClass() != Object.class;
  }

  private static @Nullable Object call(Method accessor, Object owner) {
    try {
      return accessor.invoke(owner);
    } catch (IllegalAccessException e) {
      throw new IllegalStateException(accessor + " was made accessible, yet is not", e);
    } catch (InvocationTargetException e) {
      throw new IllegalStateException(accessor + " failed: " + e.getCause(), e.getCause());
    }
  }
}
