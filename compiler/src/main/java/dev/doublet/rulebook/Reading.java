package dev.doublet.rulebook;

import java.util.ArrayList;
import java.util.Collection;
import java.util.List;

/** What a crew reads from a picture. */
public final class Reading {
  private Reading() {}

  /**
   * One way in which a picture is covered.
   *
   * @param aspect the aspect read
   * @param pattern the pattern that covers the picture
   */
  public record Reads(Aspect aspect, Pattern pattern) {}

  /**
   * Everything that a picture means on a signal: of the patterns that cover it and name no plate
   * the signal lacks, those that no more specific one outdoes. Empty when it means nothing; more
   * than one aspect when the book is ambiguous.
   */
  public static List<Reads> of(
      Rulebook book, Form form, Collection<String> plates, List<Display> picture) {
    List<Reads> covering = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : aspect.patternsOn(form)) {
        if (plates.containsAll(pattern.plates()) && pattern.covers(picture)) {
          covering.add(new Reads(aspect, pattern));
        }
      }
    }
    return covering.stream()
        .filter(r -> covering.stream().noneMatch(o -> o.pattern().moreSpecificThan(r.pattern())))
        .toList();
  }
}
