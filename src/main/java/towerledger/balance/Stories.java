package towerledger.balance;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.jspecify.annotations.Nullable;

/** Keeps the stories few: joins those that act alike from now on and drops what cannot matter. */
final class Stories {

  /** Log of the weight below which a story of a usual cause is dropped. */
  private static final double FORGET = Math.log(5e-5);

  /**
   * How often one size of a usual cause begins, per system and year. Stories of rarer ones start so
   * much lower, and are dropped so much later: else they would be gone before anything was
   * measured.
   */
  private static final double USUAL_PRIOR = 0.004;

  /** How much lower at most a rare story is followed, as a factor. */
  private static final double RAREST = 0.1;

  /**
   * Log of the weight below which a story that has ended counts as sound. Lower: a fault of a few
   * days is over before the readings that prove it.
   */
  private static final double LEAST_ENDED = Math.log(1e-5);

  /** How long a fault that ended is remembered: until its month has closed. */
  private static final double REMEMBERED_BLOCKS = 45 * 4;

  /** How long a changed load is followed as a change where it is guessed. */
  private static final double SETTLED_BLOCKS = 100 * 4;

  /** Periods after which onsets of one signature are no longer told apart. */
  private static final int OLD = 3;

  private final List<Period> periods;
  private final List<Response> responses;

  /** By number of the response, log of the weight below which a story of it is dropped. */
  private double[] forgotten = new double[0];

  /**
   * The rules for one system.
   *
   * @param responses what each signature would show, the sound one first; grows by the refills
   */
  Stories(List<Period> periods, List<Response> responses) {
    this.periods = periods;
    this.responses = responses;
  }

  /** Joins what ended long ago, and a load that changed for good, into the sound story. */
  List<Hypothesis> forget(List<Hypothesis> stories, int p) {
    Hypothesis sound = stories.get(0);
    Slots over = new Slots(responses.size());
    double at = periods.get(p).from();
    boolean guessed = periods.get(p).guessed();
    List<Hypothesis> alive = settle(stories, at);
    double top = top(alive);
    Hypothesis[] sounds = sounds(alive);
    List<Hypothesis> kept = new ArrayList<>(alive.size());
    for (Hypothesis h : alive) {
      Response response = responses.get(h.signature);
      if (h == sound || (!h.over() && response.lasting())) {
        kept.add(h);
        continue;
      }
      double factor = response.signature.loadFactor();
      boolean settled = at > periods.get(Math.max(0, h.onset)).to() + SETTLED_BLOCKS;
      if (h.over()) {
        Hypothesis elder = over.of(h.way)[h.was];
        if (at > periods.get(h.end).to() + REMEMBERED_BLOCKS || h.logWeight < top + LEAST_ENDED) {
          sounds[h.way].absorb(h);
        } else if (elder != null) {
          elder.absorb(h);
        } else {
          over.of(h.way)[h.was] = h;
          kept.add(h);
        }
      } else if (response.refillL > 0) {
        if (settled(response, at)) {
          sound.absorb(h);
        } else {
          kept.add(h);
        }
      } else if (settled && h.was != 0 && responses.get(h.was).signature.sane() && factor == 1) {
        // An aim that was moved is the aim from now on.
        h.calibration.shiftHabit(Math.log(response.signature.aimFactor()));
        sound.absorb(h);
      } else if (settled && guessed && factor != 1) {
        // Where the load is guessed anyway, a changed load is soon just the load.
        h.calibration.shiftLoad(Math.log(factor));
        sounds[h.way].absorb(h);
      } else {
        kept.add(h);
      }
    }
    return kept;
  }

  /** Drops what no longer matters and scales the weights to add up to one. */
  List<Hypothesis> prune(List<Hypothesis> alive, int p) {
    Slots old = new Slots(responses.size());
    Hypothesis sound = alive.get(0);
    double top = top(alive);
    double sum = 0;
    for (Hypothesis h : alive) {
      sum += Math.exp(h.logWeight - top);
    }
    double norm = top + Math.log(sum);
    double[] least = forgotten();
    // With room for those that begin next.
    List<Hypothesis> kept = new ArrayList<>(alive.size() + responses.size());
    for (Hypothesis h : alive) {
      h.logWeight -= norm;
      if (h == sound) {
        h.logWeight = Math.max(h.logWeight, -60);
        kept.add(h);
      } else if (h.over()) {
        kept.add(h);
      } else if (h.logWeight > least[h.signature]) {
        Hypothesis elder = h.onset <= p - OLD ? old.of(h.way)[h.signature] : null;
        if (elder != null) {
          elder.absorb(h);
        } else {
          kept.add(h);
          if (h.onset <= p - OLD) {
            old.of(h.way)[h.signature] = h;
          }
        }
      }
    }
    return kept;
  }

  private static double top(List<Hypothesis> alive) {
    double top = Double.NEGATIVE_INFINITY;
    for (Hypothesis h : alive) {
      top = Math.max(top, h.logWeight);
    }
    return top;
  }

  /** The weights below which stories are dropped, those of responses added since included. */
  private double[] forgotten() {
    int known = forgotten.length;
    if (known < responses.size()) {
      forgotten = Arrays.copyOf(forgotten, responses.size());
      for (int r = known; r < forgotten.length; r++) {
        double rarity = responses.get(r).signature.prior() / USUAL_PRIOR;
        forgotten[r] = FORGET + Math.log(Math.max(RAREST, Math.min(1, rarity)));
      }
    }
    return forgotten;
  }

  /** Lets a drain be forgotten once it no longer shows. */
  private List<Hypothesis> settle(List<Hypothesis> alive, double at) {
    if (nothingDrained(alive)) {
      return alive;
    }
    List<Hypothesis> kept = new ArrayList<>(alive.size());
    for (Hypothesis h : alive) {
      if (responses.get(h.way).refillL > 0 && settled(responses.get(h.way), at)) {
        h.way = 0;
        Hypothesis alike = alike(kept, h);
        if (alike == null) {
          kept.add(h);
        } else {
          alike.absorb(h);
        }
      } else {
        kept.add(h);
      }
    }
    return kept;
  }

  private boolean nothingDrained(List<Hypothesis> alive) {
    for (Hypothesis h : alive) {
      if (h.way != 0 && responses.get(h.way).refillL > 0) {
        return false;
      }
    }
    return true;
  }

  private static @Nullable Hypothesis alike(List<Hypothesis> all, Hypothesis h) {
    for (Hypothesis other : all) {
      if (other.way == h.way && other.tellsThat(h)) {
        return other;
      }
    }
    return null;
  }

  private static boolean settled(Response refill, double at) {
    return at > Math.max(refill.settledBlock, refill.refillBlock + REMEMBERED_BLOCKS);
  }

  /** By way of life its sound story; the plain one where that is no longer followed. */
  private Hypothesis[] sounds(List<Hypothesis> alive) {
    Hypothesis[] sounds = new Hypothesis[responses.size()];
    Arrays.fill(sounds, alive.get(0));
    for (int i = alive.size() - 1; i > 0; i--) {
      Hypothesis h = alive.get(i);
      if (h.way != 0 && h.soundAllAlong()) {
        sounds[h.way] = h;
      }
    }
    return sounds;
  }

  /** One story for each signature and way of life. */
  private static final class Slots {

    private final @Nullable Hypothesis[] plain;

    /** By number of the way of life; most are never asked for. */
    private final @Nullable Hypothesis[] @Nullable [] otherwise;

    Slots(int size) {
      plain = new Hypothesis[size];
      otherwise = new Hypothesis[size][];
    }

    @Nullable Hypothesis[] of(int way) {
      if (way == 0) {
        return plain;
      }
      @Nullable Hypothesis[] slots = otherwise[way];
      if (slots == null) {
        slots = new Hypothesis[plain.length];
        otherwise[way] = slots;
      }
      return slots;
    }
  }
}
