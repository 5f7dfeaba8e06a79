package dev.doublet.editor;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/** What words of the language say, as the page of the language tells it: the first table there. */
final class WordHelp {
  private static final Pattern ROW = Pattern.compile("\\| `(.*)` \\| (.*) \\|");
  private static final Map<String, String> BY_WORD = read();

  private WordHelp() {}

  /** One sentence, in Markdown; empty where the page has none. */
  static String of(String word) {
    return BY_WORD.getOrDefault(word, "");
  }

  private static Map<String, String> read() {
    Map<String, String> first = new HashMap<>();
    Map<String, String> any = new HashMap<>();
    for (String line : page().lines().toList()) {
      Matcher row = ROW.matcher(line);
      if (row.matches()) {
        List<String> words = List.of(row.group(1).replaceAll("\"[^\"]*\"", " ").split("[^a-z/]+"));
        words.stream().limit(1).forEach(word -> first.putIfAbsent(word, row.group(2)));
        words.forEach(word -> any.putIfAbsent(word, row.group(2)));
      }
    }
    any.putAll(first);
    return Map.copyOf(any);
  }

  private static String page() {
    try (InputStream in = WordHelp.class.getResourceAsStream("language.md")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the page of the language lies in the jar", e);
    }
  }
}
