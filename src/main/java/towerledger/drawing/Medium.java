package towerledger.drawing;

/** Where a drawing will be looked at. */
public enum Medium {
  /** A page: colours come from the style sheet by class, so they follow light and dark. */
  PAGE,
  /** Mail, PDF, or a saved picture: colours are written into the drawing, for light ground. */
  PAPER
}
