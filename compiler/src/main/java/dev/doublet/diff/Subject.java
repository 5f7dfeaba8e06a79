package dev.doublet.diff;

import dev.doublet.diagnostic.Words;
import java.util.List;

/**
 * What changed.
 *
 * @param kind what its names name: "aspect", "signal", "form"; "rulebook", "layout" or "file" stand
 *     without names
 * @param names of what changed alike, in their order
 */
public record Subject(String kind, List<String> names) {

  /** Copies the list. */
  public Subject {
    names = List.copyOf(names);
  }

  /** One thing. */
  static Subject of(String kind, String name) {
    return new Subject(kind, List.of(name));
  }

  /** The whole file. */
  static Subject whole(String kind) {
    return new Subject(kind, List.of());
  }

  /** "aspect "Clear"", "signal W1 and 3 more like it", "the rulebook". */
  public String words() {
    if (names.isEmpty()) {
      return "the " + kind;
    }
    boolean quoted = kind.equals("aspect");
    List<String> shown = quoted ? names.stream().map(n -> '"' + n + '"').toList() : names;
    return kind + " " + Words.first(shown);
  }
}
