package towerledger;

import java.io.Serial;
import java.util.Locale;
import org.hibernate.boot.model.naming.Identifier;
import org.hibernate.boot.model.naming.PhysicalNamingStrategyStandardImpl;
import org.hibernate.engine.jdbc.env.spi.JdbcEnvironment;

/**
 * Names a field's column as the migrations do, its unit set apart even where it is one letter:
 * {@code elevationM} is {@code elevation_m}, {@code designAirFlowM3S} {@code design_air_flow_m3_s}.
 */
public class ColumnNames extends PhysicalNamingStrategyStandardImpl {

  @Serial private static final long serialVersionUID = 1L;

  @Override
  public Identifier toPhysicalColumnName(Identifier logical, JdbcEnvironment environment) {
    String snake = logical.getText().replaceAll("(?<=[A-Za-z0-9])(?=[A-Z])", "_");
    return Identifier.toIdentifier(snake.toLowerCase(Locale.ROOT));
  }
}
