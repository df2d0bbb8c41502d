package towerledger.account;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;

import com.github.kagkarlsson.scheduler.SchedulerClient;
import java.time.Clock;
import java.util.Locale;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.beans.factory.support.StaticListableBeanFactory;
import org.springframework.context.MessageSource;
import org.springframework.mail.MailException;
import org.springframework.mail.javamail.JavaMailSender;
import org.springframework.mail.javamail.JavaMailSenderImpl;
import org.springframework.test.web.servlet.MockMvc;
import towerledger.MailServer;
import towerledger.SignedIn;
import towerledger.report.delivery.ScriptedRelay;

/** The office sees that a letter did not go out; RFC 5321, 4.2.1 tells 'not now' from 'never'. */
abstract class LetterTroubleCases {

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;
  @Autowired People people;
  @Autowired Links links;
  @Autowired PersonRows rows;
  @Autowired LetterTroubles troubles;
  @Autowired MessageSource messages;

  @Test
  void triesLaterWhatIsNotTakenNowAndForgetsItOnceTaken() throws Exception {
    long id = invited("later");
    String email = people.get(id).email();
    try (ScriptedRelay relay = new ScriptedRelay().answer(email, "451 4.3.0 <come> back later")) {
      Letters letters = letters(relay);
      assertThatThrownBy(() -> letters.handOver("INVITATION " + id, false))
          .as("so that the scheduler tries again")
          .isInstanceOf(MailException.class);
      assertThat(page(id))
          .contains("451 4.3.0 &lt;come&gt; back later")
          .contains("The ledger goes on trying");
      assertThat(page("/people?search=" + email)).contains("a letter waits for the mail server");

      assertThatThrownBy(() -> letters.handOver("INVITATION " + id, true))
          .isInstanceOf(MailException.class);
      assertThat(page(id)).contains("It is not tried again");
    }
    try (ScriptedRelay relay = new ScriptedRelay()) {
      letters(relay).handOver("INVITATION " + id, false);
      assertThat(relay.taken()).containsExactly(email);
    }
    assertThat(page(id)).doesNotContain("mail server said");
  }

  @Test
  void doesNotAskAgainAServerThatSaysNever() throws Exception {
    long id = invited("never");
    String email = people.get(id).email();
    try (ScriptedRelay relay = new ScriptedRelay().answer(email, "550 5.1.1 no such mailbox")) {
      letters(relay).handOver("INVITATION " + id, false);
    }
    assertThat(page(id)).contains("550 5.1.1 no such mailbox").contains("It is not tried again");
    assertThat(page("/people?search=" + email)).contains("the last letter did not arrive");

    people.inviteAgain(id, Actor.system("test"));
    assertThat(page(id)).doesNotContain("no such mailbox");
    MailServer.awaitLetter(email, 2);
  }

  @Test
  void saysThatTheServerIsNotThereWithoutTheProgramsInside() throws Exception {
    long id = invited("nobody-there");
    ScriptedRelay gone = new ScriptedRelay();
    gone.close();
    assertThatThrownBy(() -> letters(gone).handOver("INVITATION " + id, false))
        .isInstanceOf(MailException.class);
    assertThat(page(id))
        .contains("connect to host, port: 127.0.0.1, " + gone.port())
        .doesNotContain("Exception");
  }

  private long invited(String name) {
    String email = name + "@" + getClass().getSimpleName().toLowerCase(Locale.ROOT) + ".test";
    people.invite(
        new Invitation(EmailAddress.of(email), "Ina Vited", Role.TECHNICIAN, null, false),
        Actor.system("test"));
    MailServer.awaitLetter(email, 1);
    return rows.findByEmail(email).orElseThrow().id();
  }

  private String page(long id) throws Exception {
    return page("/people/" + id);
  }

  private String page(String path) throws Exception {
    return mvc.perform(get(path).with(SignedIn.page(signedIn.office())))
        .andReturn()
        .getResponse()
        .getContentAsString();
  }

  private Letters letters(ScriptedRelay relay) {
    JavaMailSenderImpl sender = new JavaMailSenderImpl();
    sender.setHost("127.0.0.1");
    sender.setPort(relay.port());
    var beans = new StaticListableBeanFactory(Map.of("sender", sender));
    return new Letters(
        beans.getBeanProvider(SchedulerClient.class),
        beans.getBeanProvider(JavaMailSender.class),
        links,
        rows,
        troubles,
        messages,
        Clock.systemUTC(),
        "",
        "8080",
        "");
  }
}
