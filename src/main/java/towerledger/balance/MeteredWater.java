package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;

/**
 * The water that the meters of one role measured, told for any stretch of time: interval volumes
 * are summed, register volumes are shared out in proportion to the modelled use.
 */
final class MeteredWater {

  /**
   * Water over a stretch.
   *
   * @param litres volume over the covered part
   * @param deviation standard deviation, L
   * @param covered part of the stretch's time that readings cover, 0–1
   * @param lastFact instant of the last reading used; empty stretch: the start of time
   */
  record Amount(double litres, double deviation, double covered, Instant lastFact) {}

  private static final Duration SLACK = Duration.ofMinutes(61);

  /** Limit of error where none is given: 1.5 % in normal flow (AWWA cold-water meters). */
  private static final double ASSUMED_ACCURACY = 0.015;

  private record Register(
      List<RegisterVolume> volumes, Instant first, Instant last, double resolutionL) {}

  private final QuarterDays blocks;
  private final double mostPerHourL;
  private final List<RegisterVolume> impossible = new ArrayList<>();
  private final List<Register> registers = new ArrayList<>();
  private double @Nullable [] hourlyL;
  private double @Nullable [] runningL;
  private int @Nullable [] gapsBefore;
  private double accuracy = ASSUMED_ACCURACY;
  private boolean present;

  private MeteredWater(QuarterDays blocks, double mostPerHourL) {
    this.blocks = blocks;
    this.mostPerHourL = mostPerHourL;
  }

  /**
   * The meters of one role together.
   *
   * @param mostPerHourL volume per hour above which a reading must be wrong and is left out, L
   */
  static MeteredWater of(
      List<MeterFacts> meters, MeterFacts.Role role, QuarterDays blocks, double mostPerHourL) {
    MeteredWater water = new MeteredWater(blocks, mostPerHourL);
    for (MeterFacts meter : meters) {
      if (meter.role() == role) {
        water.present = true;
        water.accuracy = meter.accuracyFraction().orElse(ASSUMED_ACCURACY);
        water.addRegister(meter);
        water.addIntervals(meter.intervals());
      }
    }
    water.sumIntervals();
    return water;
  }

  /** Whether there is a meter of the role at all. */
  boolean present() {
    return present;
  }

  /** Limit of error of the meter as a fraction. */
  double accuracy() {
    return accuracy;
  }

  /** Volume of each hour, NaN where the interval data do not cover it; null without any. */
  double @Nullable [] hourlyL() {
    return hourlyL;
  }

  private void addRegister(MeterFacts meter) {
    List<RegisterVolume> merged = new ArrayList<>();
    for (RegisterVolume volume : meter.registers()) {
      RegisterVolume last = merged.isEmpty() ? null : merged.get(merged.size() - 1);
      // An estimated reading between two actual ones drops out of their sum.
      if (last != null
          && last.estimated()
          && volume.estimated()
          && last.span().endExclusive().equals(volume.span().startInclusive())) {
        merged.set(
            merged.size() - 1,
            new RegisterVolume(
                Span.of(last.span().startInclusive(), volume.span().endExclusive()),
                last.litres() + volume.litres(),
                true,
                last.startWithin(),
                volume.endWithin()));
      } else {
        merged.add(volume);
      }
    }
    // Spans below an hour are readings taken twice: too short to tell a rate.
    merged.removeIf(volume -> !volume.shareable());
    merged.removeIf(
        volume -> {
          boolean wrong = volume.litres() > mostPerHourL * Math.max(1, volume.span().hours());
          if (wrong) {
            impossible.add(volume);
          }
          return wrong;
        });
    if (!merged.isEmpty()) {
      registers.add(
          new Register(
              merged,
              merged.get(0).span().startInclusive(),
              merged.get(merged.size() - 1).span().endExclusive(),
              meter.resolutionLitres().orElse(0)));
    }
  }

  private void addIntervals(IntervalVolumes intervals) {
    if (intervals.size() == 0) {
      return;
    }
    int hours = blocks.count * QuarterDays.HOURS;
    double[] hourly = new double[hours];
    double[] minutes = new double[hours];
    for (int i = 0; i < intervals.size(); i++) {
      long start = intervals.startEpochSecond(i) - blocks.startEpochSecond;
      double length = intervals.minutes(i) * 60.0;
      double rate = intervals.litres(i) / length;
      double left = length;
      double at = start;
      while (left > 1e-6) {
        int hour = (int) Math.floor(at / 3600);
        double part = Math.min(left, (hour + 1) * 3600.0 - at);
        if (hour >= 0 && hour < hours) {
          hourly[hour] += rate * part;
          minutes[hour] += part / 60;
        }
        at += part;
        left -= part;
      }
    }
    for (int h = 0; h < hours; h++) {
      if (minutes[h] < 59.5 || hourly[h] > 4 * mostPerHourL) {
        hourly[h] = Double.NaN;
      }
    }
    double[] sum = hourlyL;
    if (sum == null) {
      hourlyL = hourly;
    } else {
      for (int h = 0; h < hours; h++) {
        sum[h] =
            Double.isNaN(hourly[h])
                ? sum[h]
                : Double.isNaN(sum[h]) ? hourly[h] : sum[h] + hourly[h];
      }
    }
  }

  private void sumIntervals() {
    double[] hourly = hourlyL;
    if (hourly == null) {
      return;
    }
    double[] running = new double[hourly.length + 1];
    int[] gaps = new int[hourly.length + 1];
    for (int h = 0; h < hourly.length; h++) {
      boolean gap = Double.isNaN(hourly[h]);
      running[h + 1] = running[h] + (gap ? 0 : hourly[h]);
      gaps[h + 1] = gaps[h] + (gap ? 1 : 0);
    }
    runningL = running;
    gapsBefore = gaps;
  }

  /** Largest volume left out of a stretch because no fill could pass it, L; 0 without any. */
  double impossibleL(double from, double to) {
    double most = 0;
    for (RegisterVolume volume : impossible) {
      if (blocks.position(volume.span().startInclusive()) < to
          && blocks.position(volume.span().endExclusive()) > from) {
        most = Math.max(most, volume.litres());
      }
    }
    return most;
  }

  /** Instants of readings, as positions in blocks, in order; ends of unknown stretches included. */
  double[] readingPositions() {
    return registers.stream()
        .flatMap(r -> r.volumes().stream())
        .flatMap(
            v -> java.util.stream.Stream.of(v.span().startInclusive(), v.span().endExclusive()))
        .mapToDouble(blocks::position)
        .sorted()
        .distinct()
        .toArray();
  }

  /** Whether interval data cover a stretch without a gap. */
  boolean byInterval(double from, double to) {
    int[] gaps = gapsBefore;
    if (gaps == null) {
      return false;
    }
    int first = (int) Math.round(from * QuarterDays.HOURS);
    int last = (int) Math.round(to * QuarterDays.HOURS);
    return first >= 0 && last < gaps.length && last > first && gaps[last] == gaps[first];
  }

  /**
   * Water between two positions.
   *
   * @param runningUse running total of modelled use by block, which shares out register volumes
   */
  Amount between(double from, double to, double[] runningUse) {
    double[] running = runningL;
    if (running != null && byInterval(from, to)) {
      int first = (int) Math.round(from * QuarterDays.HOURS);
      int last = (int) Math.round(to * QuarterDays.HOURS);
      double litres = running[last] - running[first];
      return new Amount(litres, 0.002 * litres, 1, blocks.at(to));
    }
    double litres = 0;
    double variance = 0;
    double covered = 0;
    double wanted = 0;
    Instant lastFact = Instant.MIN;
    Instant start = blocks.at(from);
    Instant end = blocks.at(to);
    for (Register register : registers) {
      for (RegisterVolume volume : register.volumes()) {
        Instant a = volume.span().startInclusive();
        Instant b = volume.span().endExclusive();
        if (!a.isBefore(end) || !b.isAfter(start)) {
          continue;
        }
        double whole = blocks.position(b) - blocks.position(a);
        double left = Math.max(from, blocks.position(a));
        double right = Math.min(to, blocks.position(b));
        double use =
            QuarterDays.totalAt(runningUse, blocks.position(b))
                - QuarterDays.totalAt(runningUse, blocks.position(a));
        double part =
            use > 0
                ? (QuarterDays.totalAt(runningUse, right) - QuarterDays.totalAt(runningUse, left))
                    / use
                : (right - left) / whole;
        double here = part * volume.litres();
        litres += here;
        covered += right - left;
        double daily = volume.litres() / whole;
        if (part < 0.98) {
          double cut =
              (left > blocks.position(a) + 0.2 ? 1 : 0)
                  + (right < blocks.position(b) - 0.2 ? 1 : 0);
          // The model's shape within a span is trusted to about a tenth of the smaller part.
          double moved = 0.12 * Math.min(part, 1 - part) * volume.litres();
          variance += cut * moved * moved;
        }
        variance += timing(volume.startWithin(), left <= blocks.position(a) + 1e-6, daily);
        variance += timing(volume.endWithin(), right >= blocks.position(b) - 1e-6, daily);
        double step = register.resolutionL() / Math.sqrt(6);
        variance += step * step;
        if (volume.estimated()) {
          variance += 0.0009 * here * here;
        }
        lastFact = b.isAfter(lastFact) ? b : lastFact;
      }
      double left = Math.max(from, blocks.position(register.first()));
      double right = Math.min(to, blocks.position(register.last()));
      wanted += Math.max(0, right - left);
    }
    double outside = Math.max(0, to - from - union(from, to));
    double share = wanted + outside <= 0 ? 0 : Math.min(1, covered / (wanted + outside));
    return new Amount(litres, Math.sqrt(variance), share, lastFact);
  }

  private static double timing(Duration within, boolean atEdge, double perBlock) {
    if (!atEdge) {
      return 0;
    }
    double off = within.toMinutes() / 60.0 / QuarterDays.HOURS / Math.sqrt(3) * perBlock;
    return off * off;
  }

  /** Blocks of a stretch in which any register was in service. */
  private double union(double from, double to) {
    double[][] windows =
        registers.stream()
            .map(r -> new double[] {blocks.position(r.first()), blocks.position(r.last())})
            .sorted((x, y) -> Double.compare(x[0], y[0]))
            .toArray(double[][]::new);
    double slack = SLACK.toMinutes() / 60.0 / QuarterDays.HOURS;
    double sum = 0;
    double reached = from;
    for (double[] window : windows) {
      double left = Math.max(reached, window[0] - slack);
      double right = Math.min(to, window[1] + slack);
      if (right > left) {
        sum += right - left;
        reached = right;
      }
    }
    return sum;
  }
}
