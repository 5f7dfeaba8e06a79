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

/**
 * What words of the language say, as the tables on the page of the language tell it: the line that
 * is about it alone, or that of the first table which begins with it, or one that names it as a
 * choice; else the first that has it, with the sample there, as elsewhere it may say something
 * else.
 */
final class WordHelp {
  private static final Pattern ROW = Pattern.compile("\\| `(.*)` \\| (.*) \\|");
  private static final Pattern CHOICE = Pattern.compile("`([a-z/]+)`");
  private static final Map<String, String> BY_WORD = read();

  private WordHelp() {}

  /** In Markdown; empty where the page has none. */
  static String of(String word) {
    return BY_WORD.getOrDefault(word, "");
  }

  private static Map<String, String> read() {
    Map<String, String> alone = new HashMap<>();
    Map<String, String> choices = new HashMap<>();
    Map<String, String> first = new HashMap<>();
    Map<String, String> any = new HashMap<>();
    boolean inFirstTable = true;
    for (String line : page().lines().toList()) {
      Matcher row = ROW.matcher(line);
      inFirstTable &= first.isEmpty() || row.matches();
      if (row.matches()) {
        String sample = row.group(1);
        String says = row.group(2);
        List<String> words = List.of(sample.replaceAll("\"[^\"]*\"", " ").split("[^a-z/]+"));
        if (inFirstTable) {
          first.putIfAbsent(words.get(0), says);
        }
        words.forEach(word -> any.putIfAbsent(word, "as in `" + sample + "`: " + says));
        alone.putIfAbsent(sample, says);
        CHOICE.matcher(says).results().forEach(c -> choices.putIfAbsent(c.group(1), says));
      }
    }
    Map<String, String> help = new HashMap<>(any);
    help.putAll(choices);
    help.putAll(first);
    help.putAll(alone);
    return Map.copyOf(help);
  }

  private static String page() {
    try (InputStream in = WordHelp.class.getResourceAsStream("language.md")) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new UncheckedIOException("the page of the language lies in the jar", e);
    }
  }
}
