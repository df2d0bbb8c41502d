package towerledger.weather;

import java.time.Clock;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/** Which weather stations are there; hours that name a new one bring it into being. */
@Component
public class StationCodes {

  private final JdbcClient jdbc;
  private final Clock clock;

  StationCodes(JdbcClient jdbc, Clock clock) {
    this.jdbc = jdbc;
    this.clock = clock;
  }

  /** Adds the station if it is not there; what is known of it comes later. */
  public void ensure(String code) {
    boolean known =
        jdbc.sql("SELECT COUNT(*) FROM weather_station WHERE code = ?")
                .param(code)
                .query(Long.class)
                .single()
            > 0;
    if (!known) {
      jdbc.sql("INSERT INTO weather_station (code, created_at) VALUES (?, ?)")
          .param(code)
          .param(OffsetDateTime.ofInstant(clock.instant(), ZoneOffset.UTC))
          .update();
    }
  }
}
