package towerledger.intake.greenbutton;

/** Hears the elements of a feed in their order. */
interface FeedHandler {

  /** An Atom entry begins; entries are counted from 0. */
  void entry(int number);

  /** A link of the entry. */
  void link(String relation, String address);

  /** An ESPI element begins. */
  void start(String name);

  /** An ESPI element without children ends; long texts are cut. */
  void value(String parent, String name, String text);

  /** An ESPI element ends. */
  void end(String name, long line);
}
