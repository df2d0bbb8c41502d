package towerledger.office.rounds;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.annotation.Transactional;
import towerledger.account.Actor;
import towerledger.account.Viewer;
import towerledger.site.CoolingSystem;
import towerledger.site.SiteAccess;

/** Keeps the photos of rounds. The same photo sent twice is kept once. */
@Component
class Photos {

  private final JdbcClient jdbc;
  private final SiteAccess access;

  Photos(JdbcClient jdbc, SiteAccess access) {
    this.jdbc = jdbc;
    this.access = access;
  }

  @Transactional
  public void keep(Actor actor, CoolingSystem system, Instant at, byte[] jpeg) {
    String hash = hash(jpeg, at);
    boolean known =
        jdbc.sql("SELECT COUNT(*) FROM office_photo WHERE system_id = ? AND image_hash = ?")
                .params(system.id(), hash)
                .query(Long.class)
                .single()
            > 0;
    if (!known) {
      jdbc.sql(
              """
              INSERT INTO office_photo (customer_id, system_id, taken_at, actor, image_hash, jpeg)
              VALUES (?, ?, ?, ?, ?, ?)\
              """)
          .params(
              system.customerId(),
              system.id(),
              OffsetDateTime.ofInstant(at, ZoneOffset.UTC),
              actor.name(),
              hash,
              jpeg)
          .update();
    }
  }

  /** A photo, if this viewer may see its system. */
  @Transactional(readOnly = true)
  public Optional<byte[]> find(Viewer viewer, long id) {
    var scope = access.scope(viewer, "y.customer_id", "y.site_id");
    List<Object> parameters = new ArrayList<>(List.of(id));
    parameters.addAll(scope.parameters());
    return jdbc.sql(
            "SELECT p.jpeg FROM office_photo p JOIN site_system y ON y.id = p.system_id"
                + " WHERE p.id = ? AND "
                + scope.sql())
        .params(parameters)
        .query((row, number) -> row.getBytes(1))
        .optional();
  }

  /** Numbers of the newest photos of a system. */
  @Transactional(readOnly = true)
  public List<Kept> listNewest(CoolingSystem system, int limit) {
    return jdbc.sql(
            "SELECT id, taken_at FROM office_photo WHERE system_id = ?"
                + " ORDER BY taken_at DESC, id DESC FETCH FIRST "
                + limit
                + " ROWS ONLY")
        .param(system.id())
        .query(
            (row, number) ->
                new Kept(row.getLong(1), row.getObject(2, OffsetDateTime.class).toInstant()))
        .list();
  }

  /** A photo and when it was taken. */
  record Kept(long id, Instant at) {}

  private static String hash(byte[] jpeg, Instant at) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      digest.update(at.toString().getBytes(StandardCharsets.UTF_8));
      return HexFormat.of().formatHex(digest.digest(jpeg));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java has SHA-256", e);
    }
  }
}
