package towerledger.demo;

import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.PostMapping;
import org.springframework.web.servlet.mvc.support.RedirectAttributes;
import towerledger.account.Actor;
import towerledger.account.Viewer;

/** Fills an empty ledger with the demo scenario at one click. */
@Controller
class DemoController {

  private final DemoScenario scenario;

  DemoController(DemoScenario scenario) {
    this.scenario = scenario;
  }

  @PostMapping("/demo")
  String begin(Viewer viewer, Actor actor, RedirectAttributes flash) {
    return scenario
        .order(viewer, actor)
        .map(job -> "redirect:/jobs/" + job)
        .orElseGet(
            () -> {
              flash.addFlashAttribute("trouble", "demo.not-empty");
              return "redirect:/guide";
            });
  }
}
