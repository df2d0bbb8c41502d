package towerledger.report;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.ArrayDeque;
import java.util.Deque;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;

/** A node of the program that sends reports, as a process of its own, which a drill can kill. */
final class ReportNode implements AutoCloseable {

  private static final int LINES_KEPT = 60;

  private final Process process;
  private final Deque<String> lines = new ArrayDeque<>();
  private final CountDownLatch started = new CountDownLatch(1);

  private ReportNode(Process process) {
    this.process = process;
    Thread reader = new Thread(this::read, "report node output");
    reader.setDaemon(true);
    reader.start();
  }

  /** Starts a node on a database that hands its mail to a relay on this machine. */
  static ReportNode start(String databaseUrl, int relayPort) {
    var builder =
        new ProcessBuilder(
            System.getProperty("java.home") + "/bin/java",
            "-Xmx384m",
            "-XX:TieredStopAtLevel=1",
            "-cp",
            System.getProperty("java.class.path"),
            "towerledger.TowerLedgerApplication",
            "--server.port=0",
            "--db-scheduler.polling-interval=500ms",
            "--db-scheduler.heartbeat-interval=1s",
            "--spring.main.banner-mode=off");
    var environment = builder.environment();
    environment.put("SPRING_DATASOURCE_URL", databaseUrl);
    environment.put("SPRING_MAIL_HOST", "127.0.0.1");
    environment.put("SPRING_MAIL_PORT", Integer.toString(relayPort));
    environment.put("TOWERLEDGER_MAIL_FROM", "reports@drill.example");
    environment.put("TOWERLEDGER_MAIL_REQUIRE_TLS", "false");
    environment.put("TOWERLEDGER_ADMIN_EMAIL", "drill@ledger.example");
    environment.put("TOWERLEDGER_ADMIN_PASSWORD", "a drill at the tower 4711");
    builder.redirectErrorStream(true);
    try {
      return new ReportNode(builder.start());
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
          if (lines.size() > LINES_KEPT) {
            lines.remove();
          }
        }
        if (line.contains("Tomcat started on port")) {
          started.countDown();
        }
      }
    } catch (IOException e) {
      started.countDown(); // killed while it spoke
    }
  }

  void awaitStart() throws InterruptedException {
    for (int waited = 0; !started.await(1, TimeUnit.SECONDS); waited++) {
      if (!process.isAlive() || waited > 300) {
        synchronized (lines) {
          throw new IllegalStateException("the node did not start:\n" + String.join("\n", lines));
        }
      }
    }
  }

  /** SIGKILL: nothing is flushed, nothing is closed. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor();
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
