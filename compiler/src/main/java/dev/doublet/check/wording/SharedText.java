package dev.doublet.check.wording;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.rulebook.Aspect;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Function;

/**
 * A text that several aspects of a book have in common.
 *
 * @param text what it says
 * @param aspects at least two, in file order
 */
record SharedText(String text, List<Aspect> aspects) {
  private static final int MOST_PLACES = 4;

  /** Every one of a book, by its first aspect. */
  static List<SharedText> of(List<Aspect> aspects, Function<Aspect, String> text) {
    Map<String, List<Aspect>> by = new LinkedHashMap<>();
    aspects.stream()
        .filter(a -> !text.apply(a).isBlank())
        .sorted(Comparator.comparing(Aspect::span))
        .forEach(a -> by.computeIfAbsent(text.apply(a), t -> new ArrayList<>()).add(a));
    List<SharedText> shared = new ArrayList<>();
    by.forEach((said, its) -> shared.add(new SharedText(said, its)));
    shared.removeIf(s -> s.aspects.size() == 1);
    return shared;
  }

  /** Where a message about it points: the text of the second is what may be a slip. */
  Aspect second() {
    return aspects.get(1);
  }

  /** The names of all. */
  List<String> names() {
    return aspects.stream().map(Aspect::name).toList();
  }

  /** A finding with the places of the others, as far as they help. */
  Diagnostic places(Diagnostic finding, String label) {
    Diagnostic said = finding.related(aspects.get(0).span(), label);
    for (Aspect other : aspects.subList(2, Math.min(MOST_PLACES, aspects.size()))) {
      said = said.related(other.span(), label);
    }
    int more = aspects.size() - MOST_PLACES;
    return more > 0 ? said.fact("not shown", more + " more aspects") : said;
  }
}
