package towerledger.office.rates;

import java.time.Clock;
import java.time.LocalDate;
import java.util.Currency;
import java.util.List;
import java.util.Map;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.Customers;
import towerledger.drawing.FigureText;
import towerledger.site.CoolingSystem;
import towerledger.site.Sites;
import towerledger.tariff.RateSchedule;
import towerledger.tariff.RateVersion;
import towerledger.tariff.Schedules;
import towerledger.wording.Words;

/** Rate schedules, one by one, with their versions and a bill tried out. */
@Controller
class RatesController {

  private static final Currency WITHOUT_CUSTOMER = Currency.getInstance("USD");

  private final Schedules schedules;
  private final Sites sites;
  private final Customers customers;
  private final MessageSource messages;
  private final Clock clock;

  RatesController(
      Schedules schedules, Sites sites, Customers customers, MessageSource messages, Clock clock) {
    this.schedules = schedules;
    this.sites = sites;
    this.customers = customers;
    this.messages = messages;
    this.clock = clock;
  }

  @GetMapping("/rates")
  String list(@ModelAttribute("figureText") FigureText text, Model model) {
    LocalDate today = LocalDate.now(clock);
    model.addAttribute(
        "view",
        new RatesView.Shelf(
            schedules.list().stream().map(schedule -> entry(schedule, today, text)).toList()));
    return "office/rates";
  }

  @GetMapping("/rates/{code}")
  String show(
      @PathVariable String code,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    List<RateSchedule> all = schedules.list();
    RateSchedule schedule =
        all.stream()
            .filter(s -> s.code().equals(code))
            .findFirst()
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    Words words = new Words(messages, text.locale());
    LocalDate today = LocalDate.now(clock);
    List<CoolingSystem> billed = sites.listSystemsBilledOn(code);
    ScheduleText said = new ScheduleText(words, text, currency(billed).getCurrencyCode());
    BillTryOut tryOut =
        new BillTryOut(
            schedule,
            all.stream().filter(s -> s.service() != schedule.service()).toList(),
            currency(billed),
            words,
            text);
    model.addAttribute(
        "view",
        new RatesView.Schedule(
            schedule.code(),
            schedule.name(),
            "rates.service." + schedule.service().code(),
            said.says(schedule, today),
            said.versions(schedule, today),
            billed.stream()
                .map(system -> new RatesView.Billed(system.code(), system.details().name()))
                .toList(),
            sites.listSites(billed.stream().map(CoolingSystem::siteId).distinct().toList()).stream()
                .map(site -> new RatesView.Billed(site.code(), site.details().name()))
                .toList(),
            typed.containsKey("amount") ? tryOut.of(typed) : tryOut.blank(today)));
    return "office/schedule";
  }

  private RatesView.Entry entry(RateSchedule schedule, LocalDate today, FigureText text) {
    RateVersion version = schedule.findVersion(today).orElse(schedule.versions().get(0));
    return new RatesView.Entry(
        schedule.code(),
        schedule.name(),
        "rates.service." + schedule.service().code(),
        text.day(version.effectiveFrom()),
        schedule.versions().size(),
        sites.listSystemsBilledOn(schedule.code()).size());
  }

  private Currency currency(List<CoolingSystem> billed) {
    return billed.stream()
        .findFirst()
        .map(system -> customers.get(system.customerId()).details().currency())
        .orElse(WITHOUT_CUSTOMER);
  }
}
