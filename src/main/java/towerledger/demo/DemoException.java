package towerledger.demo;

/** The demo scenario could not be reckoned to its end. */
class DemoException extends RuntimeException {

  private static final long serialVersionUID = 1L;

  DemoException(String why) {
    super("the invented book is taken, but its months could not all be reckoned: " + why);
  }
}
