package towerledger.account;

import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.springframework.data.domain.Limit;
import org.springframework.data.jpa.repository.JpaRepository;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.query.Param;

/** The tokens as stored. */
interface TokenRows extends JpaRepository<Token, Long> {

  Optional<Token> findByTokenHash(String tokenHash);

  List<Token> findByPersonId(long personId);

  List<Token> findAllByOrderByCreatedAtDescIdDesc(Limit limit);

  @Query(
      "SELECT COUNT(t) FROM Token t WHERE t.revokedAt IS NULL AND (t.expiresAt IS NULL OR t.expiresAt > :now)")
  long countGoodAt(@Param("now") Instant now);
}
