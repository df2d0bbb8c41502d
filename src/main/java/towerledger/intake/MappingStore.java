package towerledger.intake;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import tools.jackson.databind.json.JsonMapper;
import towerledger.account.Viewer;
import towerledger.intake.foreign.ForeignMapping;

/** Mappings of foreign tables, remembered per sender and columns; each customer has its own. */
@Component
class MappingStore {

  private static final int LONGEST_SENDER = 80;

  private final JdbcClient jdbc;
  private final JsonMapper json;
  private final Clock clock;

  MappingStore(JdbcClient jdbc, JsonMapper json, Clock clock) {
    this.jdbc = jdbc;
    this.json = json;
    this.clock = clock;
  }

  @Transactional(readOnly = true)
  public Optional<ForeignMapping> find(
      @Nullable String sender, List<String> header, ImportRequest request) {
    if (sender == null || sender.isBlank()) {
      return Optional.empty();
    }
    return jdbc.sql("SELECT mapping FROM intake_mapping WHERE sender = ? AND header_hash = ?")
        .param(key(sender, request))
        .param(hash(header))
        .query(String.class)
        .optional()
        .map(text -> json.readValue(text, ForeignMapping.class));
  }

  @Transactional
  public void remember(
      String sender, List<String> header, ForeignMapping mapping, ImportRequest request) {
    OffsetDateTime now = OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC);
    int known =
        jdbc.sql(
                """
                UPDATE intake_mapping SET file = ?, mapping = ?, updated_at = ?
                WHERE sender = ? AND header_hash = ?""")
            .param(mapping.file())
            .param(json.writeValueAsString(mapping))
            .param(now)
            .param(key(sender, request))
            .param(hash(header))
            .update();
    if (known == 0) {
      jdbc.sql(
              """
              INSERT INTO intake_mapping (sender, file, header_hash, mapping, updated_at)
              VALUES (?, ?, ?, ?, ?)""")
          .param(key(sender, request))
          .param(mapping.file())
          .param(hash(header))
          .param(json.writeValueAsString(mapping))
          .param(now)
          .update();
    }
  }

  private static String key(String sender, ImportRequest request) {
    String name = sender.strip().toLowerCase(Locale.ROOT);
    if (name.length() > LONGEST_SENDER) {
      throw new IllegalArgumentException(
          "the sender's name has %d characters, more than %d; shorten it"
              .formatted(name.length(), LONGEST_SENDER));
    }
    Viewer viewer = request.viewer();
    Long customer = viewer == null ? null : viewer.customerId();
    return customer == null ? name : "customer-" + customer + "/" + name;
  }

  private static String hash(List<String> header) {
    String names =
        String.join(
            "\u001F", header.stream().map(name -> name.strip().toLowerCase(Locale.ROOT)).toList());
    return HexFormat.of()
        .formatHex(RowHash.sha256().digest(names.getBytes(StandardCharsets.UTF_8)));
  }
}
