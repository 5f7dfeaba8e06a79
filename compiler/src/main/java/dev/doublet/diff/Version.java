package dev.doublet.diff;

import dev.doublet.facts.LayoutFacts;
import dev.doublet.report.Findings;
import dev.doublet.rulebook.Rulebook;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * One version of a rulebook or a layout.
 *
 * @param path its file; both versions of a file that kept its place have the same
 * @param texts every text that was read for it, by name
 * @param bookOrNull the rulebook, or the one that the layout follows
 * @param layoutOrNull the layout with its facts; null for a rulebook
 * @param findings what is said of it, notes included
 * @param whole true when all of it could be read
 */
public record Version(
    String path,
    Map<String, String> texts,
    Rulebook bookOrNull,
    LayoutFacts layoutOrNull,
    Findings findings,
    boolean whole) {

  /** Copies the map. */
  public Version {
    texts = java.util.Collections.unmodifiableMap(new TreeMap<>(texts));
  }

  /** A rulebook. */
  public static Version ofBook(
      String path, Map<String, String> texts, Rulebook book, Findings findings) {
    return new Version(path, texts, book, null, findings, book.isWhole());
  }

  /** A layout, as far as it could be read. */
  public static Version ofLayout(
      String path, Map<String, String> texts, Optional<LayoutFacts> layout, Findings findings) {
    LayoutFacts facts = layout.orElse(null);
    Rulebook book = facts == null ? null : facts.layout().rulebook();
    boolean whole = facts != null && facts.layout().whole() && book.isWhole();
    return new Version(path, texts, book, facts, findings, whole);
  }

  /** True for a layout. */
  boolean isLayout() {
    return path.endsWith(".yaml") || path.endsWith(".yml");
  }

  /** The file with the first line of the rulebook. */
  String bookPath() {
    return bookOrNull.span().file().name();
  }
}
