package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Predicate;

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
  private final Predicate<String> elsewhere;
  private final Map<String, Word> words = new LinkedHashMap<>();
  private final Map<String, T> values = new LinkedHashMap<>();
  private final Set<String> used = new HashSet<>();

  /**
   * Begins with no names of a whole book.
   *
   * @param kind what a name names: "colour"
   * @param declare how to declare one, as an order
   * @param elsewhere true for names that a part of the book may declare which could not be read
   */
  Names(String kind, String declare, Mistakes mistakes, Predicate<String> elsewhere) {
    this(kind, "", declare, mistakes, elsewhere);
  }

  /**
   * Begins with no names of one declaration.
   *
   * @param kind what a name names: "lamp"
   * @param owner what all of them belong to: " of head searchlight"
   * @param declare how to declare one, as an order
   */
  Names(String kind, String owner, String declare, Mistakes mistakes) {
    this(kind, owner, declare, mistakes, name -> false);
  }

  private Names(
      String kind, String owner, String declare, Mistakes mistakes, Predicate<String> elsewhere) {
    this.kind = kind;
    this.owner = owner;
    this.declare = declare;
    this.mistakes = mistakes;
    this.elsewhere = elsewhere;
  }

  /** Declares a name; the first of two declarations stands. */
  void declare(Word name, T value) {
    declare(name, Optional.of(value));
  }

  /**
   * The same of a name for something of which a value could not be read.
   *
   * @param value empty when nothing more is known of it
   */
  void declare(Word name, Optional<T> value) {
    Word first = words.putIfAbsent(name.text(), name);
    if (first == null) {
      value.ifPresent(v -> values.put(name.text(), v));
    } else {
      mistakes.duplicate(
          name.span(),
          "the {kind} \"{name}\"" + owner + " is declared twice",
          first.span(),
          "one name stands for one thing.",
          "remove one of the two, or give it a name of its own.",
          Datum.of("kind", kind),
          Datum.of("name", name.text()));
    }
  }

  /** What a name stands for; one that nothing can have declared is noted. */
  Optional<T> find(Word name) {
    T value = values.get(name.text());
    if (!has(name.text())) {
      mistakes.unknown(kind + owner, name, words.keySet(), declare);
    }
    used.add(name.text());
    return Optional.ofNullable(value);
  }

  String kind() {
    return kind;
  }

  /** True for a name that is declared, or may be in a part that could not be read. */
  boolean has(String name) {
    return words.containsKey(name) || elsewhere.test(name);
  }

  /** True for a name of which is known what it stands for. */
  boolean knows(String name) {
    return values.containsKey(name);
  }

  /** True for a name that is declared, if only as one of which nothing more is known. */
  boolean declares(String name) {
    return words.containsKey(name);
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

  /** Notes each name that a file declares and nothing uses. */
  void noteUnused(Tree tree, String use) {
    for (Word word : words.values()) {
      if (!used.contains(word.text()) && word.span().file() == tree.file()) {
        Diagnostic unused =
            Diagnostic.note(
                    "unused-name",
                    Tier.STRUCTURE,
                    word.span(),
                    "the {kind} \"{name}\" is declared and never used",
                    Datum.of("kind", kind),
                    Datum.of("name", word.text()))
                .because("it is either not needed or missing where it was meant to be.")
                .help(use + ", or remove it.");
        mistakes.add(
            Removal.of(tree, word, w -> !used.contains(w.text())).map(unused::fix).orElse(unused));
      }
    }
  }
}
