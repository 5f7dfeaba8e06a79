package dev.doublet.cli;

import dev.doublet.source.Visible;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/**
 * A file that Doublet makes. Each sort bears a mark near its start, by which one that was made
 * before is known, and may be replaced.
 *
 * @param name the file's name, without a folder
 * @param bytes all that is in it
 */
record Product(String name, byte[] bytes) {
  private static final int NEAR_ITS_START = 1024;
  private static final Map<String, List<String>> MARKS =
      Map.of(
          ".bin", List.of("DBLT"),
          ".hex", List.of("44424C54"),
          ".h", List.of("Made by the Doublet compiler", "The reader of Doublet tables"),
          ".wiring.md", List.of("# Wiring of "),
          ".wiring.csv", List.of("controller,chain,"),
          ".html", List.of("content=\"Doublet "),
          "aspects.md", List.of("# Aspects of "));

  /** Refuses a file that could not be known again. */
  Product {
    if (!isMarked(name, bytes)) {
      throw new IllegalArgumentException(name + " bears no mark");
    }
  }

  /** A file of text, which is made visible first. */
  static Product text(String name, String text) {
    return new Product(name, Visible.of(text).getBytes(StandardCharsets.UTF_8));
  }

  /** True when a file is one that Doublet made: no link, no folder, and with its mark. */
  static boolean isMade(Path file) throws IOException {
    return isMade(file, file.getFileName().toString());
  }

  /** The same of a file that is to have another name. */
  static boolean isMade(Path file, String name) throws IOException {
    if (!Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS)) {
      return false;
    }
    try (InputStream in = Files.newInputStream(file, LinkOption.NOFOLLOW_LINKS)) {
      return isMarked(name, in.readNBytes(NEAR_ITS_START));
    }
  }

  private static boolean isMarked(String name, byte[] bytes) {
    int length = Math.min(bytes.length, NEAR_ITS_START);
    String start = new String(bytes, 0, length, StandardCharsets.ISO_8859_1);
    return MARKS.entrySet().stream()
        .filter(e -> name.endsWith(e.getKey()))
        .anyMatch(e -> e.getValue().stream().anyMatch(start::contains));
  }
}
