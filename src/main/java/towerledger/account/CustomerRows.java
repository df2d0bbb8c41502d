package towerledger.account;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;
import org.springframework.data.jpa.repository.Query;
import org.springframework.data.repository.query.Param;

/** The customers as stored. */
interface CustomerRows extends JpaRepository<Customer, Long> {

  Optional<Customer> findByCode(String code);

  @Query(
      value =
          """
          SELECT * FROM account_customer c
          WHERE LOWER(c.name) LIKE :pattern ESCAPE '!' OR LOWER(c.code) LIKE :pattern ESCAPE '!'
          ORDER BY c.name, c.code OFFSET :offset ROWS FETCH NEXT :limit ROWS ONLY""",
      nativeQuery = true)
  List<Customer> search(
      @Param("pattern") String pattern, @Param("offset") int offset, @Param("limit") int limit);
}
