package towerledger.account;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

/** The tokens as stored. */
interface TokenRows extends JpaRepository<Token, Long> {

  Optional<Token> findByTokenHash(String tokenHash);

  List<Token> findByPersonId(long personId);

  List<Token> findAllByOrderByCreatedAtDescIdDesc();
}
