package dev.doublet.rulebook;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** What a crew reads from a picture. */
public final class Reading {
  private Reading() {}

  /**
   * One way in which a picture is covered.
   *
   * @param aspect the aspect read, of one number where it has letters and a picture was read
   * @param pattern the pattern that covers the picture
   */
  public record Reads(Aspect aspect, Pattern pattern) {

    /** The same with the numbers that a picture shows. */
    public Reads of(List<Display> picture) {
      Aspect seen = aspect.seenBy(pattern, picture);
      return seen == aspect ? this : new Reads(seen, pattern);
    }
  }

  /**
   * Everything that a picture means on a signal: of the patterns that cover it and name no plate
   * the signal lacks, those that no more specific one outdoes. Empty when it means nothing; more
   * than one aspect when the book is ambiguous.
   */
  public static List<Reads> of(
      Rulebook book, Form form, Collection<String> plates, List<Display> picture) {
    return of(on(book, form), plates, picture);
  }

  /** The same of patterns gathered before, for who reads many pictures of one form. */
  public static List<Reads> of(
      List<Reads> patterns, Collection<String> plates, List<Display> picture) {
    List<Reads> covering = new ArrayList<>();
    for (Reads reads : patterns) {
      if (plates.containsAll(reads.pattern().plates()) && reads.pattern().covers(picture)) {
        covering.add(reads);
      }
    }
    Map<List<String>, List<Pattern>> rivals = rivals(covering);
    return covering.stream()
        .filter(r -> !rivals.containsKey(r.pattern().plates()))
        .map(r -> r.of(picture))
        .toList();
  }

  /**
   * For each set of plates that some patterns name, the patterns that are more specific; sets of
   * which there are none are left out.
   */
  public static Map<List<String>, List<Pattern>> rivals(List<Reads> among) {
    Map<List<String>, List<Pattern>> byPlates = new LinkedHashMap<>();
    for (Reads reads : among) {
      byPlates
          .computeIfAbsent(reads.pattern().plates(), p -> new ArrayList<>())
          .add(reads.pattern());
    }
    Map<List<String>, List<Pattern>> rivals = new LinkedHashMap<>();
    byPlates.forEach(
        (few, patterns) ->
            byPlates.values().stream()
                .filter(others -> others.get(0).moreSpecificThan(patterns.get(0)))
                .forEach(o -> rivals.computeIfAbsent(few, f -> new ArrayList<>()).addAll(o)));
    return rivals;
  }

  /** Every pattern of a form with its aspect, in the order of the book. */
  public static List<Reads> on(Rulebook book, Form form) {
    List<Reads> patterns = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      aspect.patternsOn(form).forEach(p -> patterns.add(new Reads(aspect, p)));
    }
    return patterns;
  }
}
