package towerledger.api;

import static org.assertj.core.api.Assertions.assertThat;
import static org.springframework.test.web.servlet.request.MockMvcRequestBuilders.get;
import static org.springframework.test.web.servlet.result.MockMvcResultMatchers.status;

import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.springframework.beans.factory.annotation.Autowired;
import org.springframework.test.web.servlet.MockMvc;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import towerledger.ApplicationOnH2;
import towerledger.SignedIn;

/** What {@code /v3/api-docs} tells a stranger who writes a client from it alone (OpenAPI 3.1). */
@ApplicationOnH2
class ApiDescriptionIT {

  @Autowired MockMvc mvc;
  @Autowired SignedIn signedIn;
  @Autowired JsonMapper json;

  private JsonNode document;

  @BeforeEach
  void read() throws Exception {
    document =
        json.readTree(
            mvc.perform(get("/v3/api-docs").with(signedIn.api(signedIn.office())))
                .andExpect(status().isOk())
                .andReturn()
                .getResponse()
                .getContentAsByteArray());
  }

  @Test
  void describesTheApiAndNothingElse() {
    Set<String> paths = new TreeSet<>();
    each((operation, node) -> paths.add(operation));
    assertThat(paths)
        .allMatch(operation -> operation.contains(" /api/v1/"))
        .contains("POST /api/v1/imports", "POST /api/v1/tokens", "GET /api/v1/ledger.csv");
  }

  @Test
  void asksForNoParameterThatOnlyTheProgramKnows() {
    each(
        (operation, node) ->
            assertThat(names(node.path("parameters")))
                .as(operation)
                .doesNotContain("viewer", "actor", "request", "response"));
    assertThat(document.path("components").path("schemas").propertyNames())
        .doesNotContain("Viewer", "Actor");
  }

  @Test
  void saysHowToSignInToEveryOperation() {
    each(
        (operation, node) -> {
          JsonNode needs = node.has("security") ? node.path("security") : document.path("security");
          String scheme = needs.path(0).propertyNames().iterator().next();
          assertThat(document.at("/components/securitySchemes/" + scheme + "/scheme").asString())
              .as(operation)
              .isEqualTo(operation.equals("POST /api/v1/tokens") ? "basic" : "bearer");
        });
  }

  @Test
  void describesEveryBodyItTakes() {
    each(
        (operation, node) -> {
          if (!operation.startsWith("POST")) {
            return;
          }
          JsonNode content = node.at("/requestBody/content");
          assertThat(content.propertyNames()).as(operation).isNotEmpty();
          content.forEachEntry(
              (type, body) -> {
                JsonNode schema = resolved(body.path("schema"));
                assertThat(schema.path("type").asString())
                    .as("%s as %s", operation, type)
                    .isIn("object", "string");
                if (schema.path("type").asString().equals("object")) {
                  assertThat(schema.path("properties").propertyNames())
                      .as("%s as %s", operation, type)
                      .isNotEmpty();
                }
              });
        });
    assertThat(document.at("/paths/~1api~1v1~1imports/post/requestBody/content").propertyNames())
        .contains("multipart/form-data", "text/csv", "application/zip");
  }

  @Test
  void describesEveryAnswerByItsOwnForm() {
    each(
        (operation, node) -> {
          assertThat(node.at("/responses/200/content").propertyNames())
              .as(operation)
              .isNotEmpty()
              .doesNotContain("*/*");
          assertThat(node.at("/responses/default/content").propertyNames())
              .as(operation)
              .containsExactly("application/problem+json");
        });
    String form = "/post/responses/200/content/application~1json/schema";
    assertThat(
            resolved(document.at("/paths/~1api~1v1~1estimates~1psychrometrics" + form))
                .path("properties")
                .propertyNames())
        .contains("dew_point_f");
    assertThat(
            resolved(document.at("/paths/~1api~1v1~1estimates~1evaporation" + form))
                .path("properties")
                .propertyNames())
        .contains("evaporation_gal_per_hour");
  }

  private JsonNode resolved(JsonNode schema) {
    return schema.has("$ref") ? document.at(schema.path("$ref").asString().substring(1)) : schema;
  }

  private static List<String> names(JsonNode parameters) {
    return parameters.valueStream().map(parameter -> parameter.path("name").asString()).toList();
  }

  private void each(BiConsumer<String, JsonNode> look) {
    assertThat(document.path("paths").size()).isGreaterThan(15);
    for (Map.Entry<String, JsonNode> path : document.path("paths").properties()) {
      for (Map.Entry<String, JsonNode> operation : path.getValue().properties()) {
        look.accept(
            operation.getKey().toUpperCase(java.util.Locale.ROOT) + " " + path.getKey(),
            operation.getValue());
      }
    }
  }
}
