package towerledger.report.delivery;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.OutputStream;
import java.io.UncheckedIOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.atomic.AtomicInteger;

/**
 * A mail relay that answers as a test tells it to: one that refuses, puts off or does not answer.
 */
public final class ScriptedRelay implements AutoCloseable {

  private final ServerSocket socket;
  private final Map<String, String> answers = new ConcurrentHashMap<>();
  private final List<String> taken = new CopyOnWriteArrayList<>();
  private final AtomicInteger connections = new AtomicInteger();
  private volatile long pauseMillis;

  public ScriptedRelay() {
    try {
      socket = new ServerSocket(0, 50, InetAddress.getLoopbackAddress());
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    Thread acceptor = new Thread(this::accept, "scripted relay");
    acceptor.setDaemon(true);
    acceptor.start();
  }

  public int port() {
    return socket.getLocalPort();
  }

  /** What it says to an address, for instance {@code 550 no such mailbox}. */
  public ScriptedRelay answer(String recipient, String answer) {
    answers.put(recipient, answer);
    return this;
  }

  /** How long it thinks before every answer. */
  public ScriptedRelay pause(long millis) {
    pauseMillis = millis;
    return this;
  }

  /** How often somebody came to it. */
  public int connections() {
    return connections.get();
  }

  /** Addresses it took a message for. */
  public List<String> taken() {
    return List.copyOf(taken);
  }

  private void accept() {
    while (!socket.isClosed()) {
      try {
        Socket one = socket.accept();
        connections.incrementAndGet();
        Thread talk = new Thread(() -> talk(one), "scripted relay talk");
        talk.setDaemon(true);
        talk.start();
      } catch (IOException e) {
        return; // closed by the test
      }
    }
  }

  private void talk(Socket one) {
    try (one;
        var in =
            new BufferedReader(
                new InputStreamReader(one.getInputStream(), StandardCharsets.ISO_8859_1))) {
      OutputStream out = one.getOutputStream();
      List<String> recipients = new ArrayList<>();
      say(out, "220 scripted relay");
      for (String line = in.readLine(); line != null; line = in.readLine()) {
        String verb = line.length() < 4 ? line : line.substring(0, 4).toUpperCase();
        switch (verb) {
          case "EHLO", "HELO" -> say(out, "250 scripted");
          case "RCPT" -> {
            String recipient = line.replaceAll("^[^<]*<([^>]*)>.*$", "$1");
            String answer = answers.getOrDefault(recipient, "250 ok");
            if (answer.startsWith("2")) {
              recipients.add(recipient);
            }
            say(out, answer);
          }
          case "DATA" -> {
            say(out, "354 go on");
            String data = in.readLine();
            while (data != null && !data.equals(".")) {
              data = in.readLine();
            }
            taken.addAll(recipients);
            recipients.clear();
            say(out, "250 taken");
          }
          case "QUIT" -> {
            say(out, "221 bye");
            return;
          }
          default -> say(out, "250 ok");
        }
      }
    } catch (IOException e) {
      // the other side hung up; the test looks at what was taken
      return;
    }
  }

  private void say(OutputStream out, String answer) throws IOException {
    try {
      Thread.sleep(pauseMillis);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    }
    out.write((answer + "\r\n").getBytes(StandardCharsets.ISO_8859_1));
    out.flush();
  }

  @Override
  public void close() {
    try {
      socket.close();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
