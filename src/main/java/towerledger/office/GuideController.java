package towerledger.office;

import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import towerledger.account.Viewer;
import towerledger.site.SiteAccess;

/** What to do with an empty ledger. */
@Controller
class GuideController {

  private final SiteAccess access;

  GuideController(SiteAccess access) {
    this.access = access;
  }

  @GetMapping("/guide")
  String show(Viewer viewer, Model model) {
    boolean empty = access.listSites(viewer).isEmpty();
    model.addAttribute("view", new GuideView(empty, viewer.canAdminister()));
    return "office/guide";
  }

  /**
   * First steps.
   *
   * @param empty whether the ledger holds no site yet
   * @param mayFill whether the reader may fill it
   */
  record GuideView(boolean empty, boolean mayFill) {}
}
