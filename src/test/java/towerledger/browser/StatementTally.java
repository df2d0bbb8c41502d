package towerledger.browser;

import java.lang.reflect.InvocationHandler;
import java.lang.reflect.InvocationTargetException;
import java.lang.reflect.Method;
import java.lang.reflect.Proxy;
import java.sql.Connection;
import java.sql.PreparedStatement;
import java.sql.SQLException;
import java.util.Set;
import java.util.concurrent.ConcurrentLinkedQueue;
import javax.sql.DataSource;
import org.jspecify.annotations.Nullable;
import org.springframework.beans.factory.config.BeanPostProcessor;
import org.springframework.jdbc.datasource.DelegatingDataSource;

/**
 * Notes what is sent to the database and how long each answer takes to begin: statements, and the
 * ends of transactions, which wait for an answer too. Beginning one costs no trip.
 */
final class StatementTally implements BeanPostProcessor {

  private static final Set<String> SENT = Set.of("commit", "rollback");

  private final ConcurrentLinkedQueue<Sent> sent = new ConcurrentLinkedQueue<>();

  /**
   * Something sent.
   *
   * @param thread thread that waited for the answer
   */
  record Sent(String statement, long nanos, String thread) {}

  /** What was sent since the last call, in order. */
  java.util.List<Sent> take() {
    java.util.List<Sent> taken = new java.util.ArrayList<>();
    for (Sent next = sent.poll(); next != null; next = sent.poll()) {
      taken.add(next);
    }
    return taken;
  }

  @Override
  public Object postProcessAfterInitialization(Object bean, String name) {
    return bean instanceof DataSource pool ? new Tallied(pool) : bean;
  }

  private final class Tallied extends DelegatingDataSource {
    Tallied(DataSource pool) {
      super(pool);
    }

    @Override
    public Connection getConnection() throws SQLException {
      return connection(super.getConnection());
    }
  }

  private Connection connection(Connection real) {
    return proxy(
        Connection.class,
        (proxy, method, arguments) -> {
          if (method.getName().equals("prepareStatement") && arguments != null) {
            PreparedStatement statement = (PreparedStatement) call(real, method, arguments);
            return statement(statement, (String) arguments[0]);
          }
          return SENT.contains(method.getName())
              ? timed(method.getName().toUpperCase(java.util.Locale.ROOT), real, method, arguments)
              : call(real, method, arguments);
        });
  }

  private PreparedStatement statement(PreparedStatement real, String sql) {
    return proxy(
        PreparedStatement.class,
        (proxy, method, arguments) ->
            method.getName().startsWith("execute")
                ? timed(sql, real, method, arguments)
                : call(real, method, arguments));
  }

  private @Nullable Object timed(
      String said, Object real, Method method, Object @Nullable [] arguments) throws Throwable {
    long begun = System.nanoTime();
    try {
      return call(real, method, arguments);
    } finally {
      sent.add(new Sent(said, System.nanoTime() - begun, Thread.currentThread().getName()));
    }
  }

  private static @Nullable Object call(Object real, Method method, Object @Nullable [] arguments)
      throws Throwable {
    try {
      return method.invoke(real, arguments);
    } catch (InvocationTargetException e) {
      throw e.getCause();
    }
  }

  private static <T> T proxy(Class<T> type, InvocationHandler handler) {
    return type.cast(
        Proxy.newProxyInstance(
            StatementTally.class.getClassLoader(), new Class<?>[] {type}, handler));
  }
}
