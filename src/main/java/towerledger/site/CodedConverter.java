package towerledger.site;

import jakarta.persistence.AttributeConverter;
import org.jspecify.annotations.Nullable;

/** Stores a {@link Coded} choice as its code. */
class CodedConverter<E extends Enum<E> & Coded>
    implements AttributeConverter<@Nullable E, @Nullable String> {

  private final Class<E> choices;

  CodedConverter(Class<E> choices) {
    this.choices = choices;
  }

  @Override
  public @Nullable String convertToDatabaseColumn(@Nullable E choice) {
    return choice == null ? null : choice.code();
  }

  @Override
  public @Nullable E convertToEntityAttribute(@Nullable String code) {
    return code == null ? null : Coded.parse(choices, "stored code", code);
  }
}
