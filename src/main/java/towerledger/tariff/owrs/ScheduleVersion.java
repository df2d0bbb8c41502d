package towerledger.tariff.owrs;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import towerledger.tariff.RateVersion;
import towerledger.tariff.RateVersion.Block;
import towerledger.tariff.RateVersion.BlockTable;
import towerledger.tariff.RateVersion.Charge;
import towerledger.tariff.TariffException;

/**
 * Turns a customer class, with its inputs settled, into charges and one block table: tiers keep
 * their limits, and parts in proportion to usage are added to the rate of every block.
 */
final class ScheduleVersion {

  private final OwrsClass rates;
  private final Evaluation evaluation;
  private final List<Charge> charges = new ArrayList<>();
  private final List<Evaluation.Tiers> tiers = new ArrayList<>();
  private BigDecimal flatRate = BigDecimal.ZERO;

  ScheduleVersion(OwrsClass rates, Map<String, String> inputs) {
    this.rates = rates;
    this.evaluation = new Evaluation(rates, inputs, BigDecimal.ONE);
  }

  RateVersion fill(RateVersion empty) {
    for (Formula term : evaluation.terms()) {
      Optional<Evaluation.Tiers> found = evaluation.findTiers(term);
      if (found.isPresent()) {
        tiers.add(found.get());
      } else {
        addPart(term);
      }
    }
    RateVersion version = empty;
    for (Charge charge : charges) {
      version = version.withCharge(charge);
    }
    return tiers.isEmpty() && flatRate.signum() == 0
        ? version
        : version.withTables(List.of(new BlockTable(null, null, blocks())));
  }

  private void addPart(Formula term) {
    BigDecimal fixed = evaluation.withUsage(0).value(term);
    BigDecimal rate = evaluation.withUsage(1).value(term).subtract(fixed);
    BigDecimal far = evaluation.withUsage(1_000_000).value(term).subtract(fixed);
    if (rate.multiply(BigDecimal.valueOf(1_000_000)).subtract(far).abs().doubleValue() > 1e-6) {
      throw new TariffException(
          "OWRS",
          "%s of class %s is neither fixed, in proportion to usage, nor in tiers; it can be billed"
                  .formatted(term, rates.name())
              + " but not stored as a schedule");
    }
    if (fixed.signum() != 0) {
      charges.add(new Charge(term.name().isEmpty() ? term.toString() : term.name(), null, fixed));
    }
    flatRate = flatRate.add(rate);
  }

  private List<Block> blocks() {
    TreeSet<BigDecimal> froms = new TreeSet<>(List.of(BigDecimal.ZERO));
    for (Evaluation.Tiers some : tiers) {
      some.limits().stream().filter(limit -> limit.signum() > 0).forEach(froms::add);
    }
    List<Block> blocks = new ArrayList<>();
    for (BigDecimal from : froms) {
      BigDecimal rate = flatRate;
      for (Evaluation.Tiers some : tiers) {
        int tier = 0;
        while (tier < some.limits().size() && some.limits().get(tier).compareTo(from) <= 0) {
          tier++;
        }
        rate = rate.add(some.prices().get(tier));
      }
      blocks.add(new Block(from, rate));
    }
    return blocks;
  }
}
