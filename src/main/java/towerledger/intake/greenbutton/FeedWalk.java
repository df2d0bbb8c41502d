package towerledger.intake.greenbutton;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayDeque;
import java.util.Deque;
import javax.xml.XMLConstants;
import javax.xml.stream.XMLInputFactory;
import javax.xml.stream.XMLStreamConstants;
import javax.xml.stream.XMLStreamException;
import javax.xml.stream.XMLStreamReader;

/**
 * Walks through an Atom feed of ESPI resources, element by element. Document type declarations are
 * refused, so that no entity is ever looked up or multiplied; depth and text length are bounded.
 */
final class FeedWalk {

  private static final String ATOM = "http://www.w3.org/2005/Atom";
  private static final String ESPI = "http://naesb.org/espi";
  private static final int DEEPEST = 64;
  private static final int LONGEST_TEXT = 200;

  private final XMLStreamReader xml;
  private final FeedHandler handler;
  private final Deque<String> path = new ArrayDeque<>();
  private final StringBuilder text = new StringBuilder();
  private boolean leaf;
  private int entries;

  private FeedWalk(XMLStreamReader xml, FeedHandler handler) {
    this.xml = xml;
    this.handler = handler;
  }

  /**
   * Walks from the first to the last element.
   *
   * @throws GreenButtonFormatException when the text is no well-formed feed or declares a document
   *     type
   */
  static void through(InputStream feed, FeedHandler handler) throws IOException {
    XMLInputFactory factory = XMLInputFactory.newDefaultFactory();
    factory.setProperty(XMLInputFactory.SUPPORT_DTD, false);
    factory.setProperty(XMLInputFactory.IS_SUPPORTING_EXTERNAL_ENTITIES, false);
    factory.setProperty(XMLInputFactory.IS_REPLACING_ENTITY_REFERENCES, false);
    factory.setProperty(XMLConstants.ACCESS_EXTERNAL_DTD, "");
    try {
      XMLStreamReader xml = factory.createXMLStreamReader(feed);
      try {
        new FeedWalk(xml, handler).walk();
      } finally {
        xml.close();
      }
    } catch (XMLStreamException e) {
      if (e.getNestedException() instanceof IOException io) {
        throw io;
      }
      throw new GreenButtonFormatException(
          "the feed is not well-formed XML at line %d: %s"
              .formatted(
                  e.getLocation() == null ? -1 : e.getLocation().getLineNumber(), e.getMessage()),
          e);
    }
  }

  private void walk() throws XMLStreamException {
    while (xml.hasNext()) {
      switch (xml.next()) {
        case XMLStreamConstants.DTD, XMLStreamConstants.ENTITY_REFERENCE ->
            throw new GreenButtonFormatException(
                "line %d declares a document type or uses an entity; a Green Button feed has neither, so the file is refused. Remove the DOCTYPE"
                    .formatted(xml.getLocation().getLineNumber()));
        case XMLStreamConstants.START_ELEMENT -> start();
        case XMLStreamConstants.CHARACTERS, XMLStreamConstants.CDATA -> characters();
        case XMLStreamConstants.END_ELEMENT -> end();
        default -> {
          // Comments, processing instructions and white space tell nothing.
        }
      }
    }
  }

  private void start() {
    String name = xml.getLocalName();
    if (path.isEmpty() && !(ATOM.equals(xml.getNamespaceURI()) && isFeedOrEntry(name))) {
      throw new GreenButtonFormatException(
          "the file begins with <%s>, not with an Atom <feed>; is this a Green Button file?"
              .formatted(name));
    }
    if (path.size() >= DEEPEST) {
      throw new GreenButtonFormatException(
          "line %d nests deeper than %d elements; no Green Button feed does"
              .formatted(xml.getLocation().getLineNumber(), DEEPEST));
    }
    if (ATOM.equals(xml.getNamespaceURI())) {
      if (name.equals("entry")) {
        handler.entry(entries++);
      } else if (name.equals("link") && xml.getAttributeValue(null, "href") != null) {
        String relation = xml.getAttributeValue(null, "rel");
        handler.link(
            relation == null ? "alternate" : relation, xml.getAttributeValue(null, "href"));
      }
    } else if (ESPI.equals(xml.getNamespaceURI())) {
      handler.start(name);
    }
    path.push(name);
    text.setLength(0);
    leaf = true;
  }

  private static boolean isFeedOrEntry(String name) {
    return name.equals("feed") || name.equals("entry");
  }

  private void characters() {
    int room = LONGEST_TEXT - text.length();
    if (leaf && room > 0) {
      text.append(xml.getTextCharacters(), xml.getTextStart(), Math.min(room, xml.getTextLength()));
    }
  }

  private void end() {
    String name = path.pop();
    if (ESPI.equals(xml.getNamespaceURI())) {
      String parent = path.peek();
      if (leaf && parent != null) {
        handler.value(parent, name, text.toString().strip());
      }
      handler.end(name, xml.getLocation().getLineNumber());
    }
    leaf = false;
  }
}
