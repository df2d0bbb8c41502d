package towerledger.site;

import org.jspecify.annotations.Nullable;

/** Identity of a thing that has been saved. */
final class Stored {

  private Stored() {}

  static long id(@Nullable Long id) {
    if (id == null) {
      throw new IllegalStateException("not saved yet, so without identity");
    }
    return id;
  }
}
