package towerledger.browser;

import static org.junit.jupiter.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import com.deque.html.axecore.selenium.AxeBuilder;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.openqa.selenium.By;
import org.openqa.selenium.OutputType;
import org.openqa.selenium.WebElement;
import org.openqa.selenium.chrome.ChromeDriver;
import org.openqa.selenium.chrome.ChromeDriverService;
import org.openqa.selenium.chrome.ChromeOptions;
import org.openqa.selenium.support.ui.WebDriverWait;
import org.springframework.util.FileSystemUtils;

/**
 * A Chromium without a window, looking at the application under test. Where there is none (it and
 * {@code chromedriver} are looked for on the path) the test is skipped with a word on it; with
 * {@code TOWERLEDGER_REQUIRE_BROWSER=true} in the environment that is a failure.
 *
 * <p>With {@code TOWERLEDGER_PICTURES} naming a folder, {@link #picture} keeps what it saw there.
 */
final class Browser implements AutoCloseable {

  private static final List<String> WCAG =
      List.of("wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa");

  /** The checker itself, as it comes with its library for Selenium. */
  private static final String AXE = axe();

  private final String address;
  private final Path profile;
  private final ChromeDriver driver;

  private Browser(String address, Path profile, ChromeDriver driver) {
    this.address = address;
    this.profile = profile;
    this.driver = driver;
  }

  /** Starts one that looks at a port of this machine. */
  static Browser start(int port) {
    Optional<Path> chromium = onPath("chromium").or(() -> onPath("chromium-browser"));
    Optional<Path> chromedriver = onPath("chromedriver");
    if (chromium.isEmpty() || chromedriver.isEmpty()) {
      String missing =
          "no %s on the path; install Debian's chromium and chromium-driver to test in a browser"
              .formatted(chromium.isEmpty() ? "chromium" : "chromedriver");
      if ("true".equals(System.getenv("TOWERLEDGER_REQUIRE_BROWSER"))) {
        fail(missing);
      }
      abort(missing);
    }
    try {
      Path profile = Files.createTempDirectory("browser");
      ChromeOptions options = new ChromeOptions();
      options.setBinary(chromium.orElseThrow().toFile());
      options.addArguments(
          "--headless=new",
          "--no-sandbox",
          "--disable-gpu",
          "--disable-quic",
          "--disable-dev-shm-usage",
          "--no-first-run",
          "--disable-background-networking",
          "--disable-component-update",
          "--disable-sync",
          "--user-data-dir=" + profile);
      ChromeDriverService service =
          new ChromeDriverService.Builder()
              .usingDriverExecutable(chromedriver.orElseThrow().toFile())
              .usingAnyFreePort()
              .build();
      return new Browser("http://localhost:" + port, profile, new ChromeDriver(service, options));
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static Optional<Path> onPath(String program) {
    return Arrays.stream(System.getenv().getOrDefault("PATH", "").split(":"))
        .map(folder -> Path.of(folder, program))
        .filter(Files::isExecutable)
        .findFirst();
  }

  private static String axe() {
    try (InputStream script = AxeBuilder.class.getResourceAsStream("/axe.min.js")) {
      return new String(Objects.requireNonNull(script).readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Signs in by the form. */
  void signIn(String email, String password) {
    driver.manage().deleteAllCookies();
    open("/sign-in");
    find("#email").sendKeys(email);
    find("#password").sendKeys(password);
    find("main button[type=submit]").click();
    waitFor(() -> !path().startsWith("/sign-in"), "signing in leads on");
  }

  void open(String path) {
    driver.get(address + path);
  }

  /** Path and query of where it is. */
  String path() {
    String now = String.valueOf(driver.getCurrentUrl());
    return now.startsWith(address) ? now.substring(address.length()) : now;
  }

  /** A width of the window in CSS pixels; below 600 it counts as a phone. */
  void width(int pixels) {
    driver.executeCdpCommand(
        "Emulation.setDeviceMetricsOverride",
        Map.of(
            "width",
            pixels,
            "height",
            pixels < 600 ? 740 : 900,
            "deviceScaleFactor",
            1,
            "mobile",
            pixels < 600));
  }

  /** What the device prefers: {@code light} or {@code dark}. */
  void theme(String scheme) {
    driver.executeCdpCommand(
        "Emulation.setEmulatedMedia",
        Map.of("features", List.of(Map.of("name", "prefers-color-scheme", "value", scheme))));
  }

  /** Whether pages can run scripts. */
  void scripts(boolean allowed) {
    driver.executeCdpCommand("Emulation.setScriptExecutionDisabled", Map.of("value", !allowed));
  }

  /** Whether there is a network. */
  void network(boolean there) {
    driver.executeCdpCommand("Network.enable", Map.of());
    driver.executeCdpCommand(
        "Network.emulateNetworkConditions",
        Map.of("offline", !there, "latency", 0, "downloadThroughput", -1, "uploadThroughput", -1));
  }

  WebElement find(String selector) {
    return driver.findElement(By.cssSelector(selector));
  }

  List<WebElement> list(String selector) {
    return driver.findElements(By.cssSelector(selector));
  }

  WebElement focused() {
    return driver.switchTo().activeElement();
  }

  Object run(String script) {
    return driver.executeScript(script);
  }

  void waitFor(java.util.function.BooleanSupplier condition, String what) {
    new WebDriverWait(driver, Duration.ofSeconds(20))
        .withMessage(what)
        .until(any -> condition.getAsBoolean());
  }

  /** Elements that reach beyond the right edge of the window, by what they say; empty if none. */
  @SuppressWarnings("unchecked")
  List<String> reachingOut() {
    return (List<String>)
        driver.executeScript(
            """
            if (document.documentElement.scrollWidth <= document.documentElement.clientWidth)
              return [];
            return ['page is ' + document.documentElement.scrollWidth + ' wide'].concat(
              [...document.querySelectorAll('body *')]
                .filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth + 1)
                .slice(0, 5)
                .map(e => e.tagName + '.' + e.className + ': ' + e.textContent.trim().slice(0, 40)));
            """);
  }

  /**
   * What breaks WCAG 2.2 AA as axe-core sees it, a line each, and landmarks of one name, which is
   * common practice; empty if nothing.
   */
  @SuppressWarnings("unchecked")
  List<String> barriers() {
    driver.executeScript(AXE);
    return (List<String>)
        driver.executeAsyncScript(
            """
            const done = arguments[arguments.length - 1];
            axe.run({runOnly: {type: 'tag', values: arguments[0]}, resultTypes: ['violations'],
                rules: {'landmark-unique': {enabled: true}}})
              .then(found => done(found.violations.map(rule => rule.id + ': ' + rule.help + ' at '
                + rule.nodes.slice(0, 3).map(node => node.html).join(', '))))
              .catch(error => done(['axe-core failed: ' + error]));
            """,
            WCAG);
  }

  /** What can be touched and is narrower or lower than so many CSS pixels, by what it says. */
  @SuppressWarnings("unchecked")
  List<String> smallerThan(int pixels) {
    return (List<String>)
        driver.executeScript(
            """
            const touched = e => e.matches('[type=checkbox], [type=radio]')
              ? e.closest('label') : e.closest('.with-unit') ?? e;
            return [...document.querySelectorAll('a[href], button, input, select, textarea, summary')]
              .filter(e => e.checkVisibility() && e.type !== 'hidden' && !e.matches('.skip'))
              .map(touched)
              .map(e => [e, e.getBoundingClientRect()])
              .filter(([, box]) => Math.min(box.width, box.height) < arguments[0] - 0.5)
              .map(([e, box]) => e.tagName + ' ' + e.textContent.trim().slice(0, 30) + ': '
                + Math.round(box.width) + ' × ' + Math.round(box.height));
            """,
            pixels);
  }

  /** Errors that pages wrote to the console since the last time. */
  List<String> errors() {
    return driver.manage().logs().get("browser").getAll().stream()
        .filter(entry -> entry.getLevel().intValue() >= java.util.logging.Level.SEVERE.intValue())
        .map(entry -> entry.getMessage())
        .toList();
  }

  /** Keeps a picture of the window for people, where a folder for pictures is named. */
  void picture(String name) {
    String folder = System.getenv("TOWERLEDGER_PICTURES");
    if (folder != null) {
      try {
        Files.createDirectories(Path.of(folder));
        Files.write(Path.of(folder, name + ".png"), driver.getScreenshotAs(OutputType.BYTES));
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
    }
  }

  @Override
  public void close() {
    driver.quit();
    try {
      FileSystemUtils.deleteRecursively(profile);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
