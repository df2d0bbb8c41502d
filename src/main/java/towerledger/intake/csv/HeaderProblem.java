package towerledger.intake.csv;

import java.util.List;

/** A file whose header row does not fit; none of its rows can be read. */
public final class HeaderProblem extends RuntimeException {

  private static final long serialVersionUID = 1L;

  /**
   * A header that does not fit.
   *
   * @param file name of the file without {@code .csv}
   * @param problems what is wrong, one thing each
   * @param allowed the columns it may have, in words
   */
  public HeaderProblem(String file, List<String> problems, String allowed) {
    super(
        "%s.csv: %s; its columns are: %s"
            .formatted(file, String.join("; ", problems.stream().limit(20).toList()), allowed));
  }
}
