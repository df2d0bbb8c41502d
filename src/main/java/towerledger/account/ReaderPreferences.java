package towerledger.account;

import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Service;
import org.springframework.transaction.annotation.Transactional;

/** The units and the language a person reads in; the person's own choice, from any page. */
@Service
public class ReaderPreferences {

  private final JdbcClient jdbc;

  ReaderPreferences(JdbcClient jdbc) {
    this.jdbc = jdbc;
  }

  /**
   * Keeps the choice for all later pages and mails of this person.
   *
   * @param language language tag such as {@code en}, at most ten characters
   */
  @Transactional
  public void keep(Viewer viewer, UnitPreference units, String language) {
    jdbc.sql(
            "UPDATE account_person SET units = ?, language = ?, version = version + 1 WHERE id = ?")
        .params(units.name(), language, viewer.personId())
        .update();
  }
}
