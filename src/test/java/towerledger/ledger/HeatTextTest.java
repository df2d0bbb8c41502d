package towerledger.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayInputStream;
import java.io.DataInputStream;
import java.io.IOException;
import java.time.Instant;
import java.util.List;
import java.util.OptionalDouble;
import org.junit.jupiter.api.Test;
import towerledger.balance.facts.HeatEvidence;
import towerledger.quantity.Span;

class HeatTextTest {

  @Test
  void everyKindIsWrittenAsItsRecordPrintsItself() throws IOException {
    HeatText text = new HeatText();
    List<Span> spans =
        List.of(
            Span.of(Instant.parse("2025-11-01T05:00:00Z"), Instant.parse("2025-11-01T06:00:00Z")),
            Span.of(Instant.parse("2025-12-31T23:07:09Z"), Instant.parse("2026-01-01T00:00:00Z")),
            Span.of(
                Instant.parse("1969-12-31T23:59:59.5Z"), Instant.parse("1970-01-01T00:00:01Z")));
    for (Span span : spans) {
      for (OptionalDouble error : List.of(OptionalDouble.empty(), OptionalDouble.of(0.03))) {
        for (HeatEvidence evidence :
            List.of(
                new HeatEvidence.WaterTemperatures(span, 35.25, 29, 1 / 3.0, error),
                new HeatEvidence.HeatRejected(span, 1.2e12, error),
                new HeatEvidence.ChilledWater(span, 7, OptionalDouble.of(0.6), error),
                new HeatEvidence.ChilledWater(span, 7, OptionalDouble.empty(), error),
                new HeatEvidence.ChillerElectricity(span, 7, 0.6, error),
                new HeatEvidence.RunningHours(span, 7, 0.6, error))) {
          DigestText written = new DigestText();
          text.write(evidence, written);
          assertThat(new DataInputStream(new ByteArrayInputStream(written.toByteArray())).readUTF())
              .isEqualTo(evidence.toString());
        }
      }
    }
  }
}
