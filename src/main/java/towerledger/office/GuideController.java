package towerledger.office;

import org.jspecify.annotations.Nullable;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import towerledger.account.Viewer;
import towerledger.intake.Imports;
import towerledger.job.Jobs;
import towerledger.site.SiteAccess;

/** What to do with an empty ledger. */
@Controller
class GuideController {

  private final SiteAccess access;
  private final Imports imports;
  private final Jobs jobs;

  GuideController(SiteAccess access, Imports imports, Jobs jobs) {
    this.access = access;
    this.imports = imports;
    this.jobs = jobs;
  }

  @GetMapping("/guide")
  String show(Viewer viewer, Model model) {
    boolean empty = access.listSites(viewer).isEmpty();
    boolean mayFill = viewer.canAdminister();
    model.addAttribute("view", new GuideView(empty, mayFill, mayFill ? atWork() : null));
    return "office/guide";
  }

  /** The newest import, while it or the reckoning that follows it is under way. */
  private @Nullable String atWork() {
    return imports.listRecent(1).stream()
        .filter(
            entry ->
                entry.status() == Imports.Status.RUNNING
                    || (entry.reconciliation() != null
                        && jobs.find(entry.reconciliation())
                            .filter(job -> !job.status().isFinal())
                            .isPresent()))
        .map(Imports.Entry::id)
        .findFirst()
        .orElse(null);
  }

  /**
   * First steps.
   *
   * @param empty whether the ledger holds no site yet
   * @param mayFill whether the reader may fill it
   * @param atWork import that is being taken or reckoned, for who may fill it; null for none
   */
  record GuideView(boolean empty, boolean mayFill, @Nullable String atWork) {}
}
