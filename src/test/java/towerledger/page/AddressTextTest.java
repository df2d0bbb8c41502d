package towerledger.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.api.Test;
import org.springframework.context.support.ResourceBundleMessageSource;
import towerledger.wording.Words;

class AddressTextTest {

  @Test
  void writesAddressesShortAndNamesTheMachineItself() {
    var messages = new ResourceBundleMessageSource();
    messages.setBasename("messages");
    messages.setDefaultEncoding("UTF-8");
    Words words = new Words(messages, Locale.ENGLISH);

    assertThat(AddressText.of("0:0:0:0:0:0:0:1", words)).isEqualTo("this machine");
    assertThat(AddressText.of("127.0.0.1", words)).isEqualTo("this machine");
    assertThat(AddressText.of("2001:db8:0:0:0:0:0:5", words)).isEqualTo("2001:db8::5");
    assertThat(AddressText.of("2001:db8:1:2:3:4:5:6", words)).isEqualTo("2001:db8:1:2:3:4:5:6");
    assertThat(AddressText.of("198.51.100.7", words)).isEqualTo("198.51.100.7");
    assertThat(AddressText.of("start-up", words)).isEqualTo("start-up");
  }
}
