package towerledger.wording;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;

/**
 * The sentences that revisions keep, and bills and claims come with, in English and SI as written,
 * and under which key each is said anew. Gaps: {@code {L}} litres with and {@code {l}} without
 * their unit, {@code {C}} degrees Celsius with and {@code {c}} without their unit, {@code {T}} with
 * the same in °F behind, {@code {K}} a difference of temperatures, {@code {0}} to {@code {2}} a
 * number shown with so many decimals, {@code {t}} a name, {@code {a}} one or two names with 'and'
 * between, {@code {n}} one without spaces, {@code {u}} a unit of volume, {@code {d}} a day, {@code
 * {i}} an instant, {@code {w}} a code and {@code {q}} the name of a quantity that the messages know
 * below {@code kept.}, {@code {s}} another kept sentence.
 */
final class KeptSentences {

  private static final Pattern GAP = Pattern.compile("\\{([LlCcTKtaqnudiws012])}");
  private static final String NUMBER = "(-?[\\d.,]+)";
  private static final String CYCLES = "cycles {1} against a target of {1}";

  private static final Map<String, String> SENTENCES = sentences();
  private static final Map<String, Pattern> WITH_GAPS =
      SENTENCES.entrySet().stream()
          .filter(sentence -> GAP.matcher(sentence.getValue()).find())
          .collect(
              Collectors.toMap(
                  Map.Entry::getKey,
                  sentence -> pattern(sentence.getValue()),
                  (one, other) -> one,
                  LinkedHashMap::new));
  private static final Map<String, String> WITHOUT_GAPS =
      SENTENCES.entrySet().stream()
          .filter(sentence -> !WITH_GAPS.containsKey(sentence.getKey()))
          .collect(Collectors.toMap(Map.Entry::getValue, Map.Entry::getKey));

  private KeptSentences() {}

  /** Each key with its sentence. */
  static Map<String, String> all() {
    return Map.copyOf(SENTENCES);
  }

  /**
   * A sentence that is known.
   *
   * @param key its message
   * @param gaps what fills it, in the order of the sentence
   */
  record Known(String key, List<Gap> gaps) {}

  /**
   * What fills a gap.
   *
   * @param kind letter of the gap
   * @param text as it was written
   */
  record Gap(char kind, String text) {

    /** The number, also where a machine whose language has a decimal comma wrote it. */
    double number() {
      return Double.parseDouble(
          text.toLowerCase(Locale.ROOT).replace(',', '.').replaceAll("\\.(?=.*\\.)", ""));
    }
  }

  /** The sentence, or none where it is not known. */
  static List<Known> find(String kept) {
    String key = WITHOUT_GAPS.get(kept);
    if (key != null) {
      return List.of(new Known(key, List.of()));
    }
    for (Map.Entry<String, Pattern> sentence : WITH_GAPS.entrySet()) {
      Matcher found = sentence.getValue().matcher(kept);
      if (found.matches()) {
        return List.of(
            new Known(
                sentence.getKey(), gaps(SENTENCES.getOrDefault(sentence.getKey(), ""), found)));
      }
    }
    return List.of();
  }

  private static List<Gap> gaps(String sentence, Matcher found) {
    List<Gap> gaps = new ArrayList<>();
    Matcher gap = GAP.matcher(sentence);
    while (gap.find()) {
      gaps.add(new Gap(gap.group(1).charAt(0), found.group(gaps.size() + 1)));
    }
    return gaps;
  }

  private static Pattern pattern(String sentence) {
    StringBuilder pattern = new StringBuilder();
    Matcher gap = GAP.matcher(sentence);
    int end = 0;
    while (gap.find()) {
      pattern.append(Pattern.quote(sentence.substring(end, gap.start())));
      pattern.append(
          switch (gap.group(1)) {
            case "L" -> NUMBER + " L";
            case "C" -> NUMBER + " °C";
            case "T" -> NUMBER + " °C \\(-?[\\d.,]+ °F\\)";
            case "K" -> NUMBER + " K";
            case "t", "q", "a" -> "(.+?)";
            case "n", "w", "u" -> "(\\S+?)";
            case "d" -> "(\\d{4}-\\d\\d-\\d\\d)";
            case "i" -> "(\\d{4}-\\d\\d-\\d\\dT[\\d:.]+Z)";
            case "s" -> "(.+)";
            default -> NUMBER;
          });
      end = gap.end();
    }
    return Pattern.compile(pattern + Pattern.quote(sentence.substring(end)));
  }

  private static Map<String, String> sentences() {
    Map<String, String> s = new LinkedHashMap<>();
    s.put("relay.accepted", "accepted by the relay");
    wants(s);
    reasons(s);
    notes(s);
    steps(s);
    MoneySentences.add(s);
    MeterSentences.add(s);
    RevisionSentences.add(s);
    RefusalSentences.add(s);
    IntakeSentences.add(s);
    FeedSentences.add(s);
    FactSentences.add(s);
    RateSentences.add(s);
    s.put("note.of", "{n}: {s}");
    return s;
  }

  private static void wants(Map<String, String> s) {
    s.put("want.makeup-meter", "a makeup meter, read at least monthly");
    s.put(
        "want.makeup-correction",
        "a correction of the makeup reading: digits, unit, or a swap that was not entered");
    s.put("want.makeup-readings", "makeup meter readings that enclose the whole month");
    s.put("want.weather", "weather hours of the station for the month");
    s.put(
        "want.sample-correction",
        "a correction of the water sample that shows the basin weaker than the makeup: cycles below"
            + " 1 cannot be");
    s.put("want.conductivity", "conductivity of makeup and basin, at least once a month");
    s.put("want.heat", "chiller electricity or ton-hours, by the month or finer");
    s.put("want.target", "target cycles or the controller's conductivity set-point");
    s.put("want.blowdown-meter", "a blowdown meter: it tells bleed from overflow, leak and drift");
  }

  private static void reasons(Map<String, String> s) {
    s.put("reason.makeup-more", "makeup {0} % more than the sound system would draw");
    s.put("reason.makeup-times", "makeup {0} times what the sound system would draw");
    s.put("reason.makeup-any", "makeup where the sound system would hardly draw any");
    s.put("reason.makeup-less", "makeup {0} % less than the sound system would draw");
    s.put("reason.cycles", CYCLES);
    s.put("reason.cycles-before-basin", CYCLES + ": the water is lost before the basin");
    s.put("reason.cycles-basin", CYCLES + ": concentrated water is lost");
    s.put(
        "reason.pressure-above",
        "pressure at the fill valve {0} % above the highest at which it closes; many sound sites"
            + " exceed it too");
    s.put(
        "reason.pressure-below",
        "pressure at the fill valve {0} % below the highest at which it closes");
    s.put("reason.bleed", "metered bleed {L} against {L} needed");
    s.put("reason.missing.meter", "there is no makeup meter");
    s.put("reason.missing.implausible", "makeup readings give {L}, more than the fill could pass");
    s.put("reason.missing.covered", "makeup readings cover {0} % of the month");
    s.put("reason.missing.weather", "weather is missing for {0} % of the hours");
  }

  private static void notes(Map<String, String> s) {
    s.put("note.heat-guessed", "heat load guessed from nameplate, weather and schedule");
    s.put("note.loop", "water in the loop taken as {L} from the nominal tons");
    s.put(
        "note.no-target",
        "no target cycles or conductivity set-point known: habit of the samples, from {0} cycles");
    s.put("note.no-sample", "no water sample this month: cycles carried on from the earlier ones");
    s.put(
        "note.readings-cover", "makeup readings cover {0} % of the month; the rest in proportion");
    s.put(
        "note.typical-weather",
        "the weather is a typical year's, not that of this month: evaporation is what is usual at"
            + " the place, not what was");
    s.put(
        "note.filled-weather",
        "{0} % of the hours' weather was filled in (from neighbouring hours, or the station's usual"
            + " hours of the month)");
    s.put(
        "note.missing-weather",
        "weather missing for {1} % of the hours, taken from the hours around");
    s.put(
        "note.closed-circuit",
        "closed-circuit evaporation is modelled on the spray water, with wider bounds");
    s.put(
        "note.gross",
        "{L} leak in all; the bleed gives way for part of it, only {L} are drawn on top and priced");
    s.put(
        "note.vague",
        "in much of the month the tower may have run dry or cooled without the chiller: evaporation"
            + " is uncertain");
    s.put("note.economizer", "a waterside economizer may load the tower while the chiller stands");
    s.put("note.set-point", "cold-water set-point not known: {C}");
    s.put(
        "note.more-air",
        "tower {t} could not meet its design point with its air flow: more air is assumed");
    s.put(
        "note.usual-point",
        "tower {t} rated at {c}/{C} and {C} wet bulb, the trade's usual point where the nameplate"
            + " is silent");
    s.put(
        "note.impossible-point",
        "design point of tower {t} is not possible (cold water {C}, wet bulb {C}, range {K}): the"
            + " usual one is taken");
    s.put("note.no-air", "air flow of tower {t} not known: {1} kg of water per kg of air");
    s.put(
        "note.odd-air",
        "air flow of tower {t} gives {2} kg of water per kg of air, outside 0.3 to 3: the usual"
            + " ratio is taken");
  }

  private static void steps(Map<String, String> s) {
    s.put("step.metered-makeup", "metered makeup");
    s.put("step.other-use", "other use");
    s.put("step.modelled-evaporation", "modelled evaporation");
    s.put("step.load-multiplier", "load multiplier");
    s.put("step.month-multiplier", "load multiplier of this month");
    s.put("step.beside-shape", "evaporation beside the load's shape");
    s.put("step.evaporation", "evaporation");
    s.put("step.drift", "drift");
    s.put("step.cycles", "cycles");
    s.put("step.target-cycles", "target cycles");
    s.put("step.needed-blowdown", "needed blowdown");
    s.put("step.storage-change", "storage change");
    s.put("step.sound-bleed", "bleed and refill of the sound system");
    s.put("step.loss", "loss");
    s.put("step.by.loss", "what is lost, within its interval");
    s.put("step.by.left", "metered makeup − other use − loss");
    s.put("step.by.rest", "where water is lost, the rest tells best what a sound system takes");
    s.put("step.by.beyond", "what the basin draws beyond E and D");
    s.put("step.by.walk", "walk through the basin at the settings in force");
    s.put("step.expected-makeup", "expected makeup");
    s.put("step.excess-loss", "excess loss");
    s.put("step.fresh-loss", "fresh loss");
    s.put("step.meter-correction", "meter correction");
    s.put("step.by.shared-out", "makeup meter, shared out by modelled use");
    s.put("step.by.sub-meters", "sub-meters");
    s.put("step.by.sum-of-hours", "sum of hours");
    s.put("step.by.tower-model", "tower model");
    s.put("step.by.posterior-mean", "posterior mean");
    s.put("step.by.calibration", "calibration on earlier months and this one");
    s.put("step.by.multiplier", "multiplier × modelled");
    s.put("step.by.month-multiplier", "multiplier of this month × modelled + beside the shape");
    s.put("step.by.strays", "the multiplier and what this month strays from it");
    s.put("step.by.evenness", "base and evenness of the load");
    s.put("step.by.drift", "drift × circulation × load hours");
    s.put("step.by.setting", "setting or assumed");
    s.put("step.by.conductivities", "basin ÷ makeup conductivity");
    s.put("step.by.samples", "samples of the month");
    s.put("step.by.settings", "settings in force");
    s.put("step.by.balance", "water balance");
    s.put("step.by.needed", "E ÷ (C* − 1) − D");
    s.put("step.by.drains", "drains and refills");
    s.put("step.by.visits", "visits");
    s.put("step.by.sound-sum", "E + D + B of the sound system");
    s.put("step.budget.scatter", "scatter of the heat evidence");
    s.put("step.budget.meter", "makeup meter");
    s.put("step.budget.reading", "reading and sharing out to the month");
    s.put("step.budget.basin", "water in the basin");
    s.put("step.budget.bleed", "bleed");
    s.put("step.budget.by.habit", "habit of the basin, and how far it strays between samples");
    s.put("step.budget.by.calibration", "sequential calibration on this system's own months");
    s.put("step.budget.by.grade", "grade {t}, month to month");
    s.put("step.budget.by.meter", "limit of error of the meter");
    s.put("step.budget.by.reading", "resolution, time of reading, modelled use");
    s.put("step.budget.by.basin", "level at the readings, 2 % of the loop");
  }
}
