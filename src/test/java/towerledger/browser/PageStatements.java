package towerledger.browser;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Lists what pages of the {@link LargeBook} send to the database, with the mean time until the
 * answer begins, one request after the other. Arguments: {@code h2} or {@code postgres}, and the
 * folder of the database. See docs/performance.md.
 */
public final class PageStatements {

  private static final int WARM = Integer.getInteger("warm", 400);
  private static final int REQUESTS = Integer.getInteger("requests", 100);

  private PageStatements() {}

  public static void main(String[] args) throws Exception {
    StatementTally tally = new StatementTally();
    MeasuredLedger.on(
        args[0],
        Path.of(args[1]),
        fresh -> fresh.getBeanFactory().addBeanPostProcessor(tally),
        context -> {
          int port = MeasuredLedger.port(context);
          PageClient reader =
              PageClient.signedIn(port, MeasuredLedger.EMAIL, MeasuredLedger.PASSWORD);
          list(tally, "sign-in", PageClient.stranger(port), "/sign-in");
          list(tally, "month review", reader, "/");
          list(tally, "system", reader, "/systems/" + LargeBook.logged(0));
        });
    System.exit(0);
  }

  private static void list(StatementTally tally, String name, PageClient client, String path) {
    for (int i = 0; i < WARM; i++) {
      client.ask(path).join();
    }
    tally.take();
    long begun = System.nanoTime();
    for (int i = 0; i < REQUESTS; i++) {
      client.ask(path).join();
    }
    double whole = (System.nanoTime() - begun) / 1e6 / REQUESTS;
    List<StatementTally.Sent> sent =
        tally.take().stream().filter(one -> one.thread().startsWith("http")).toList();
    Map<String, double[]> sums = new LinkedHashMap<>();
    for (StatementTally.Sent one : sent) {
      double[] sum = sums.computeIfAbsent(one.statement(), text -> new double[2]);
      sum[0]++;
      sum[1] += one.nanos() / 1e6;
    }
    System.out.printf(
        "MEASURED %s: %.2f ms a request, of which %.2f ms in %.1f trips%n",
        name,
        whole,
        sent.stream().mapToLong(StatementTally.Sent::nanos).sum() / 1e6 / REQUESTS,
        sent.size() / (double) REQUESTS);
    sums.forEach(
        (text, sum) ->
            System.out.printf(
                "  %4.1f × %6.3f ms  %s%n",
                sum[0] / REQUESTS, sum[1] / sum[0], text.replaceAll("\\s+", " ")));
  }
}
