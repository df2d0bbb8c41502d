package towerledger.intake.csv;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NumberCellTest {

  private static final long SEED = 4711;

  /** The JDK's own reading is the outside witness, bit for bit. */
  @Test
  void readsEveryNumberAsTheJdkDoes() {
    var random = new Random(SEED);
    for (int i = 0; i < 200_000; i++) {
      String digits = Long.toString(Math.abs(random.nextLong()) % (long) Math.pow(10, i % 18 + 1));
      int point = random.nextInt(digits.length() + 1);
      String cell =
          (random.nextInt(4) == 0 ? "-" : "")
              + digits.substring(0, point)
              + (random.nextBoolean() ? "." : "")
              + digits.substring(point);

      assertThat(Double.doubleToLongBits(NumberCell.parse("volume_gal", cell)))
          .as("seed %d: %s", SEED, cell)
          .isEqualTo(Double.doubleToLongBits(Double.parseDouble(cell)));
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"-", ".", "1.2.3", "--5", "1,5", "NaN", "0x1p3", "1d", "1e999", "١٢"})
  void refusesWhatIsNoNumber(String cell) {
    assertThatThrownBy(() -> NumberCell.parse("volume_gal", cell))
        .isInstanceOf(RowProblem.class)
        .hasMessageContaining("volume_gal");
  }
}
