package towerledger.api;

import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.time.YearMonth;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.bind.annotation.RequestBody;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.bind.annotation.RestController;
import towerledger.account.Actor;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.account.Viewer;
import towerledger.ledger.Ledger;
import towerledger.ledger.LedgerEntry;
import towerledger.ledger.MonthWorking;
import towerledger.ledger.Reconciliations;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;
import towerledger.site.Sites;

/** The ledger for scripts: rows, the working of a month, and recomputation. */
@RestController
class LedgerController {

  private final Ledger ledger;
  private final Reconciliations reconciliations;
  private final SiteAccess access;
  private final Sites sites;

  LedgerController(Ledger ledger, Reconciliations reconciliations, SiteAccess access, Sites sites) {
    this.ledger = ledger;
    this.reconciliations = reconciliations;
    this.access = access;
    this.sites = sites;
  }

  /** Standing rows as CSV, both months included; streamed. */
  @OpenTo({Role.OFFICE, Role.CUSTOMER})
  @GetMapping("/api/v1/ledger.csv")
  void csv(
      Viewer viewer,
      @RequestParam("from") YearMonth from,
      @RequestParam("to") YearMonth to,
      @RequestParam(name = "system", required = false) @Nullable String system,
      HttpServletResponse response)
      throws IOException {
    requireInOrder(from, to);
    requireVisible(viewer, system);
    response.setContentType("text/csv");
    response.setCharacterEncoding(StandardCharsets.UTF_8);
    response.setHeader("Content-Disposition", "attachment; filename=\"ledger.csv\"");
    Writer out = response.getWriter();
    LedgerCsv csv = new LedgerCsv(out);
    ledger.forEach(viewer, from, to, system, csv::write);
    out.flush();
  }

  /** Standing rows as JSON under the names of {@code ledger.csv}, both months included. */
  @OpenTo({Role.OFFICE, Role.CUSTOMER})
  @GetMapping("/api/v1/ledger")
  List<Map<String, @Nullable Object>> list(
      Viewer viewer,
      @RequestParam("from") YearMonth from,
      @RequestParam("to") YearMonth to,
      @RequestParam(name = "system", required = false) @Nullable String system) {
    requireInOrder(from, to);
    requireVisible(viewer, system);
    List<Map<String, @Nullable Object>> rows = new ArrayList<>();
    ledger.forEach(viewer, from, to, system, entry -> rows.add(LedgerColumns.json(entry)));
    return rows;
  }

  private static void requireInOrder(@Nullable YearMonth from, @Nullable YearMonth to) {
    if (from != null && to != null && to.isBefore(from)) {
      throw new FieldProblem(
          "'from' %s comes after 'to' %s; exchange them. Both months are included."
              .formatted(from, to));
    }
  }

  private void requireVisible(Viewer viewer, @Nullable String system) {
    if (system != null) {
      get(viewer, system);
    }
  }

  private CoolingSystem get(Viewer viewer, String system) {
    return access
        .findSystem(viewer, system)
        .orElseThrow(() -> new NotThereException("system", system));
  }

  /**
   * The whole derivation of a month.
   *
   * @param entry the row as it stands
   * @param working how it came about
   * @param revisions every revision, newest first
   */
  record Derivation(LedgerEntry entry, MonthWorking working, List<LedgerEntry> revisions) {}

  /** The whole derivation of a month. */
  @OpenTo({Role.OFFICE, Role.CUSTOMER})
  @GetMapping("/api/v1/systems/{code}/working/{month}")
  Derivation working(
      Viewer viewer, @PathVariable("code") String code, @PathVariable("month") YearMonth month) {
    CoolingSystem system = get(viewer, code);
    LedgerEntry entry =
        ledger
            .find(system, month)
            .orElseThrow(() -> new NotThereException("month of system " + code, month.toString()));
    return new Derivation(
        entry,
        ledger.findWorking(system, month, entry.revision()).orElseThrow(),
        ledger.listRevisions(system, month));
  }

  /**
   * What to reckon anew.
   *
   * @param from first month; absent for all there are
   * @param to last month; absent for no last
   * @param systems codes of systems; absent or empty for all
   */
  record Order(
      @Nullable YearMonth from, @Nullable YearMonth to, @Nullable List<@Nullable String> systems) {}

  /**
   * A job to wait for.
   *
   * @param id its identity, for {@code /jobs/{id}}
   * @param status how it stands
   */
  record Ordered(String id, String status) {}

  /** Orders systems to be reckoned anew. */
  @OpenTo(Role.OFFICE)
  @PostMapping("/api/v1/reconciliations")
  Ordered reckon(@RequestBody Order order, Viewer viewer, Actor actor) {
    requireInOrder(order.from(), order.to());
    List<@Nullable String> codes = order.systems();
    List<CoolingSystem> systems =
        codes == null || codes.isEmpty()
            ? access.listSites(viewer).stream()
                .flatMap(site -> sites.listSystems(site).stream())
                .toList()
            : codes.stream().map(code -> ordered(viewer, code)).toList();
    return new Ordered(reconciliations.order(systems, order.from(), order.to(), actor), "queued");
  }

  /** A list in JSON may hold nothing where a code belongs. */
  private CoolingSystem ordered(Viewer viewer, @Nullable String code) {
    if (code == null) {
      throw new FieldProblem("'systems' holds an empty place; every one is the code of a system.");
    }
    return get(viewer, code);
  }
}
