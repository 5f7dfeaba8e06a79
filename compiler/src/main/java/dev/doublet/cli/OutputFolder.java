package dev.doublet.cli;

import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.List;

/**
 * Writes a set of files into a folder, all of them or none. What lies there may come from a
 * stranger's repository: no link is followed, and no file replaced that Doublet did not make.
 */
final class OutputFolder {
  private OutputFolder() {}

  /**
   * Writes files into a folder, which is made when it is missing.
   *
   * @param run where the command runs
   * @param given the folder as the user wrote it
   * @throws IOException when any cannot be written; what was there before is then untouched
   */
  static void write(Path run, String given, List<Product> products) throws IOException {
    Path folder = ready(run, given);
    try (Journal journal = Journal.open(folder)) {
      for (Product product : products) {
        Path place = folder.resolve(product.name());
        if (Files.exists(place, LinkOption.NOFOLLOW_LINKS) && !Product.isMade(place)) {
          throw refused(place, "Doublet did not make this, so it is not replaced");
        }
      }
      journal.write(products);
    }
  }

  /**
   * The folder itself. No part of its path within the checkout is a link, and neither is the last:
   * a stranger may have laid it, to lead elsewhere.
   */
  private static Path ready(Path run, String given) throws IOException {
    Path folder = run.resolve(given);
    refuseLinks(run, folder, "this is a link; give the folder itself as --output");
    if (Files.exists(folder) && !Files.isDirectory(folder)) {
      throw refused(folder, "this is a file, not a folder");
    }
    try {
      Files.createDirectories(folder);
    } catch (NoSuchFileException impossible) {
      throw refused(folder, "no folder can be made there");
    }
    return folder;
  }

  /**
   * Looks for links that a stranger may have laid on the way to a folder.
   *
   * @param run where the command runs
   * @param why what to do about a link, in a sentence
   */
  static void refuseLinks(Path run, Path folder, String why) throws IOException {
    Path checkout = Checkout.of(run);
    for (Path part = folder; part != null; part = part.getParent()) {
      Path above = part.toAbsolutePath().getParent();
      boolean laidHere = part == folder || above != null && isBelow(above, checkout);
      if (laidHere && Files.isSymbolicLink(part)) {
        throw refused(part, why);
      }
    }
  }

  private static boolean isBelow(Path folder, Path checkout) throws IOException {
    return Files.exists(folder) && folder.toRealPath().startsWith(checkout);
  }

  private static FileSystemException refused(Path path, String why) {
    return new FileSystemException(path.toString(), null, why);
  }
}
