package dev.doublet.cli;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.function.UnaryOperator;

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

  /**
   * Names files as a forge does: from the top of the checkout; what lies outside stays as it is.
   *
   * @param folder where names are seen from
   */
  static UnaryOperator<String> places(Path folder) throws IOException {
    Path here = folder.toAbsolutePath().toRealPath();
    Path top = of(folder);
    return name -> {
      Path place = here.resolve(name).normalize();
      return place.startsWith(top)
          ? top.relativize(place).toString().replace(File.separatorChar, '/')
          : name;
    };
  }
}
