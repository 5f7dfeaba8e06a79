package dev.doublet.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.SortedMap;

/**
 * Writes files whole or not at all: beside their places first, and into place only when all are.
 */
final class WholeFiles {
  private WholeFiles() {}

  /**
   * Writes files into a folder, which is made when it is missing.
   *
   * @param contents by file name
   * @throws IOException when any cannot be written; what was there before is then untouched
   */
  static void write(Path folder, SortedMap<String, byte[]> contents) throws IOException {
    Files.createDirectories(folder);
    Map<Path, Path> written = new LinkedHashMap<>();
    try {
      for (Map.Entry<String, byte[]> entry : contents.entrySet()) {
        Path beside = folder.resolve(entry.getKey() + ".part");
        written.put(beside, folder.resolve(entry.getKey()));
        Files.write(beside, entry.getValue());
      }
      for (Map.Entry<Path, Path> entry : written.entrySet()) {
        Files.move(
            entry.getKey(),
            entry.getValue(),
            StandardCopyOption.REPLACE_EXISTING,
            StandardCopyOption.ATOMIC_MOVE);
      }
    } finally {
      for (Path beside : written.keySet()) {
        Files.deleteIfExists(beside);
      }
    }
  }
}
