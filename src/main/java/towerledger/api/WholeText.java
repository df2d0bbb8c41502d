package towerledger.api;

import org.jspecify.annotations.Nullable;
import org.springframework.context.annotation.Configuration;
import org.springframework.http.converter.HttpMessageConverters;
import org.springframework.http.converter.json.JacksonJsonHttpMessageConverter;
import org.springframework.web.servlet.config.annotation.WebMvcConfigurer;
import tools.jackson.core.JsonParser;
import tools.jackson.databind.DatabindException;
import tools.jackson.databind.DeserializationContext;
import tools.jackson.databind.deser.jdk.StringDeserializer;
import tools.jackson.databind.deser.std.StdScalarDeserializer;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.module.SimpleModule;

/**
 * Refuses a JSON body in which a text holds the character of code zero: PostgreSQL keeps none, and
 * the request would end as a fault of the program. What the ledger itself keeps as JSON is read as
 * before.
 */
@Configuration(proxyBeanMethods = false)
class WholeText implements WebMvcConfigurer {

  private final JsonMapper json;

  WholeText(JsonMapper json) {
    this.json = json;
  }

  @Override
  public void configureMessageConverters(HttpMessageConverters.ServerBuilder converters) {
    JsonMapper strict =
        json.rebuild()
            .addModule(new SimpleModule().addDeserializer(String.class, new Reader()))
            .build();
    converters.withJsonConverter(new JacksonJsonHttpMessageConverter(strict));
  }

  private static final class Reader extends StdScalarDeserializer<String> {

    Reader() {
      super(String.class);
    }

    @Override
    public @Nullable String deserialize(JsonParser parser, DeserializationContext context) {
      String text = StringDeserializer.instance.deserialize(parser, context);
      if (text != null && text.indexOf('\0') >= 0) {
        throw DatabindException.from(
            parser,
            "null character",
            new FieldProblem(
                "A text of the body holds the null character (\\u0000), which is no text; leave it"
                    + " out."));
      }
      return text;
    }
  }
}
