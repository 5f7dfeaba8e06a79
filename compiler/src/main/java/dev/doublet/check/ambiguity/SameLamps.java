package dev.doublet.check.ambiguity;

import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** Figures with rhythms of their own, as they look when their lamps are steady. */
final class SameLamps {
  private SameLamps() {}

  /**
   * One name for all that lights the same lamps of a head, whatever their rhythms: of a look that
   * is steady by itself, its own.
   *
   * @param heads the heads of the book; the first that has the figure counts
   */
  static String name(List<HeadType> heads, String look) {
    return heads.stream()
        .filter(head -> head.flashesByItself(look))
        .findFirst()
        .map(head -> name(head, look))
        .orElse(look);
  }

  private static String name(HeadType head, String look) {
    Set<Lit> lamps = lamps(head, look);
    Set<String> looks = new TreeSet<>();
    head.figures().stream().map(Figure::name).forEach(looks::add);
    head.lamps().forEach(l -> l.colours().stream().map(Colour::name).forEach(looks::add));
    looks.removeIf(other -> !lamps(head, other).equals(lamps));
    return looks.stream()
        .filter(other -> !head.flashesByItself(other))
        .findFirst()
        .orElse(looks.iterator().next());
  }

  private static Set<Lit> lamps(HeadType head, String look) {
    return head.lights(look).orElse(List.of()).stream()
        .map(lit -> new Lit(lit.lamp(), lit.colour()))
        .collect(Collectors.toCollection(HashSet::new));
  }
}
