package towerledger.office;

import java.util.Map;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestHeader;
import org.springframework.web.server.ResponseStatusException;
import towerledger.drawing.FigureText;
import towerledger.job.Job;
import towerledger.job.JobStatus;
import towerledger.job.Jobs;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** Shows how far long work has come; the page can be left and come back to. */
@Controller
class WorkController {

  /** Where the result of a kind of work is to be seen. */
  private static final Map<String, String> ONWARD = Map.of("demo", "/", "reconciliation", "/");

  private final Jobs jobs;
  private final MessageSource messages;

  WorkController(Jobs jobs, MessageSource messages) {
    this.jobs = jobs;
    this.messages = messages;
  }

  @GetMapping("/jobs/{id}")
  String show(
      @PathVariable String id,
      @RequestHeader(name = "HX-Request", defaultValue = "false") boolean partOnly,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Job job = jobs.find(id).orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    model.addAttribute(
        "view",
        new WorkView(
            job.id(),
            "job." + job.status(),
            job.progress(),
            new ReasonText(new Words(messages, text.locale()), text).say(job.message()),
            !job.status().isFinal(),
            job.status() == JobStatus.DONE ? ONWARD.getOrDefault(job.kind(), "/") : ""));
    return partOnly ? "office/job :: standing" : "office/job";
  }

  /**
   * How a piece of work stands.
   *
   * @param id its identity
   * @param status message key of its status
   * @param progress 0 to 100
   * @param message words of the work itself
   * @param working whether it still goes on
   * @param onward where its result is to be seen; empty while there is none
   */
  record WorkView(
      String id, String status, int progress, String message, boolean working, String onward) {}
}
