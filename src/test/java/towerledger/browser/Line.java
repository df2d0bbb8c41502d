package towerledger.browser;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;

/**
 * A line to a server that can be cut and mended: nothing gets through in between, whoever asks,
 * which a browser's own offline mode does not do to its workers.
 */
final class Line implements AutoCloseable {

  private final ServerSocket entry;
  private final int serverPort;
  private final Set<Socket> open = ConcurrentHashMap.newKeySet();
  private volatile boolean cut;

  private Line(ServerSocket entry, int serverPort) {
    this.entry = entry;
    this.serverPort = serverPort;
  }

  static Line to(int serverPort) throws IOException {
    Line line = new Line(new ServerSocket(0, 50, InetAddress.getLoopbackAddress()), serverPort);
    start(line::accept);
    return line;
  }

  int port() {
    return entry.getLocalPort();
  }

  void cut() {
    cut = true;
    open.forEach(Line::closeQuietly);
    open.clear();
  }

  void mend() {
    cut = false;
  }

  private void accept() {
    while (!entry.isClosed()) {
      try {
        Socket asking = entry.accept();
        if (cut) {
          asking.close();
          continue;
        }
        Socket server = new Socket(InetAddress.getLoopbackAddress(), serverPort);
        open.add(asking);
        open.add(server);
        start(() -> carry(asking, server));
        start(() -> carry(server, asking));
      } catch (IOException e) {
        if (!entry.isClosed()) {
          throw new UncheckedIOException(e);
        }
      }
    }
  }

  private void carry(Socket from, Socket to) {
    try (from;
        to) {
      InputStream in = from.getInputStream();
      OutputStream out = to.getOutputStream();
      in.transferTo(out);
    } catch (IOException e) {
      // cut, or one side is done: both ends are closed
      open.remove(from);
      open.remove(to);
    }
  }

  private static void closeQuietly(Socket socket) {
    try {
      socket.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  private static void start(Runnable work) {
    Thread thread = new Thread(work, "line");
    thread.setDaemon(true);
    thread.start();
  }

  @Override
  public void close() throws IOException {
    entry.close();
    cut();
  }
}
