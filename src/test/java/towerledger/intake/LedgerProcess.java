package towerledger.intake;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** The program as a process of its own, which a drill can kill. */
final class LedgerProcess implements AutoCloseable {

  static final String ADMIN = "drill@ledger.example";
  static final String PASSWORD = "a drill at the tower 4711";

  private final Process process;
  private final List<String> lines = new ArrayList<>();
  private final CountDownLatch importBegan = new CountDownLatch(1);
  private final CountDownLatch importDone = new CountDownLatch(1);
  private final CountDownLatch started = new CountDownLatch(1);
  private volatile int port;

  private LedgerProcess(Process process) {
    this.process = process;
    var reader = new Thread(this::read, "ledger output");
    reader.setDaemon(true);
    reader.start();
  }

  /**
   * Starts the program.
   *
   * @param databaseUrl its database
   * @param bundle what to import at start, or empty
   * @param heap for instance {@code 256m}
   */
  static LedgerProcess start(String databaseUrl, String bundle, String heap) {
    return start(databaseUrl, bundle, List.of("-Xmx" + heap));
  }

  /** The same, made for many short lives: compiled less, so that it stands sooner. */
  static LedgerProcess startForAShortLife(String databaseUrl, String bundle) {
    return start(
        databaseUrl, bundle, List.of("-Xmx512m", "-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
  }

  /** The same with its jobs at work, so that it reckons what it imports. */
  static LedgerProcess startAtWork(String databaseUrl, String bundle) {
    return start(databaseUrl, bundle, List.of("-Xmx512m"), List.of());
  }

  private static LedgerProcess start(String databaseUrl, String bundle, List<String> jvm) {
    return start(
        databaseUrl,
        bundle,
        jvm,
        List.of(
            "--db-scheduler.polling-interval=1h",
            "--db-scheduler.immediate-execution-enabled=false"));
  }

  private static LedgerProcess start(
      String databaseUrl, String bundle, List<String> jvm, List<String> arguments) {
    List<String> command = new ArrayList<>();
    command.add(System.getProperty("java.home") + "/bin/java");
    command.addAll(jvm);
    command.addAll(
        List.of(
            "-cp",
            System.getProperty("java.class.path"),
            "towerledger.TowerLedgerApplication",
            "--server.port=0",
            "--spring.main.banner-mode=off"));
    command.addAll(arguments);
    var builder = new ProcessBuilder(command);
    builder.environment().put("SPRING_DATASOURCE_URL", databaseUrl);
    builder.environment().put("TOWERLEDGER_IMPORT", bundle);
    builder.environment().put("TOWERLEDGER_ADMIN_EMAIL", ADMIN);
    builder.environment().put("TOWERLEDGER_ADMIN_PASSWORD", PASSWORD);
    builder.redirectErrorStream(true);
    try {
      return new LedgerProcess(builder.start());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private void read() {
    try (var in =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        synchronized (lines) {
          lines.add(line);
        }
        if (line.contains(" begins: ")) {
          importBegan.countDown();
        } else if (line.contains(" is done")) {
          importDone.countDown();
        } else if (line.contains("Tomcat started on port")) {
          port = Integer.parseInt(line.replaceAll(".*port (\\d+).*", "$1"));
          started.countDown();
        }
      }
    } catch (IOException e) {
      importBegan.countDown();
    }
  }

  void awaitImportBegun() throws InterruptedException {
    await(importBegan, "begin its import");
  }

  /** Whether the import ended within the time. */
  boolean importEndedWithin(long millis) throws InterruptedException {
    return importDone.await(millis, TimeUnit.MILLISECONDS);
  }

  void awaitImportDone() throws InterruptedException {
    await(importDone, "end its import");
  }

  int awaitPort() throws InterruptedException {
    await(started, "start");
    return port;
  }

  private void await(CountDownLatch latch, String what) throws InterruptedException {
    for (int waited = 0; !latch.await(1, TimeUnit.SECONDS); waited++) {
      if (!process.isAlive() || waited > 600) {
        throw new IllegalStateException("the program did not " + what + ":\n" + output());
      }
    }
  }

  String output() {
    synchronized (lines) {
      return String.join("\n", lines);
    }
  }

  long pid() {
    return process.pid();
  }

  /** SIGKILL: nothing is flushed, nothing is closed. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor();
  }

  @Override
  public void close() {
    process.destroy();
    try {
      if (!process.waitFor(60, TimeUnit.SECONDS)) {
        process.destroyForcibly();
      }
    } catch (InterruptedException e) {
      process.destroyForcibly();
      Thread.currentThread().interrupt();
    }
  }
}
