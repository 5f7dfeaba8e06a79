package dev.doublet.facts;

import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Rulebook;
import java.util.Comparator;
import java.util.List;

/** Which patterns of an aspect hold on a signal. */
public final class Showing {
  private Showing() {}

  /**
   * The patterns on the signal's form whose plates it carries, those that name most plates first.
   */
  public static List<Pattern> carried(Signal.Build build, Aspect aspect) {
    return aspect.patternsOn(build.form()).stream()
        .filter(p -> build.plates().containsAll(p.plates()))
        .map(aspect::shownBy)
        .sorted(Comparator.comparingInt((Pattern p) -> -p.plates().size()))
        .toList();
  }

  /** Of these, the ones whose picture still means the aspect on this signal. */
  public static List<Pattern> holding(Rulebook book, Signal.Build build, Aspect aspect) {
    return carried(build, aspect).stream()
        .filter(
            p ->
                Reading.of(book, build.form(), build.plates(), p.shown()).stream()
                    .anyMatch(r -> r.aspect().isOf(aspect)))
        .toList();
  }
}
