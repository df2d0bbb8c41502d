package towerledger.intake.open;

import java.io.IOException;
import java.io.InputStream;
import java.util.List;

/**
 * An open format of others, whose files become rows of one file of the interchange format. What
 * becomes of the rows, and where the bad ones wait, is then the same as for a CSV.
 */
public interface OpenFormat {

  /**
   * Whether a file is of this format.
   *
   * @param name its name in lower case, without folders and without {@code .gz}
   */
  boolean reads(String name);

  /** Name of the interchange file whose rows it becomes, without {@code .csv}. */
  String file();

  /** The columns its rows fill, by their interchange names. */
  List<String> columns();

  /**
   * Does what has to be done before the rows are taken, within the transaction under way: a weather
   * file tells where its station stands.
   */
  void prepare(String name, Source source) throws IOException;

  /**
   * Reads a file to its end.
   *
   * @param name its name, without folders and without {@code .gz}
   * @throws OpenFormatProblem when it is no file of the format, with words on why
   * @throws IOException when reading fails
   */
  void read(String name, Source source, Sink sink) throws IOException;

  /** A file that can be opened again. */
  interface Source {
    InputStream open() throws IOException;
  }

  /** Takes rows one by one, so that no file need fit into memory. */
  interface Sink {

    /** A row, cells in the order of the columns. */
    void row(long line, List<String> cells);

    /** Something that is no row. */
    void refused(long line, String raw, String reason);

    /** A line that tells nothing. */
    void gap();

    /** Something that whoever handed the file in should know. */
    void note(String words);
  }
}
