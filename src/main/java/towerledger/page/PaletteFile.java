package towerledger.page;

import java.nio.charset.StandardCharsets;
import java.time.Duration;
import org.springframework.http.CacheControl;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.stereotype.Controller;
import org.springframework.util.DigestUtils;
import org.springframework.web.bind.annotation.GetMapping;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.drawing.StyleSheet;

/**
 * Serves the colours as a style sheet, straight from the one list of them. Not under {@code
 * /assets}: what is linked to there is sought among the files, in every jar, for each page.
 */
@OpenTo({Role.OFFICE, Role.TECHNICIAN, Role.CUSTOMER})
@Controller
class PaletteFile {

  private static final byte[] TEXT = StyleSheet.text().getBytes(StandardCharsets.UTF_8);
  private static final String ETAG = '"' + DigestUtils.md5DigestAsHex(TEXT) + '"';

  @GetMapping("/palette.css")
  ResponseEntity<byte[]> palette() {
    return ResponseEntity.ok()
        .contentType(new MediaType("text", "css", StandardCharsets.UTF_8))
        .cacheControl(CacheControl.maxAge(Duration.ofHours(1)).cachePublic())
        .eTag(ETAG)
        .body(TEXT);
  }
}
