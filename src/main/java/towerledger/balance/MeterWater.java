package towerledger.balance;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.DoubleStream;
import org.jspecify.annotations.Nullable;
import towerledger.balance.facts.IntervalVolumes;
import towerledger.balance.facts.MeterFacts;
import towerledger.balance.facts.RegisterVolume;
import towerledger.quantity.Span;

/**
 * The water of one meter, told for any stretch of time: interval volumes are summed, register
 * volumes are shared out in proportion to the modelled use. Where intervals have gaps the register
 * speaks instead as far as it covers more.
 */
final class MeterWater {

  /** Limit of error where none is given: 1.5 % in normal flow (AWWA cold-water meters). */
  static final double ASSUMED_ACCURACY = 0.015;

  private final QuarterDays blocks;
  private final List<RegisterVolume> volumes = new ArrayList<>();
  private final List<RegisterVolume> impossible = new ArrayList<>();
  private final double resolutionL;
  private final double removed;
  private double @Nullable [] runningL;
  private int[] gapsBefore = {};
  private double begin = Double.POSITIVE_INFINITY;
  private double end = Double.NEGATIVE_INFINITY;

  private MeterWater(QuarterDays blocks, double resolutionL, double removed) {
    this.blocks = blocks;
    this.resolutionL = resolutionL;
    this.removed = removed;
  }

  /**
   * What a meter told.
   *
   * @param mostPerHourL volume per hour above which a reading must be wrong and is left out, L
   */
  static MeterWater of(MeterFacts meter, QuarterDays blocks, double mostPerHourL) {
    MeterWater water =
        new MeterWater(
            blocks,
            meter.resolutionLitres().orElse(0),
            meter.removedAt().map(blocks::position).orElse(Double.NaN));
    water.addRegister(meter, mostPerHourL);
    water.addIntervals(meter.intervals(), mostPerHourL);
    return water;
  }

  /** Whether it told anything, be it impossible. */
  boolean told() {
    return end > begin || !impossible.isEmpty();
  }

  /** Where its record begins, in blocks. */
  double begin() {
    return begin;
  }

  /** Where its record ends, in blocks. */
  double end() {
    return end;
  }

  /** When it was taken out, in blocks; NaN when it was not. */
  double removed() {
    return removed;
  }

  private void addRegister(MeterFacts meter, double mostPerHourL) {
    for (RegisterVolume volume : meter.registers()) {
      RegisterVolume last = volumes.isEmpty() ? null : volumes.get(volumes.size() - 1);
      // An estimated reading between two actual ones drops out of their sum.
      if (last != null
          && last.estimated()
          && volume.estimated()
          && last.span().endExclusive().equals(volume.span().startInclusive())) {
        volumes.set(
            volumes.size() - 1,
            new RegisterVolume(
                Span.of(last.span().startInclusive(), volume.span().endExclusive()),
                last.litres() + volume.litres(),
                true,
                last.startWithin(),
                volume.endWithin()));
      } else {
        volumes.add(volume);
      }
    }
    // Spans below an hour are readings taken twice: too short to tell a rate.
    volumes.removeIf(volume -> !volume.shareable());
    volumes.removeIf(
        volume -> {
          boolean wrong = volume.litres() > mostPerHourL * Math.max(1, volume.span().hours());
          if (wrong) {
            impossible.add(volume);
          }
          return wrong;
        });
    if (!volumes.isEmpty()) {
      begin = blocks.position(volumes.get(0).span().startInclusive());
      end = blocks.position(volumes.get(volumes.size() - 1).span().endExclusive());
    }
  }

  private void addIntervals(IntervalVolumes intervals, double mostPerHourL) {
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
    double[] running = new double[hours + 1];
    int[] gaps = new int[hours + 1];
    for (int h = 0; h < hours; h++) {
      boolean gap = minutes[h] < 59.5 || hourly[h] > 4 * mostPerHourL;
      running[h + 1] = running[h] + (gap ? 0 : hourly[h]);
      gaps[h + 1] = gaps[h] + (gap ? 1 : 0);
      if (!gap) {
        begin = Math.min(begin, h / (double) QuarterDays.HOURS);
        end = Math.max(end, (h + 1) / (double) QuarterDays.HOURS);
      }
    }
    if (gaps[hours] < hours) {
      runningL = running;
      gapsBefore = gaps;
    }
  }

  /** Whether any hour is logged. */
  boolean logged() {
    return runningL != null;
  }

  /** Adds what was logged in each hour; hours not logged repeat the one before. */
  void addLogged(double[] hourlyL) {
    double[] running = runningL;
    if (running == null) {
      return;
    }
    double last = 0;
    for (int h = 0; h < hourlyL.length; h++) {
      last = gapsBefore[h + 1] > gapsBefore[h] ? last : running[h + 1] - running[h];
      hourlyL[h] += last;
    }
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

  /** Instants of register readings, as positions in blocks. */
  DoubleStream readingPositions() {
    return volumes.stream()
        .flatMapToDouble(
            volume ->
                DoubleStream.of(
                    blocks.position(volume.span().startInclusive()),
                    blocks.position(volume.span().endExclusive())));
  }

  /**
   * Whether interval data speak for a stretch: all of it, or nearly all where no register does. A
   * gap that only a register fills is no finer than the readings.
   */
  boolean byInterval(double from, double to) {
    return logged(from, to) >= (volumes.isEmpty() ? MeteredWater.LEAST_LOGGED : 1);
  }

  /** Part of a stretch's hours that interval data cover, 0–1; the stretch lies in the grid. */
  double logged(double from, double to) {
    int first = (int) Math.round(from * QuarterDays.HOURS);
    int last = (int) Math.round(to * QuarterDays.HOURS);
    if (runningL == null || first < 0 || last >= gapsBefore.length || last <= first) {
      return 0;
    }
    return 1 - (gapsBefore[last] - gapsBefore[first]) / (double) (last - first);
  }

  /**
   * Water between two positions.
   *
   * @param runningUse running total of modelled use by block, which shares out register volumes
   */
  MeteredWater.Amount between(double from, double to, double[] runningUse) {
    double[] running = runningL;
    double logged = logged(from, to);
    if (running == null || logged == 0) {
      return byRegister(from, to, runningUse);
    }
    if (logged < 1) {
      MeteredWater.Amount read = byRegister(from, to, runningUse);
      if (read.covered() >= logged) {
        return read;
      }
    }
    double litres =
        running[(int) Math.round(to * QuarterDays.HOURS)]
            - running[(int) Math.round(from * QuarterDays.HOURS)];
    return new MeteredWater.Amount(litres, 0.002 * litres, logged, blocks.at(to));
  }

  private MeteredWater.Amount byRegister(double from, double to, double[] runningUse) {
    double litres = 0;
    double variance = 0;
    double covered = 0;
    Instant lastFact = Instant.MIN;
    Instant start = blocks.at(from);
    Instant stop = blocks.at(to);
    for (RegisterVolume volume : volumes) {
      Instant a = volume.span().startInclusive();
      Instant b = volume.span().endExclusive();
      if (!a.isBefore(stop) || !b.isAfter(start)) {
        continue;
      }
      double whole = blocks.position(b) - blocks.position(a);
      double left = Math.max(from, blocks.position(a));
      double right = Math.min(to, blocks.position(b));
      double use = RunningTotals.between(runningUse, blocks.position(a), blocks.position(b));
      double part =
          use > 0 ? RunningTotals.between(runningUse, left, right) / use : (right - left) / whole;
      double here = part * volume.litres();
      litres += here;
      covered += right - left;
      double daily = volume.litres() / whole;
      if (part < 0.98) {
        double cut =
            (left > blocks.position(a) + 0.2 ? 1 : 0) + (right < blocks.position(b) - 0.2 ? 1 : 0);
        // The model's shape within a span is trusted to about a tenth of the smaller part.
        double moved = 0.12 * Math.min(part, 1 - part) * volume.litres();
        variance += cut * moved * moved;
      }
      variance += timing(volume.startWithin(), left <= blocks.position(a) + 1e-6, daily);
      variance += timing(volume.endWithin(), right >= blocks.position(b) - 1e-6, daily);
      double step = resolutionL / Math.sqrt(6);
      variance += step * step;
      if (volume.estimated()) {
        variance += 0.0009 * here * here;
      }
      lastFact = b.isAfter(lastFact) ? b : lastFact;
    }
    return new MeteredWater.Amount(
        litres, Math.sqrt(variance), Math.min(1, covered / (to - from)), lastFact);
  }

  private static double timing(Duration within, boolean atEdge, double perBlock) {
    if (!atEdge) {
      return 0;
    }
    double off = within.toMinutes() / 60.0 / QuarterDays.HOURS / Math.sqrt(3) * perBlock;
    return off * off;
  }
}
