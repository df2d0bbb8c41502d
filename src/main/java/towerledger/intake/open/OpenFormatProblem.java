package towerledger.intake.open;

/** A file is not of the format that its name says, with words on why. */
public final class OpenFormatProblem extends RuntimeException {

  private static final long serialVersionUID = 1L;

  OpenFormatProblem(String message, Throwable cause) {
    super(message, cause);
  }

  OpenFormatProblem(String message) {
    super(message);
  }
}
