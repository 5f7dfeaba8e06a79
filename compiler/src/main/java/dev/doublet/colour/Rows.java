package dev.doublet.colour;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** The rows of a table that travels with this package: commas between, no quotes, # for remarks. */
final class Rows {
  private Rows() {}

  /** All rows after the one that names the columns. */
  static List<List<String>> of(String resource) {
    try (InputStream in = Rows.class.getResourceAsStream(resource)) {
      return new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))
          .lines()
          .filter(line -> !line.startsWith("#"))
          .skip(1)
          .map(line -> List.of(line.split(",", -1)))
          .toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
