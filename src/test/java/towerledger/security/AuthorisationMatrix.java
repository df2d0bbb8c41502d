package towerledger.security;

import java.io.IOException;
import java.io.InputStreamReader;
import java.io.Reader;
import java.io.UncheckedIOException;
import java.lang.reflect.Method;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.springframework.core.annotation.AnnotatedElementUtils;
import org.springframework.http.HttpMethod;
import org.springframework.test.web.servlet.request.AbstractMockHttpServletRequestBuilder;
import org.springframework.test.web.servlet.request.MockMvcRequestBuilders;
import org.springframework.web.bind.annotation.RequestMapping;
import org.springframework.web.bind.annotation.RequestMethod;
import towerledger.account.Role;
import towerledger.account.TokenScope;
import towerledger.account.Viewer;

/** Who may use which route, as {@code authorisation-matrix.csv} has it: written, not derived. */
public final class AuthorisationMatrix {

  static final String FILE = "authorisation-matrix.csv";

  private AuthorisationMatrix() {}

  /** What a route asks of whoever uses it. */
  enum Need {
    LOOK,
    ENTER,
    CHANGE
  }

  /** One line. */
  record Entry(String method, String pattern, Set<String> who, Need need, String address) {

    String route() {
      return method + " " + pattern;
    }

    boolean isApi() {
      return pattern.startsWith("/api/") || pattern.startsWith("/v3/");
    }

    /** Whether it takes an upload as a form sends it. */
    boolean takesParts() {
      return pattern.startsWith("/api/v1/foreign-tables");
    }

    /** A request to an address of this route. */
    AbstractMockHttpServletRequestBuilder<?> request(URI to) {
      return takesParts()
          ? MockMvcRequestBuilders.multipart(HttpMethod.valueOf(method), to)
          : MockMvcRequestBuilders.request(HttpMethod.valueOf(method), to);
    }

    boolean isOpenToAnybody() {
      return who.contains("anybody");
    }

    /** Whether somebody signed in is to be let in; null is nobody. */
    boolean lets(Viewer viewer) {
      if (isOpenToAnybody()) {
        return true;
      }
      return viewer != null && who.contains(name(viewer.role())) && mayDo(viewer);
    }

    private boolean mayDo(Viewer viewer) {
      return switch (need) {
        case LOOK -> true;
        case ENTER ->
            viewer.scope() != TokenScope.READ
                && (viewer.role() != Role.CUSTOMER || viewer.mayEnter());
        case CHANGE -> viewer.scope() == TokenScope.ALL;
      };
    }

    private static String name(Role role) {
      return role.name().toLowerCase(java.util.Locale.ROOT);
    }

    @Override
    public String toString() {
      return route();
    }
  }

  static List<Entry> read() {
    try (Reader file =
        new InputStreamReader(
            Objects.requireNonNull(AuthorisationMatrix.class.getResourceAsStream("/" + FILE), FILE),
            StandardCharsets.UTF_8)) {
      List<Entry> entries = new ArrayList<>();
      CSVFormat format =
          CSVFormat.DEFAULT
              .builder()
              .setCommentMarker('#')
              .setHeader()
              .setSkipHeaderRecord(true)
              .get();
      for (CSVRecord line : format.parse(file)) {
        entries.add(
            new Entry(
                line.get("method"),
                line.get("pattern"),
                Set.copyOf(Arrays.asList(line.get("who").split(" "))),
                Need.valueOf(line.get("need").toUpperCase(java.util.Locale.ROOT)),
                line.get("address")));
      }
      return entries;
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** Routes of handler methods that have no line, each as {@code GET /path}. */
  public static Set<String> withoutEntry(Iterable<Method> methods) {
    Set<String> known = read().stream().map(Entry::route).collect(Collectors.toSet());
    Set<String> missing = new TreeSet<>();
    for (Method method : methods) {
      RequestMapping mapping =
          AnnotatedElementUtils.findMergedAnnotation(method, RequestMapping.class);
      if (mapping == null) {
        continue;
      }
      RequestMapping onClass =
          AnnotatedElementUtils.findMergedAnnotation(
              method.getDeclaringClass(), RequestMapping.class);
      for (String base : onClass == null ? new String[] {""} : orEmpty(onClass.path())) {
        for (String path : orEmpty(mapping.path())) {
          for (String verb : verbs(mapping.method())) {
            missing.add(route(verb, base + path));
          }
        }
      }
    }
    missing.removeAll(known);
    return missing;
  }

  static String route(String verb, String pattern) {
    return verb + " " + pattern.replaceAll("\\{([A-Za-z]+):[^/]*?\\}(?=/|$)", "{$1}");
  }

  static List<String> verbs(RequestMethod... methods) {
    return methods.length == 0
        ? List.of("GET")
        : Arrays.stream(methods).map(RequestMethod::name).toList();
  }

  private static String[] orEmpty(String[] paths) {
    return paths.length == 0 ? new String[] {""} : paths;
  }
}
