package towerledger.account;

import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.JpaRepository;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.query.Param;

/** The people as stored. */
interface PersonRows extends JpaRepository<Person, Long> {

  Optional<Person> findByEmail(String email);

  @Query(
      """
      SELECT p FROM Person p
      WHERE LOWER(p.name) LIKE :pattern ESCAPE '!' OR p.email LIKE :pattern ESCAPE '!'
      ORDER BY p.name, p.email""")
  List<Person> search(@Param("pattern") String pattern, Limit limit);

  long countByEnabledTrueAndPasswordHashNotNull();

  long countByEnabledTrueAndPasswordHashIsNull();

  long countByRoleAndEnabledTrueAndPasswordHashNotNull(Role role);
}
