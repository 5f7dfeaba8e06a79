package dev.doublet.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/** The tree of files that a folder belongs to. */
final class Checkout {
  private Checkout() {}

  /**
   * The nearest folder above that git keeps, or the folder itself where there is none.
   *
   * @param folder one that exists
   * @return its path without links
   */
  static Path of(Path folder) throws IOException {
    Path start = folder.toAbsolutePath().toRealPath();
    for (Path above = start; above != null; above = above.getParent()) {
      if (Files.exists(above.resolve(".git"))) {
        return above;
      }
    }
    return start;
  }
}
