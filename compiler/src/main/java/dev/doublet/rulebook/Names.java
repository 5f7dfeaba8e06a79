package dev.doublet.rulebook;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.syntax.Word;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * The names of one kind that a rulebook declares, and which of them it uses.
 *
 * @param <T> what a name stands for
 */
final class Names<T> {
  private final String kind;
  private final String owner;
  private final String declare;
  private final Mistakes mistakes;
  private final Map<String, Word> words = new LinkedHashMap<>();
  private final Map<String, T> values = new LinkedHashMap<>();
  private final Set<String> used = new HashSet<>();

  /**
   * Begins with no names.
   *
   * @param kind what a name names: "colour"
   * @param declare how to declare one, as an order
   */
  Names(String kind, String declare, Mistakes mistakes) {
    this(kind, "", declare, mistakes);
  }

  /**
   * Begins with no names.
   *
   * @param kind what a name names: "lamp"
   * @param owner what all of them belong to: " of head searchlight"
   * @param declare how to declare one, as an order
   */
  Names(String kind, String owner, String declare, Mistakes mistakes) {
    this.kind = kind;
    this.owner = owner;
    this.declare = declare;
    this.mistakes = mistakes;
  }

  /** Declares a name; the first of two declarations stands. */
  void declare(Word name, T value) {
    Word first = words.putIfAbsent(name.text(), name);
    if (first == null) {
      values.put(name.text(), value);
    } else {
      mistakes.duplicate(
          name.span(),
          "the " + kind + " \"" + name.text() + "\"" + owner + " is declared twice",
          first.span(),
          "one name stands for one thing.",
          "remove one of the two, or give it a name of its own.");
    }
  }

  /** What a name stands for; an unknown one is noted. */
  Optional<T> find(Word name) {
    T value = values.get(name.text());
    if (value == null) {
      mistakes.unknown(kind + owner, name, words.keySet(), declare);
    }
    used.add(name.text());
    return Optional.ofNullable(value);
  }

  String kind() {
    return kind;
  }

  boolean has(String name) {
    return values.containsKey(name);
  }

  Set<String> all() {
    return words.keySet();
  }

  Word word(String name) {
    return words.get(name);
  }

  List<T> values() {
    return List.copyOf(values.values());
  }

  void use(String name) {
    used.add(name);
  }

  /** Notes each name of one file that nothing uses. */
  void noteUnused(SourceFile file, String use) {
    for (Word word : words.values()) {
      if (!used.contains(word.text()) && word.span().file() == file) {
        mistakes.add(
            Diagnostic.note(
                    "unused-name",
                    Tier.STRUCTURE,
                    word.span(),
                    "the " + kind + " \"" + word.text() + "\" is declared and never used")
                .because("it is either not needed or missing where it was meant to be.")
                .help(use + ", or remove it."));
      }
    }
  }
}
