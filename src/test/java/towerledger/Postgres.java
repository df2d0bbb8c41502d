package towerledger;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.Locale;
import javax.sql.DataSource;

/**
 * One real PostgreSQL for the whole test run, from embedded binaries; a fresh database for each
 * caller.
 */
public final class Postgres {

  private static volatile EmbeddedPostgres server;
  private static int databases;

  private Postgres() {}

  /** The JDBC address of a new, empty database; user and password are part of it. */
  public static synchronized String newDatabase(String purpose) {
    String name = purpose.toLowerCase(Locale.ROOT) + "_" + ++databases;
    try (var connection = server().getPostgresDatabase().getConnection();
        var statement = connection.createStatement()) {
      statement.execute("CREATE DATABASE " + name);
    } catch (java.sql.SQLException e) {
      throw new IllegalStateException("could not create database " + name, e);
    }
    return server().getJdbcUrl("postgres", name);
  }

  /** A data source on a database made by {@link #newDatabase}. */
  public static DataSource dataSource(String jdbcUrl) {
    var source = new org.postgresql.ds.PGSimpleDataSource();
    source.setUrl(jdbcUrl);
    return source;
  }

  private static EmbeddedPostgres server() {
    if (server == null) {
      try {
        server = EmbeddedPostgres.builder().setServerConfig("max_connections", "200").start();
        Runtime.getRuntime().addShutdownHook(new Thread(Postgres::stop));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
    return server;
  }

  private static void stop() {
    try {
      server.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
