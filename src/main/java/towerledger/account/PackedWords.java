package towerledger.account;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Objects;
import java.util.Set;
import java.util.function.UnaryOperator;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Lists of words that are packed with the program. */
final class PackedWords {

  private PackedWords() {}

  /**
   * Reads a list.
   *
   * @param list its place on the class path
   * @param words makes words of its lines
   */
  static Set<String> read(String list, UnaryOperator<Stream<String>> words) {
    try (InputStream packed =
            Objects.requireNonNull(PackedWords.class.getResourceAsStream(list), list);
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(packed, StandardCharsets.UTF_8))) {
      return words.apply(lines.lines()).collect(Collectors.toUnmodifiableSet());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
