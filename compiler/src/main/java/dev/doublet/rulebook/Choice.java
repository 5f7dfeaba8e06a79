package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.List;
import java.util.stream.Collectors;

/**
 * What a pattern accepts at one head.
 *
 * @param displays what is accepted, in the order written; empty when anything is
 * @param letter what the number is called that is accepted, as in {n}; empty for what is no numeral
 * @param span where it is written
 */
public record Choice(List<Display> displays, String letter, Span span) {

  /** Copies the list. */
  public Choice {
    displays = List.copyOf(displays);
  }

  /** A choice that is no numeral. */
  public Choice(List<Display> displays, Span span) {
    this(displays, "", span);
  }

  /** True for {@code any}: every display, and dark. */
  public boolean isAny() {
    return displays.isEmpty();
  }

  /** True when a display is accepted. */
  public boolean accepts(Display display) {
    return isAny() || displays.contains(display);
  }

  /** True when everything that another choice accepts is accepted. */
  boolean acceptsAll(Choice other) {
    return isAny() || (!other.isAny() && displays.containsAll(other.displays));
  }

  /** True when some display is accepted by both. */
  boolean meets(Choice other) {
    return isAny() || other.isAny() || displays.stream().anyMatch(other.displays::contains);
  }

  /**
   * The display that a signal puts up for this choice: the first one written; dark for {@code any}.
   */
  public Display shown() {
    return isAny() ? Display.DARK : displays.get(0);
  }

  /** As the language says it. */
  public String words() {
    if (isAny()) {
      return "any";
    }
    if (!letter.isEmpty()) {
      return Numerals.words(letter);
    }
    String inner = displays.stream().map(Display::words).collect(Collectors.joining(" or "));
    return displays.size() == 1 ? inner : "(" + inner + ")";
  }
}
