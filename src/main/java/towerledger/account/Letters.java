package towerledger.account;

import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.task.FailureHandler;
import com.github.kagkarlsson.scheduler.task.TaskDescriptor;
import com.github.kagkarlsson.scheduler.task.helper.OneTimeTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.time.Clock;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.MessageSource;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.mail.MailException;
import org.springframework.mail.SimpleMailMessage;
import org.springframework.mail.javamail.JavaMailSender;

/**
 * Sends letters to those who sign in. A letter waits in the database until the mail server takes
 * it; a link that signs in is made only then, so that no secret is ever stored readable.
 */
@Configuration(proxyBeanMethods = false)
class Letters {

  private static final Logger LOG = LoggerFactory.getLogger(Letters.class);
  private static final TaskDescriptor<String> TASK =
      TaskDescriptor.of("account-letter", String.class);
  private static final String CHANGED = "CHANGED";
  private static final String TOLD = "TOLD";

  /** Between the parts of what is told: no name has it. */
  private static final String BETWEEN = "\u001f";

  private static final int ATTEMPTS = 12;
  private static final Duration FIRST_PAUSE = Duration.ofMinutes(1);

  private final ObjectProvider<SchedulerClient> scheduler;
  private final ObjectProvider<JavaMailSender> mail;
  private final Links links;
  private final PersonRows people;
  private final LetterTroubles troubles;
  private final MessageSource messages;
  private final Clock clock;
  private final String address;
  private final String sender;

  Letters(
      ObjectProvider<SchedulerClient> scheduler,
      ObjectProvider<JavaMailSender> mail,
      Links links,
      PersonRows people,
      LetterTroubles troubles,
      MessageSource messages,
      Clock clock,
      @Value("${towerledger.mail.public-url:}") String address,
      @Value("${server.port:8080}") String port,
      @Value("${towerledger.mail.from:}") String sender) {
    this.scheduler = scheduler;
    this.mail = mail;
    this.links = links;
    this.people = people;
    this.troubles = troubles;
    this.messages = messages;
    this.clock = clock;
    this.address = address.isBlank() ? "http://localhost:" + port : address.replaceAll("/+$", "");
    this.sender = sender.isBlank() ? "ledger@localhost" : sender;
  }

  /** Whether there is a mail server to hand letters to. */
  boolean canSend() {
    return mail.getIfAvailable() != null;
  }

  /** Queues a letter; it goes out once the surrounding transaction has committed. */
  void queue(long personId, Link.Purpose purpose) {
    troubles.forget(personId);
    queue(purpose.name() + " " + personId);
  }

  /** Queues word that a new password was taken, where there is a mail server to send it. */
  void queueChanged(long personId) {
    if (canSend()) {
      queue(CHANGED + " " + personId);
    }
  }

  /**
   * Queues word of something, where there is a mail server to send it.
   *
   * @param kind its words are {@code letter.KIND.subject} and {@code letter.KIND.text}
   * @param path the page it leads to
   * @param gaps what stands in the words, after the reader's name and the page's address
   */
  void queueWord(long personId, String kind, String path, List<String> gaps) {
    if (canSend()) {
      String told =
          Stream.concat(Stream.of(kind, path), gaps.stream())
              .map(part -> part.replace(BETWEEN, " "))
              .collect(Collectors.joining(BETWEEN));
      queue(TOLD + " " + personId + " " + told);
    }
  }

  private void queue(String order) {
    scheduler
        .getObject()
        .scheduleIfNotExists(
            TASK.instance(UUID.randomUUID().toString()).data(order).build(), clock.instant());
  }

  /** The address of a link's page, for a letter or to be handed over in person. */
  String address(Link.Purpose purpose, String secret) {
    return address
        + (purpose == Link.Purpose.INVITATION ? "/invitation/" : "/password/reset/")
        + secret;
  }

  @Bean
  OneTimeTask<String> accountLetter() {
    return Tasks.oneTime(TASK)
        .onFailure(
            new FailureHandler.MaxRetriesFailureHandler<>(
                ATTEMPTS, new FailureHandler.ExponentialBackoffFailureHandler<>(FIRST_PAUSE, 1.7)))
        .execute(
            (instance, context) ->
                handOver(
                    instance.getData(), context.getExecution().consecutiveFailures >= ATTEMPTS));
  }

  /** A server that says never (RFC 5321, 4.2.1) is not asked again; else the scheduler does. */
  void handOver(String order, boolean last) {
    String[] parts = order.split(" ", 3);
    long person = Long.parseLong(parts[1]);
    try {
      send(parts, person);
      troubles.forget(person);
    } catch (MailException failure) {
      SmtpAnswer answer = SmtpAnswer.of(failure);
      boolean never = answer.kind() == SmtpAnswer.Kind.REFUSED;
      troubles.note(person, answer.text(), never || last);
      if (!never) {
        throw failure;
      }
      LOG.warn("letter to person {} refused: {}", person, answer.text());
    }
  }

  private void send(String[] parts, long id) {
    Person person = people.findById(id).filter(Person::enabled).orElse(null);
    JavaMailSender server = mail.getIfAvailable();
    if (person == null || server == null) {
      LOG.warn(
          "letter {} to person {} not sent: {}",
          parts[0],
          parts[1],
          person == null ? "person gone" : "no mail server");
      return;
    }
    if (parts[0].equals(TOLD)) {
      String[] told = parts[2].split(BETWEEN, -1);
      List<String> gaps = new ArrayList<>(List.of(person.name(), address + told[1]));
      gaps.addAll(List.of(told).subList(2, told.length));
      send(server, person, "letter." + told[0], gaps.toArray());
      return;
    }
    if (parts[0].equals(CHANGED)) {
      send(server, person, "letter.changed", person.name(), address + "/password/forgotten");
      return;
    }
    Link.Purpose purpose = Link.Purpose.valueOf(parts[0]);
    send(
        server,
        person,
        purpose == Link.Purpose.INVITATION ? "letter.invitation" : "letter.reset",
        person.name(),
        address(purpose, links.make(person.id(), purpose)),
        life(purpose.life(), Locale.forLanguageTag(person.language())));
  }

  private String life(Duration life, Locale language) {
    return life.toDays() > 0
        ? messages.getMessage("letter.life.days", new Object[] {life.toDays()}, language)
        : messages.getMessage("letter.life.hours", new Object[] {life.toHours()}, language);
  }

  private void send(JavaMailSender server, Person person, String kind, Object... gaps) {
    Locale language = Locale.forLanguageTag(person.language());
    SimpleMailMessage letter = new SimpleMailMessage();
    letter.setFrom(sender);
    letter.setTo(person.email());
    // a line break in a name would begin another header
    letter.setSubject(
        messages.getMessage(kind + ".subject", gaps, language).replaceAll("\\p{Cntrl}+", " "));
    letter.setText(messages.getMessage(kind + ".text", gaps, language));
    server.send(letter);
  }
}
