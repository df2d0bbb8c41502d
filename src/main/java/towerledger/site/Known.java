package towerledger.site;

import org.jspecify.annotations.Nullable;

/** Not known never wipes out known. */
final class Known {

  private Known() {}

  static <T> @Nullable T or(@Nullable T newer, @Nullable T older) {
    return newer != null ? newer : older;
  }
}
