package towerledger.intake.greenbutton;

/** A file is not the feed it was taken for, or is refused as a whole. */
public class GreenButtonFormatException extends RuntimeException {

  public GreenButtonFormatException(String message) {
    super(message);
  }

  public GreenButtonFormatException(String message, Throwable cause) {
    super(message, cause);
  }
}
