package towerledger.intake.greenbutton;

import java.io.IOException;
import java.io.InputStream;

/**
 * Reads Green Button feeds (NAESB ESPI, REQ.21) with service kind water. A feed is walked through
 * twice, because what its values mean often stands behind them; memory does not grow with its
 * readings.
 */
public final class GreenButtonReader {

  private GreenButtonReader() {}

  /** A feed that can be opened again. */
  public interface Source {
    InputStream open() throws IOException;
  }

  /**
   * Reads a feed to its end.
   *
   * @param source the feed, opened twice
   * @param sink takes every interval reading, or the reason why it is refused
   * @throws GreenButtonFormatException when the file is no feed, is not well-formed, or declares a
   *     document type
   * @throws IOException when reading fails
   */
  public static void read(Source source, GreenButtonSink sink) throws IOException {
    var resources = new FeedResources();
    try (InputStream feed = source.open()) {
      FeedWalk.through(feed, resources);
    }
    try (InputStream feed = source.open()) {
      FeedWalk.through(feed, new IntervalReadings(resources.owners(), sink));
    }
  }
}
