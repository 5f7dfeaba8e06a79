package dev.doublet.failure;

import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Proviso;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * What a crew reads of an imperfect signal on which a light still shows, before it reads it as all
 * others.
 *
 * @param all in the order in which they are asked
 * @param reads the aspect that each gives
 * @param colours for each figure of the book the colours of its lights
 */
record Provisos(List<Proviso> all, Map<Proviso, Reads> reads, Map<String, Set<String>> colours) {
  /** Where imperfect signals are all read alike. */
  static final Provisos NONE = new Provisos(List.of(), Map.of(), Map.of());

  /** Those of a rulebook, as they are read on a form. */
  static Provisos of(Rulebook book, Form form) {
    List<Proviso> all = book.failures().provisos();
    if (all.isEmpty()) {
      return NONE;
    }
    Map<Proviso, Reads> reads = new HashMap<>();
    for (Proviso proviso : all) {
      Choice any = new Choice(List.of(), proviso.span());
      List<Choice> whatever = Collections.nCopies(form.places().size(), any);
      Pattern pattern = new Pattern(form, List.of(), whatever, proviso.span());
      reads.put(proviso, new Reads(book.aspect(proviso.aspect()).orElseThrow(), pattern));
    }
    Map<String, Set<String>> colours = new TreeMap<>();
    for (HeadType head : book.heads()) {
      for (Figure figure : head.figures()) {
        Set<String> its = colours.computeIfAbsent(figure.name(), f -> new HashSet<>());
        figure.lit().stream().map(Lit::colour).forEach(its::add);
      }
    }
    return new Provisos(all, reads, colours);
  }

  /** The first that applies to a picture; none to one on which nothing can be made out. */
  Optional<Proviso> of(List<Glimpse> seen) {
    return seen.stream().anyMatch(Glimpse::isContrary)
        ? Optional.empty()
        : all.stream().filter(proviso -> applies(proviso, seen)).findFirst();
  }

  private boolean applies(Proviso proviso, List<Glimpse> seen) {
    List<Glimpse> lit =
        seen.stream().filter(g -> !g.named() || !g.display().equals(Display.DARK)).toList();
    return proviso.alone()
        ? lit.size() == 1 && shows(lit.get(0), proviso) && isPure(lit.get(0), proviso)
        : lit.stream().anyMatch(glimpse -> shows(glimpse, proviso));
  }

  private boolean shows(Glimpse glimpse, Proviso proviso) {
    return lights(glimpse).stream().anyMatch(light -> isNamed(light, proviso));
  }

  private boolean isPure(Glimpse glimpse, Proviso proviso) {
    return !glimpse.remains().strange()
        && lights(glimpse).stream().allMatch(light -> isNamed(light, proviso));
  }

  /** What shines in a head: a colour or figure, or what is left of one. */
  private static Set<Display> lights(Glimpse glimpse) {
    return glimpse.named() ? Set.of(glimpse.display()) : glimpse.remains().lamps().keySet();
  }

  private boolean isNamed(Display light, Proviso proviso) {
    Set<String> its = colours.getOrDefault(light.look(), Set.of());
    return proviso.looks().contains(light.look())
        || (proviso.alone()
            ? !its.isEmpty() && proviso.looks().containsAll(its)
            : proviso.looks().stream().anyMatch(its::contains));
  }
}
