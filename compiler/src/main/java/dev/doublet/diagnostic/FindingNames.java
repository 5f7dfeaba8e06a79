package dev.doublet.diagnostic;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/**
 * The name of everything that Doublet says of a text, the same wherever it is said, accepted,
 * explained or counted. What a name means, its page tells, and the list is made of the pages: it
 * travels with this package because keys of layouts take such names, and may not know of checks.
 */
public final class FindingNames {
  /** All of them, sorted. */
  public static final List<String> ALL = read();

  private FindingNames() {}

  private static List<String> read() {
    try (InputStream in = FindingNames.class.getResourceAsStream("findings.txt");
        BufferedReader lines =
            new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      return lines.lines().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
