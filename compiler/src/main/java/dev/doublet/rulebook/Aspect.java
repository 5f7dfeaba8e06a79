package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.List;

/**
 * An aspect: one name, one permission, and the patterns that show it.
 *
 * @param name as the rulebook says it
 * @param was names that it had in earlier editions, in the order written
 * @param rule the rule's number in the rulebook; may be empty
 * @param number the value that calls it up on a bus, 0 to 255; -1 when none is given
 * @param indication what it tells the crew to do, in the rulebook's words; may be empty
 * @param permission what it allows
 * @param patterns every alternative on every form, in the order written
 * @param span where it is named
 * @param permissionSpan where its permission is written
 */
public record Aspect(
    String name,
    List<String> was,
    String rule,
    int number,
    String indication,
    Permission permission,
    List<Pattern> patterns,
    Span span,
    Span permissionSpan) {
  /** The {@link #number} of an aspect that has none. */
  public static final int NO_NUMBER = -1;

  /** Copies the lists. */
  public Aspect {
    was = List.copyOf(was);
    patterns = List.copyOf(patterns);
  }

  /** Cheap, as names are unique in a book. */
  @Override
  public int hashCode() {
    return name.hashCode();
  }

  /** The same with other patterns. */
  public Aspect with(List<Pattern> others) {
    return new Aspect(
        name, was, rule, number, indication, permission, others, span, permissionSpan);
  }

  /** The same with what it has from another aspect. */
  Aspect completed(List<Pattern> all, Permission allowed, Span allowedSpan) {
    return new Aspect(name, was, rule, number, indication, allowed, all, span, allowedSpan);
  }

  /** The patterns on one form, in the order written. */
  public List<Pattern> patternsOn(Form form) {
    return patterns.stream().filter(p -> p.form().equals(form)).toList();
  }
}
