package towerledger.office.calculator;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.jspecify.annotations.Nullable;
import org.springframework.context.MessageSource;
import org.springframework.http.HttpStatus;
import org.springframework.stereotype.Controller;
import org.springframework.ui.Model;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.ModelAttribute;
import org.springframework.web.bind.annotation.PathVariable;
import org.springframework.web.bind.annotation.RequestParam;
import org.springframework.web.server.ResponseStatusException;
import towerledger.account.OpenTo;
import towerledger.account.Role;
import towerledger.drawing.FigureText;
import towerledger.page.TypedNumber;
import towerledger.quantity.OutOfRangeException;
import towerledger.wording.ReasonText;
import towerledger.wording.Words;

/** The calculators. What was typed stands in the address, so that an answer can be sent on. */
@OpenTo({Role.OFFICE, Role.TECHNICIAN})
@Controller
class CalculatorController {

  private final List<Calculator> calculators;
  private final MessageSource messages;

  CalculatorController(List<Calculator> calculators, MessageSource messages) {
    this.calculators = calculators;
    this.messages = messages;
  }

  @GetMapping({"/calculators", "/calculators/{name}"})
  String show(
      @PathVariable(required = false) @Nullable String name,
      @RequestParam Map<String, String> typed,
      @ModelAttribute("figureText") FigureText text,
      Model model) {
    Calculator calculator =
        calculators.stream()
            .filter(c -> name == null || c.name().equals(name))
            .findFirst()
            .orElseThrow(() -> new ResponseStatusException(HttpStatus.NOT_FOUND));
    model.addAttribute("view", view(calculator, typed, text));
    return "office/calculator";
  }

  private CalculatorView view(Calculator calculator, Map<String, String> typed, FigureText text) {
    Words words = new Words(messages, text.locale());
    boolean asked = calculator.questions().stream().anyMatch(q -> typed.containsKey(q.name()));
    List<CalculatorView.Field> fields = new ArrayList<>();
    Map<String, Double> values = new HashMap<>();
    for (Question question : calculator.questions()) {
      String entry =
          asked ? typed.getOrDefault(question.name(), "") : question.example(text.units());
      OptionalDouble number = TypedNumber.find(entry);
      String wrong = wrong(question, entry, number, words, text);
      if (wrong == null && number.isPresent()) {
        values.put(question.name(), question.measure().inside(number.getAsDouble(), text.units()));
      }
      fields.add(
          new CalculatorView.Field(
              question.name(),
              question.measure().unitName(text.units(), words),
              entry,
              question.optional(),
              wrong));
    }
    Answer answer = null;
    String trouble = null;
    if (asked && fields.stream().allMatch(field -> field.wrong() == null)) {
      try {
        answer = calculator.answer(new Given(values), words, text);
      } catch (OutOfRangeException e) {
        trouble = words.of("calc.trouble", new ReasonText(words, text).say(e));
      }
    }
    return new CalculatorView(
        calculator.name(),
        calculators.stream().map(Calculator::name).toList(),
        fields,
        answer,
        trouble);
  }

  private static @Nullable String wrong(
      Question question, String entry, OptionalDouble number, Words words, FigureText text) {
    if (entry.isBlank()) {
      return question.optional() ? null : words.of("field.missing");
    }
    if (number.isEmpty()) {
      return words.of("field.number");
    }
    double least = question.least(text.units());
    double most = question.most(text.units());
    return number.getAsDouble() >= least && number.getAsDouble() <= most
        ? null
        : words.of("field.range", text.tick(least), text.tick(most));
  }
}
