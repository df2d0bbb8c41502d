package towerledger;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.springframework.boot.test.context.SpringBootTest;
import org.springframework.boot.test.context.SpringBootTest.WebEnvironment;
import org.springframework.boot.webmvc.test.autoconfigure.AutoConfigureMockMvc;
import org.springframework.context.annotation.Import;
import org.springframework.test.context.ContextConfiguration;

/**
 * The whole application on a random port with H2, started once and shared by every test that
 * carries this annotation.
 *
 * <p>How to use it: name the class {@code …IT}, annotate it with this and nothing that changes the
 * context (no {@code @MockitoBean}, {@code @TestPropertySource}, {@code @DirtiesContext}: each
 * would start another application). Inject what you need through fields: {@code @Autowired SignedIn
 * signedIn} gives tokens and sessions of every role, {@code @Autowired MockMvc mvc} sends requests,
 * {@code @LocalServerPort int port} is there for real HTTP. The database is shared too: use codes
 * that begin with the name of your test, and never count on an empty table.
 *
 * <p>To run the same test on PostgreSQL as well, write it in a package-private base class and make
 * two subclasses, one with this annotation and one with {@link ApplicationOnPostgres}.
 */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@SpringBootTest(classes = TowerLedgerApplication.class, webEnvironment = WebEnvironment.RANDOM_PORT)
@ContextConfiguration(initializers = FreshDatabase.OnH2.class)
@AutoConfigureMockMvc
@Import({SignedIn.class, RatesForPages.class})
public @interface ApplicationOnH2 {}
