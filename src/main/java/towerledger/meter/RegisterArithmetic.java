package towerledger.meter;

import java.math.BigDecimal;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalInt;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;

/**
 * Turns the readings of one register into volumes between them.
 *
 * <ul>
 *   <li>The registers noted at installation and removal count as readings; readings from outside
 *       that life are left out.
 *   <li>Estimates between two real readings are left out: what passed between the real ones is
 *       known, and how it was spread over the time is better told by the use than by an estimate.
 *   <li>A register below the one before rolled over if its digits are known and the volume so
 *       implied could have passed. Otherwise, if exactly one of the two readings is doubtful (an
 *       estimate, or marked as outside what the model expected), that one is left out. Otherwise
 *       the volume is not told: no guess is made.
 * </ul>
 */
final class RegisterArithmetic {

  /** Steps coarser than one count are believed only when this many readings show them. */
  private static final int READINGS_FOR_COARSE_STEP = 5;

  private static final int COARSEST_STEP_EXPONENT = 3;

  private final Register register;
  private final List<RegisterReading> kept = new ArrayList<>();
  private final List<Optional<RegisterVolume>> steps = new ArrayList<>();
  private final List<Remark> remarks = new ArrayList<>();

  private RegisterArithmetic(Register register) {
    this.register = register;
  }

  /**
   * Volumes between readings.
   *
   * @param register the register read
   * @param readings in any order; of two at one instant the later in the list stands
   */
  static MeasuredRegister measure(Register register, List<RegisterReading> readings) {
    var arithmetic = new RegisterArithmetic(register);
    List<RegisterReading> inLife = arithmetic.withEnds(readings);
    arithmetic.withoutReplacedEstimates(inLife).forEach(arithmetic::add);
    arithmetic.remarks.sort(Comparator.comparing(Remark::at));
    return new MeasuredRegister(
        arithmetic.steps.stream().flatMap(Optional::stream).toList(),
        arithmetic.remarks,
        arithmetic.resolutionLitres(inLife));
  }

  /** Readings within the meter's life, in order, with those made at its two ends. */
  private List<RegisterReading> withEnds(List<RegisterReading> readings) {
    var byInstant = new java.util.TreeMap<Instant, RegisterReading>();
    for (RegisterReading reading : readings) {
      if (register.installed().at().filter(reading.readAt()::isBefore).isPresent()
          || register.removed().at().filter(reading.readAt()::isAfter).isPresent()) {
        remark(
            Remark.Kind.OUTSIDE_LIFE,
            reading,
            "register %s was read outside the time in which meter %s counted; left out. Correct installed_at or removed_at, or the reading"
                .formatted(reading.register().toPlainString(), register.meter()));
      } else {
        byInstant.put(reading.readAt(), reading);
      }
    }
    for (Register.Mark end : List.of(register.installed(), register.removed())) {
      end.reading()
          .ifPresent(
              noted -> {
                RegisterReading read = byInstant.putIfAbsent(noted.readAt(), noted);
                if (read != null && read.register().compareTo(noted.register()) != 0) {
                  remark(
                      Remark.Kind.ENDS_DIFFER,
                      read,
                      "register %s was read where %s was noted at installation or removal of meter %s; the reading stands. Correct one of the two"
                          .formatted(
                              read.register().toPlainString(),
                              noted.register().toPlainString(),
                              register.meter()));
                }
              });
    }
    return List.copyOf(byInstant.values());
  }

  private List<RegisterReading> withoutReplacedEstimates(List<RegisterReading> ordered) {
    OptionalInt first = OptionalInt.empty();
    int last = -1;
    for (int i = 0; i < ordered.size(); i++) {
      if (ordered.get(i).kind() == RegisterReading.Kind.ACTUAL) {
        first = first.isPresent() ? first : OptionalInt.of(i);
        last = i;
      }
    }
    var remaining = new ArrayList<RegisterReading>();
    for (int i = 0; i < ordered.size(); i++) {
      RegisterReading reading = ordered.get(i);
      if (reading.kind() == RegisterReading.Kind.ESTIMATED
          && first.isPresent()
          && i > first.getAsInt()
          && i < last) {
        remark(
            Remark.Kind.ESTIMATE_REPLACED,
            reading,
            "the estimate of %s gave way to the real readings around it"
                .formatted(reading.register().toPlainString()));
      } else {
        remaining.add(reading);
      }
    }
    return remaining;
  }

  private void add(RegisterReading next) {
    if (kept.isEmpty()) {
      kept.add(next);
      return;
    }
    RegisterReading before = kept.get(kept.size() - 1);
    if (next.register().compareTo(before.register()) >= 0) {
      step(before, next, next.register().subtract(before.register()));
    } else if (before.doubtful() && !next.doubtful() && joinsWithout(before, next)) {
      return;
    } else if (rolledOver(before, next)) {
      BigDecimal counts = countsAcrossRollOver(before, next);
      remark(
          Remark.Kind.ROLLED_OVER,
          next,
          "the register rolled over between %s and %s; %s counts passed"
              .formatted(
                  before.register().toPlainString(),
                  next.register().toPlainString(),
                  counts.toPlainString()));
      step(before, next, counts);
    } else if (next.doubtful() && !before.doubtful()) {
      leaveOut(next, before);
    } else {
      remark(Remark.Kind.RAN_BACKWARDS, next, wordsOnRunningBackwards(before, next));
      kept.add(next);
      steps.add(Optional.empty());
    }
  }

  /** Drops a doubtful reading when the one before it and the one after it fit together. */
  private boolean joinsWithout(RegisterReading doubtful, RegisterReading next) {
    if (kept.size() == 1) {
      kept.clear();
      leaveOut(doubtful, next);
      kept.add(next);
      return true;
    }
    RegisterReading earlier = kept.get(kept.size() - 2);
    if (next.register().compareTo(earlier.register()) < 0 && !rolledOver(earlier, next)) {
      return false;
    }
    kept.remove(kept.size() - 1);
    steps.remove(steps.size() - 1);
    leaveOut(doubtful, next);
    add(next);
    return true;
  }

  private void leaveOut(RegisterReading doubtful, RegisterReading sound) {
    remark(
        Remark.Kind.LEFT_OUT,
        doubtful,
        "register %s contradicts %s read at %s and was %s; left out until it is corrected"
            .formatted(
                doubtful.register().toPlainString(),
                sound.register().toPlainString(),
                sound.readAt(),
                doubtful.kind() == RegisterReading.Kind.ESTIMATED
                    ? "only estimated"
                    : "marked as outside what was expected"));
  }

  private boolean rolledOver(RegisterReading before, RegisterReading next) {
    return register
        .rollOver()
        .filter(limit -> before.register().compareTo(limit) < 0)
        .filter(
            limit ->
                register.couldPass(
                    countsAcrossRollOver(before, next),
                    Duration.between(before.readAt(), next.readAt())
                        .plus(before.giveOrTake())
                        .plus(next.giveOrTake())))
        .isPresent();
  }

  private BigDecimal countsAcrossRollOver(RegisterReading before, RegisterReading next) {
    return register.rollOver().orElseThrow().subtract(before.register()).add(next.register());
  }

  private String wordsOnRunningBackwards(RegisterReading before, RegisterReading next) {
    String cause =
        register.digits().isPresent()
            ? "a roll-over of %d digits would mean more water than could pass"
                .formatted(register.digits().getAsInt())
            : "register_digits is not known, so a roll-over cannot be told";
    return "meter %s went from %s (%s) to %s; %s. The volume between is left open: correct the reading, give register_digits, or record the exchange of the meter with its last and first register"
        .formatted(
            register.meter(),
            before.register().toPlainString(),
            before.readAt(),
            next.register().toPlainString(),
            cause);
  }

  private void step(RegisterReading before, RegisterReading next, BigDecimal counts) {
    kept.add(next);
    steps.add(
        Optional.of(
            new RegisterVolume(
                Span.of(before.readAt(), next.readAt()),
                register.litres(counts),
                before.kind() == RegisterReading.Kind.ESTIMATED
                    || next.kind() == RegisterReading.Kind.ESTIMATED,
                before.giveOrTake(),
                next.giveOrTake())));
  }

  /**
   * The step of the register as its readings show it: one count, less where decimals are read, and
   * ten, a hundred or a thousand counts where five readings or more all end in as many noughts
   * (common practice on registers whose last wheels stand still; no source).
   */
  private OptionalDouble resolutionLitres(List<RegisterReading> readings) {
    List<BigDecimal> shown =
        readings.stream()
            .filter(r -> r.kind() == RegisterReading.Kind.ACTUAL)
            .map(RegisterReading::register)
            .filter(r -> r.signum() > 0)
            .distinct()
            .toList();
    if (shown.isEmpty()) {
      return OptionalDouble.empty();
    }
    int exponent = shown.stream().mapToInt(r -> -r.stripTrailingZeros().scale()).min().getAsInt();
    int coarsest = shown.size() >= READINGS_FOR_COARSE_STEP ? COARSEST_STEP_EXPONENT : 0;
    return OptionalDouble.of(
        register.litresPerCount() * Math.pow(10, Math.min(exponent, coarsest)));
  }

  private void remark(Remark.Kind kind, RegisterReading reading, String words) {
    remarks.add(new Remark(kind, reading.readAt(), words));
  }
}
