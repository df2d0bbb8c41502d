package towerledger.api;

/** A field of a request that is missing, doubled, unknown or no number; the message names it. */
class FieldProblem extends RuntimeException {

  private static final long serialVersionUID = 1L;

  FieldProblem(String message) {
    super(message);
  }
}
