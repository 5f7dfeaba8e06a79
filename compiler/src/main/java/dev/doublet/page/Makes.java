package dev.doublet.page;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Which make of head is drawn where. A book does not say which make stands at a place of a form;
 * drawn is one that shows what is asked for and, of those, shows the most of all that the place
 * ever shows; of equals the one that has the name of the place.
 */
final class Makes {
  private final Rulebook book;
  private final Map<Place, Set<String>> looks = new HashMap<>();
  private final Map<LookAtPlace, Optional<HeadType>> known = new HashMap<>();

  private record Place(Form form, int index) {}

  private record LookAtPlace(Place place, String look) {}

  private Makes(Rulebook book) {
    this.book = book;
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : aspect.patterns()) {
        for (int i = 0; i < pattern.choices().size(); i++) {
          Set<String> here =
              looks.computeIfAbsent(new Place(pattern.form(), i), place -> new HashSet<>());
          pattern.choices().get(i).displays().stream().map(Display::look).forEach(here::add);
        }
      }
    }
  }

  /** The makes of a book. */
  static Makes of(Rulebook book) {
    return new Makes(book);
  }

  /** The make drawn at a place for a look; empty where no make of the book shows it. */
  Optional<HeadType> at(Form form, int index, String look) {
    return known.computeIfAbsent(new LookAtPlace(new Place(form, index), look), this::find);
  }

  private Optional<HeadType> find(LookAtPlace asked) {
    List<String> ever = List.copyOf(looks.getOrDefault(asked.place(), Set.of()));
    String place = asked.place().form().places().get(asked.place().index());
    return book.heads().stream()
        .filter(head -> head.lights(asked.look()).isPresent())
        .min(
            Comparator.comparingLong((HeadType head) -> -able(head, ever))
                .thenComparing(head -> !head.name().equals(place))
                .thenComparing(HeadType::span));
  }

  private static long able(HeadType head, List<String> looks) {
    return looks.stream().filter(look -> head.lights(look).isPresent()).count();
  }
}
