package towerledger.account;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

/** The people as stored. */
interface PersonRows extends JpaRepository<Person, Long> {

  Optional<Person> findByEmail(String email);

  List<Person> findAllByOrderByNameAscEmailAsc();

  long countByRoleAndEnabledTrueAndPasswordHashNotNull(Role role);
}
