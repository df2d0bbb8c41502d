package towerledger.office;

import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;

/** What to do with an empty ledger. */
@Controller
class GuideController {

  @GetMapping("/guide")
  String show() {
    return "office/guide";
  }
}
