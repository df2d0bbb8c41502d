package towerledger.browser;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.springframework.boot.tomcat.ConfigurableTomcatWebServerFactory;
import org.springframework.boot.web.server.WebServerFactoryCustomizer;
import org.springframework.context.ConfigurableApplicationContext;
import org.springframework.jdbc.core.JdbcTemplate;

/**
 * Measures pages at ten thousand systems: {@code h2} or {@code postgres} is the first argument, a
 * folder that keeps the database for a second run the second. Twenty requests a second are begun on
 * time whether or not earlier ones are answered; a client's time runs from when a request was due
 * until its last byte has come, the server's is {@link ServerTimes}. Says the median and the 95th
 * percentile of every page, of the sign-in page in the same run, and how many compressed bytes a
 * first visit loads. See docs/performance.md.
 */
public final class PageSpeed {

  private static final int A_SECOND = 20;
  private static final int WARM_SECONDS = Integer.getInteger("warm", 40);

  /** Somebody is always the first to read it after a change of the ledger. */
  private static final String CHANGED = "month review, changed";

  private static final ServerTimes SERVER = new ServerTimes();

  private final PageClient signedIn;
  private final PageClient stranger;

  private PageSpeed(int port) throws IOException, InterruptedException {
    this.signedIn = PageClient.signedIn(port, MeasuredLedger.EMAIL, MeasuredLedger.PASSWORD);
    this.stranger = PageClient.stranger(port);
  }

  public static void main(String[] args) throws Exception {
    Path folder = args.length > 1 ? Path.of(args[1]) : Files.createTempDirectory("speed");
    int seconds = args.length > 2 ? Integer.parseInt(args[2]) : 10;
    String only = args.length > 3 ? args[3] : "";
    MeasuredLedger.on(
        args[0],
        folder,
        fresh ->
            fresh.registerBean(
                "serverTimes",
                ServerTimesInstalled.class,
                () -> server -> server.addEngineValves(SERVER)),
        context -> {
          if (seconds > 0) {
            new PageSpeed(MeasuredLedger.port(context)).measure(context, seconds, only);
          }
        });
    System.exit(0);
  }

  private void measure(ConfigurableApplicationContext context, int seconds, String only)
      throws Exception {
    Map<String, List<String>> pages = pages(context);
    List<String> parts = List.of(only.split(","));
    pages
        .keySet()
        .removeIf(name -> !name.startsWith("sign-in") && parts.stream().noneMatch(name::contains));
    double login = 0;
    for (Map.Entry<String, List<String>> page : pages.entrySet()) {
      boolean isLogin = page.getKey().startsWith("sign-in");
      double one = warm(isLogin ? stranger : signedIn, page.getValue());
      if (one > 400) {
        System.out.printf(
            "MEASURED %-28s takes %.0f ms alone: not asked for twenty times a second%n",
            page.getKey(), one);
        continue;
      }
      JdbcTemplate jdbc = context.getBean(JdbcTemplate.class);
      Runnable before =
          page.getKey().equals(CHANGED)
              ? () -> jdbc.update("UPDATE ledger_turn SET changes = changes + 1 WHERE slot = 0")
              : () -> {};
      Times times = load(isLogin ? stranger : signedIn, page.getValue(), seconds, before);
      login = isLogin ? times.server(0.95) : login;
      System.out.printf(
          "MEASURED %-24s alone %5.1f ms  server p50 %5.1f p95 %5.1f ms, %4.1f times sign-in;"
              + " client p50 %5.1f p95 %5.1f ms  %4d kB%n",
          page.getKey(),
          one,
          times.server(0.5),
          times.server(0.95),
          times.server(0.95) / login,
          times.client(0.5),
          times.client(0.95),
          times.bytes() / 1000);
    }
    firstLoad();
  }

  /**
   * Asks a thousand times, for at most forty seconds; answers with the milliseconds of the last.
   */
  private double warm(PageClient client, List<String> paths) {
    long until = System.nanoTime() + TimeUnit.SECONDS.toNanos(WARM_SECONDS);
    double[] last = new double[20];
    for (int i = 0; i < 1_000 && System.nanoTime() < until; i++) {
      long begun = System.nanoTime();
      client.ask(paths.get(i % paths.size())).join();
      last[i % last.length] = (System.nanoTime() - begun) / 1e6;
    }
    Arrays.sort(last);
    return last[last.length / 2];
  }

  private static Map<String, List<String>> pages(ConfigurableApplicationContext context) {
    List<String> finding =
        context
            .getBean(JdbcTemplate.class)
            .queryForList(
                "SELECT f.id FROM finding_finding f ORDER BY f.id FETCH FIRST 40 ROWS ONLY",
                String.class);
    Map<String, List<String>> pages = new LinkedHashMap<>();
    pages.put("sign-in", List.of("/sign-in"));
    pages.put("month review", List.of("/"));
    pages.put(CHANGED, List.of("/"));
    pages.put("review, other months", months("/?month=%s"));
    pages.put("review, page 100", List.of("/?page=100"));
    pages.put("review, one customer", List.of("/?customer=K3-BOOK-C1", "/?customer=K9-BOOK-C7"));
    pages.put("review, wasting", List.of("/?verdict=WASTE"));
    pages.put("review, by name", List.of("/?order=NAME"));
    pages.put("review, search", List.of("/?search=granite", "/?search=north+roof"));
    pages.put("system, 5 years of hours", systems("/systems/%s"));
    pages.put("working of a month", systems("/systems/%s/working/2026-08"));
    pages.put("findings", List.of("/findings", "/findings?show=settled"));
    pages.put("finding", finding.stream().map(id -> "/findings/" + id).toList());
    pages.put("credits", List.of("/credits", "/credits?year=2025"));
    pages.put("rounds", List.of("/rounds"));
    pages.put("sheet of a round", systems("/rounds/%s"));
    pages.put("bills of a site", List.of("/sites/BOOK-S1/bills", "/sites/BOOK-S2/bills"));
    pages.put("reports", List.of("/reports"));
    pages.put("people", List.of("/people"));
    return pages;
  }

  private static List<String> systems(String path) {
    List<String> paths = new ArrayList<>();
    for (int i = 0; i < LargeBook.LOGGED; i++) {
      paths.add(path.formatted(LargeBook.logged(i)));
    }
    return paths;
  }

  private static List<String> months(String path) {
    List<String> paths = new ArrayList<>();
    for (int back = 0; back < 24; back++) {
      paths.add(path.formatted(LargeBook.LAST.minusMonths(back)));
    }
    return paths;
  }

  /** Adds the server's own times to its web server. */
  private interface ServerTimesInstalled
      extends WebServerFactoryCustomizer<ConfigurableTomcatWebServerFactory> {}

  /** Times in milliseconds, sorted, as the client and the server see them; size of one answer. */
  private record Times(double[] client, double[] server, int bytes) {
    double client(double share) {
      return at(client, share);
    }

    double server(double share) {
      return at(server, share);
    }

    private static double at(double[] millis, double share) {
      return millis[(int) Math.min(millis.length - 1L, Math.round(share * millis.length))];
    }
  }

  private Times load(PageClient client, List<String> paths, int seconds, Runnable before)
      throws Exception {
    List<CompletableFuture<Double>> answers = new ArrayList<>();
    SERVER.take();
    long begun = System.nanoTime();
    for (int i = 0; i < A_SECOND * seconds; i++) {
      long due = begun + i * TimeUnit.SECONDS.toNanos(1) / A_SECOND;
      before.run();
      TimeUnit.NANOSECONDS.sleep(Math.max(0, due - System.nanoTime()));
      answers.add(
          client
              .ask(paths.get(i % paths.size()))
              .thenApply(any -> (System.nanoTime() - due) / 1e6));
    }
    double[] millis = answers.stream().mapToDouble(CompletableFuture::join).sorted().toArray();
    double[] server = SERVER.take();
    return new Times(millis, server, client.ask(paths.get(0)).join().body().length);
  }

  /** The page, and what it asks for by itself: styles, scripts and what these name, fonts. */
  private void firstLoad() throws IOException, InterruptedException {
    int sum = 0;
    Set<String> seen = new LinkedHashSet<>(List.of("/"));
    List<String> waiting = new ArrayList<>(seen);
    Map<String, Integer> sizes = new LinkedHashMap<>();
    while (!waiting.isEmpty()) {
      String path = waiting.remove(0);
      var answer = signedIn.ask(path).join();
      sizes.put(path, answer.body().length);
      sum += answer.body().length;
      for (String next : named(path, answer)) {
        if (seen.add(next)) {
          waiting.add(next);
        }
      }
    }
    System.out.printf("MEASURED first load %d kB compressed: %s%n", sum / 1000, sizes);
  }

  private static List<String> named(String path, HttpResponse<byte[]> answer) throws IOException {
    String type = answer.headers().firstValue("Content-Type").orElse("");
    if (path.equals("/")) {
      return found("(?:src|href)=\"(/(?:assets/|webjars/|palette)[^\"]+)\"", path, answer);
    }
    if (type.contains("css")) {
      return found("url\\(\"?([^\")]+)\"?\\)", path, answer);
    }
    return type.contains("javascript") ? found("from\\s*\"(\\.[^\"]+)\"", path, answer) : List.of();
  }

  private static List<String> found(String pattern, String path, HttpResponse<byte[]> answer)
      throws IOException {
    return Pattern.compile(pattern)
        .matcher(PageClient.text(answer))
        .results()
        .map((MatchResult match) -> URI.create(path).resolve(match.group(1)).toString())
        .filter(name -> name.startsWith("/"))
        .toList();
  }
}
