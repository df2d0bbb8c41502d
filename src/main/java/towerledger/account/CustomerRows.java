package towerledger.account;

import java.util.List;
import java.util.Optional;
import org.springframework.data.jpa.repository.JpaRepository;

/** The customers as stored. */
interface CustomerRows extends JpaRepository<Customer, Long> {

  Optional<Customer> findByCode(String code);

  List<Customer> findAllByOrderByNameAscCodeAsc();
}
