package towerledger.api;

import io.swagger.v3.oas.models.Components;
import io.swagger.v3.oas.models.OpenAPI;
import io.swagger.v3.oas.models.info.Info;
import io.swagger.v3.oas.models.security.SecurityRequirement;
import io.swagger.v3.oas.models.security.SecurityScheme;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** What {@code /v3/api-docs} says of the API as a whole. */
@Configuration(proxyBeanMethods = false)
class OpenApiDocument {

  private static final String TOKEN = "token";

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
                    TOKEN, new SecurityScheme().type(SecurityScheme.Type.HTTP).scheme("bearer")))
        .addSecurityItem(new SecurityRequirement().addList(TOKEN));
  }
}
