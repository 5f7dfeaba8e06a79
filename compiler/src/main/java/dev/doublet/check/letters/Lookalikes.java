package dev.doublet.check.letters;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;

/**
 * Letters and digits that look like others. A table of our own: the library that knows them is
 * three times as large as all of Doublet, and what Java itself knows of Unicode differs from one
 * Java to the next. A test holds the table against that library.
 */
final class Lookalikes {
  /** The last character of ASCII. */
  static final int LATIN = 0x7F;

  private static final Map<Integer, String> SHAPES = read();
  private static final List<Integer> BLANKS =
      List.of(0x00A0, 0x1680, 0x2007, 0x2008, 0x202F, 0x205F, 0x2800, 0x3000);

  private Lookalikes() {}

  /** True for a letter or digit beyond ASCII that looks like one, or several, of ASCII. */
  static boolean isOne(int character) {
    return character > LATIN && SHAPES.containsKey(character);
  }

  /** True for what looks like a blank, and is none. */
  static boolean isBlank(int character) {
    return character >= 0x2000 && character <= 0x200A || BLANKS.contains(character);
  }

  /** A text by its looks alone: texts that look the same have the same shape. */
  static String shape(String text) {
    StringBuilder shape = new StringBuilder();
    text.codePoints().forEach(c -> shape.append(SHAPES.getOrDefault(c, Character.toString(c))));
    return shape.toString();
  }

  private static Map<Integer, String> read() {
    Map<Integer, String> shapes = new HashMap<>();
    InputStream in =
        Objects.requireNonNull(Lookalikes.class.getResourceAsStream("look-alikes.txt"));
    try (BufferedReader lines =
        new BufferedReader(new InputStreamReader(in, StandardCharsets.UTF_8))) {
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        String[] words = line.split(" ");
        for (int i = 1; i < words.length && !words[0].equals("#"); i++) {
          shapes.put(Integer.parseInt(words[i], 16), words[0]);
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    return Map.copyOf(shapes);
  }
}
