package towerledger;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ImportOption.DoNotIncludeTests;
import com.tngtech.archunit.junit.AnalyzeClasses;
import com.tngtech.archunit.junit.ArchTest;
import com.tngtech.archunit.lang.ArchRule;
import java.util.Arrays;
import towerledger.security.AuthorisationMatrix;

/** Rules of the house that the module borders alone do not say. */
@AnalyzeClasses(packages = "towerledger", importOptions = DoNotIncludeTests.class)
class ArchitectureTests {

  private static final String[] CORE = {
    "towerledger.quantity..",
    "towerledger.statistics..",
    "towerledger.psychrometrics..",
    "towerledger.thermal..",
    "towerledger.balance.."
  };

  @ArchTest
  static final ArchRule coreIsPlainJava =
      noClasses()
          .that()
          .resideInAnyPackage(CORE)
          .and()
          .doNotHaveSimpleName("package-info")
          .should()
          .dependOnClassesThat()
          .resideInAnyPackage(
              "org.springframework..",
              "jakarta..",
              "java.sql..",
              "javax.sql..",
              "java.io..",
              "java.nio.file..",
              "org.slf4j..",
              "java.util.logging..",
              "tools.jackson..")
          .because("the core is a library of physics and statistics that a test can run alone");

  @ArchTest
  static final ArchRule coreReadsNoClock =
      noClasses()
          .that()
          .resideInAnyPackage(CORE)
          .should()
          .dependOnClassesThat()
          .haveFullyQualifiedName("java.time.Clock")
          .orShould()
          .callMethod(java.time.Instant.class, "now")
          .orShould()
          .callMethod(java.time.LocalDate.class, "now")
          .orShould()
          .callMethod(System.class, "currentTimeMillis")
          .because("the same inputs always give the same figures");

  @ArchTest
  static final ArchRule nobodyReadsTheClockPastTheClock =
      noClasses()
          .should()
          .callMethod(java.time.Instant.class, "now")
          .orShould()
          .callMethod(java.time.LocalDate.class, "now")
          .orShould()
          .callMethod(java.time.LocalDateTime.class, "now")
          .orShould()
          .callMethod(java.time.YearMonth.class, "now")
          .because("time is passed in as a Clock so that tests can move it");

  @ArchTest
  static final ArchRule namesSayWhatThingsAre =
      noClasses()
          .should()
          .haveSimpleNameEndingWith("Impl")
          .orShould()
          .haveSimpleNameEndingWith("Manager")
          .orShould()
          .haveSimpleNameEndingWith("Helper")
          .orShould()
          .haveSimpleNameStartingWith("Abstract")
          .because("a name should say what the thing is in the trade");

  @ArchTest
  static void everyRouteIsInTheAuthorisationMatrix(JavaClasses program) {
    var handlers =
        program.stream()
            .filter(
                c ->
                    c.isAnnotatedWith("org.springframework.stereotype.Controller")
                        || c.isAnnotatedWith(
                            "org.springframework.web.bind.annotation.RestController"))
            .flatMap(c -> Arrays.stream(c.reflect().getDeclaredMethods()))
            .toList();
    assertThat(AuthorisationMatrix.withoutEntry(handlers))
        .as("add a line to src/test/resources/authorisation-matrix.csv for each of these routes")
        .isEmpty();
  }

  @ArchTest
  static final ArchRule controllersLiveAtTheEdges =
      classes()
          .that()
          .areAnnotatedWith("org.springframework.stereotype.Controller")
          .or()
          .areAnnotatedWith("org.springframework.web.bind.annotation.RestController")
          .should()
          .resideInAnyPackage(
              "towerledger.api..",
              "towerledger.office..",
              "towerledger.portal..",
              "towerledger.page..",
              "towerledger.demo..")
          .allowEmptyShould(true)
          .because("the web is an edge");
}
