package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import org.junit.jupiter.api.Test;
import org.springframework.context.support.ResourceBundleMessageSource;
import org.springframework.mock.web.MockHttpServletRequest;
import org.springframework.mock.web.MockHttpServletResponse;
import org.springframework.web.multipart.MultipartException;
import tools.jackson.databind.json.JsonMapper;

/** RFC 4918, section 11.5: 507 says that there is no room, and no fault of the request. */
class FullDiskTest {

  private final MockHttpServletResponse response = new MockHttpServletResponse();

  @Test
  void isToldAsSuchWhereverItShowed() throws IOException {
    tell(
        new MultipartException(
            "Failed to parse", new RuntimeException(new IOException("No space left on device"))));
    assertThat(response.getStatus()).isEqualTo(507);
    assertThat(response.getContentAsString()).contains("The disk of the ledger is full");
  }

  @Test
  void isNotBlamedForAnUploadThatBrokeOff() {
    tell(new MultipartException("Failed to parse", new IOException("Stream ended unexpectedly")));
    assertThat(response.getStatus()).isEqualTo(200);
  }

  private void tell(Exception failure) {
    var messages = new ResourceBundleMessageSource();
    messages.setBasename("messages");
    messages.setDefaultEncoding("UTF-8");
    new FullDisk(new BareAnswer(messages, new JsonMapper()))
        .resolveException(
            new MockHttpServletRequest("POST", "/intake"), response, new Object(), failure);
  }
}
