package towerledger.account;

/**
 * Who changes something and from where, as the history of changes names them.
 *
 * @param name e-mail of the person, or the program's own doing such as {@code system}; at most 254
 *     characters
 * @param source where the change came from: an address, {@code import 17}, {@code start-up}; at
 *     most 200 characters
 */
public record Actor(String name, String source) {

  public Actor {
    if (name.isBlank() || name.length() > 254) {
      throw new IllegalArgumentException(
          "name of an actor has %d characters; 1 to 254 are allowed".formatted(name.length()));
    }
    if (source.isBlank() || source.length() > 200) {
      throw new IllegalArgumentException(
          "source of an actor has %d characters; 1 to 200 are allowed".formatted(source.length()));
    }
  }

  /** The program itself, such as a start-up import or a scheduled job. */
  public static Actor system(String source) {
    return new Actor("system", source);
  }

  /** A person or token holder acting through the given place. */
  public static Actor of(Viewer viewer, String source) {
    return new Actor(viewer.email(), source);
  }
}
