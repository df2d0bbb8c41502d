package towerledger.api;

import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.Operation;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.media.ArraySchema;
import io.swagger.v3.oas.models.media.BinarySchema;
import io.swagger.v3.oas.models.media.Content;
import io.swagger.v3.oas.models.media.MediaType;
import io.swagger.v3.oas.models.media.NumberSchema;
import io.swagger.v3.oas.models.media.ObjectSchema;
import io.swagger.v3.oas.models.media.Schema;
import io.swagger.v3.oas.models.media.StringSchema;
import io.swagger.v3.oas.models.parameters.Parameter;
import io.swagger.v3.oas.models.parameters.RequestBody;
import io.swagger.v3.oas.models.responses.ApiResponse;
import io.swagger.v3.oas.models.security.SecurityRequirement;
import io.swagger.v3.oas.models.security.SecurityScheme;
import java.util.List;
import org.springdoc.core.customizers.OpenApiCustomizer;
import org.springdoc.core.utils.SpringDocUtils;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import tools.jackson.databind.JsonNode;
import towerledger.account.Actor;
import towerledger.account.Viewer;

/**
 * What {@code /v3/api-docs} says of the API as a whole, and where the code alone tells too little.
 */
@Configuration(proxyBeanMethods = false)
class OpenApiDocument {

  private static final String TOKEN = "token";
  private static final String PASSWORD = "password";
  private static final String PROBLEM = "Problem";

  private static final List<String> TEXTS =
      List.of("text/csv", "text/plain", "text/xml", "application/xml", "application/atom+xml");
  private static final List<String> BYTES =
      List.of("application/zip", "application/x-zip-compressed", "application/octet-stream");

  static {
    // Who asks is known from the token, not told by a parameter; a JSON node is any value.
    SpringDocUtils.getConfig()
        .addRequestWrapperToIgnore(Viewer.class, Actor.class)
        .replaceWithSchema(JsonNode.class, new Schema<>());
  }

  @Bean
  OpenAPI openApi() {
    return new OpenAPI()
        .info(
            new Info()
                .title("Tower Water Ledger")
                .version("v1")
                .description(
                    "Readings, tower data and rates in; the reconciled ledger, findings and money"
                        + " out. Columns and codes: docs/formats.md."))
        .components(
            new Components()
                .addSecuritySchemes(
                    TOKEN, new SecurityScheme().type(SecurityScheme.Type.HTTP).scheme("bearer"))
                .addSecuritySchemes(
                    PASSWORD, new SecurityScheme().type(SecurityScheme.Type.HTTP).scheme("basic"))
                .addSchemas(PROBLEM, problem()))
        .addSecurityItem(new SecurityRequirement().addList(TOKEN));
  }

  /** RFC 9457. */
  private static Schema<?> problem() {
    return new ObjectSchema()
        .addProperty("title", new StringSchema())
        .addProperty("status", new Schema<Integer>().type("integer"))
        .addProperty("detail", new StringSchema().description("what is wrong and how to mend it"))
        .addProperty("instance", new StringSchema());
  }

  @Bean
  OpenApiCustomizer whatTheCodeAloneDoesNotTell() {
    return document ->
        document
            .getPaths()
            .forEach(
                (path, item) ->
                    item.readOperations().forEach(operation -> complete(path, operation)));
  }

  private static void complete(String path, Operation operation) {
    operation
        .getResponses()
        .addApiResponse(
            "default",
            new ApiResponse()
                .description("a refusal or failure, as a problem detail of RFC 9457")
                .content(
                    content(
                        "application/problem+json",
                        new Schema<>().$ref("#/components/schemas/" + PROBLEM))));
    if (path.equals(ApiSecurity.TOKENS)) {
      operation.setSecurity(List.of(new SecurityRequirement().addList(PASSWORD)));
    } else if (operation.getRequestBody() != null) {
      operation.addParametersItem(
          new Parameter()
              .in("header")
              .name("Idempotency-Key")
              .description("sent again with the same request, it gets the first answer again")
              .schema(new StringSchema().minLength(1).maxLength(200)));
    }
    switch (path) {
      case "/api/v1/imports" -> operation.setRequestBody(upload());
      case "/api/v1/foreign-tables", "/api/v1/foreign-tables/preview" ->
          operation.setRequestBody(
              body(content("multipart/form-data", form(new BinarySchema(), "one table of text"))));
      case "/api/v1/estimates/psychrometrics" -> operation.setRequestBody(air());
      case "/api/v1/ledger.csv" -> answers(operation, "text/csv", new StringSchema());
      case "/api/v1/export.zip" -> answers(operation, "application/zip", new BinarySchema());
      default -> {
        // the code tells it all
      }
    }
  }

  private static RequestBody upload() {
    Content content =
        content(
            "multipart/form-data",
            form(
                new ArraySchema().items(new BinarySchema()),
                "ZIPs, CSV files or both, under their own names"));
    for (String type : TEXTS) {
      content.addMediaType(type, new MediaType().schema(new StringSchema()));
    }
    for (String type : BYTES) {
      content.addMediaType(type, new MediaType().schema(new BinarySchema()));
    }
    return body(content);
  }

  private static Schema<?> form(Schema<?> file, String says) {
    return new ObjectSchema().addProperty("file", file.description(says)).required(List.of("file"));
  }

  private static RequestBody air() {
    Schema<?> fields = new ObjectSchema().required(List.of("dry_bulb_f"));
    fields.description(
        "exactly one of wet_bulb_f, dew_point_f and relative_humidity_percent; _c and _kpa may"
            + " stand for _f and _inhg");
    for (String name : PsychrometricEstimate.FIELDS) {
      fields.addProperty(name, new NumberSchema());
    }
    return body(content("application/json", fields));
  }

  private static void answers(Operation operation, String type, Schema<?> schema) {
    operation
        .getResponses()
        .addApiResponse("200", new ApiResponse().description("OK").content(content(type, schema)));
  }

  private static RequestBody body(Content content) {
    return new RequestBody().required(true).content(content);
  }

  private static Content content(String type, Schema<?> schema) {
    return new Content().addMediaType(type, new MediaType().schema(schema));
  }
}
