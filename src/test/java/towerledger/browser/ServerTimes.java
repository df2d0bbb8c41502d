package towerledger.browser;

import jakarta.servlet.ServletException;
import java.io.IOException;
import java.util.Arrays;
import java.util.concurrent.ConcurrentLinkedQueue;
import org.apache.catalina.AccessLog;
import org.apache.catalina.connector.Request;
import org.apache.catalina.connector.Response;
import org.apache.catalina.valves.ValveBase;

/**
 * What the server itself takes for an answer: from the first byte of a request until the last of
 * its answer is written, compressed, as an access log has it. The client that asks runs beside it
 * on the same processors, and its own waiting is not the server's.
 */
final class ServerTimes extends ValveBase implements AccessLog {

  private final ConcurrentLinkedQueue<Double> millis = new ConcurrentLinkedQueue<>();

  ServerTimes() {
    super(true);
  }

  /** Milliseconds of the answers since the last call, sorted. */
  double[] take() {
    double[] taken = millis.stream().mapToDouble(Double::doubleValue).toArray();
    millis.clear();
    Arrays.sort(taken);
    return taken;
  }

  @Override
  public void log(Request request, Response response, long nanos) {
    millis.add(nanos / 1e6);
  }

  @Override
  public void invoke(Request request, Response response) throws IOException, ServletException {
    getNext().invoke(request, response);
  }

  @Override
  public void setRequestAttributesEnabled(boolean enabled) {
    // an access log may name the client as a proxy tells it; nothing here names clients
  }

  @Override
  public boolean getRequestAttributesEnabled() {
    return false;
  }
}
