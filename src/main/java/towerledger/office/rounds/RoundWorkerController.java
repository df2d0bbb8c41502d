package towerledger.office.rounds;

import org.springframework.core.io.ClassPathResource;
import org.springframework.core.io.Resource;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.web.bind.annotation.GetMapping;
import towerledger.account.OpenTo;
import towerledger.account.Role;

/** The script that opens rounds without signal; a browser looks for a newer one by itself. */
@Controller
@OpenTo({Role.OFFICE, Role.TECHNICIAN})
class RoundWorkerController {

  private static final Resource SCRIPT = new ClassPathResource("static/assets/js/rounds-worker.js");

  @GetMapping("/rounds/worker.js")
  ResponseEntity<Resource> worker() {
    return ResponseEntity.ok()
        .contentType(MediaType.valueOf("text/javascript;charset=UTF-8"))
        .cacheControl(CacheControl.noCache())
        .header("Service-Worker-Allowed", "/rounds")
        .body(SCRIPT);
  }
}
