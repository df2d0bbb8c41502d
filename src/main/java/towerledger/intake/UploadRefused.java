package towerledger.intake;

/** An upload of which nothing was taken, with words on why and what to do. */
public final class UploadRefused extends RuntimeException {

  private static final long serialVersionUID = 1L;

  private final Kind kind;

  /** What sort of refusal it is. */
  public enum Kind {
    /** It cannot be read at all: empty, cut short, not the kind of file it claims to be. */
    UNREADABLE,
    /** It can be read, but its files or columns are not those of the interchange format. */
    WRONG_CONTENT,
    /** It unpacks to more than any bundle. */
    TOO_LARGE,
    /** The sender may not hand in such files. */
    NOT_ALLOWED
  }

  public UploadRefused(Kind kind, String message) {
    super(message);
    this.kind = kind;
  }

  public Kind kind() {
    return kind;
  }
}
