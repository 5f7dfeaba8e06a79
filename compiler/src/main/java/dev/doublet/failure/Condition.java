package dev.doublet.failure;

import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;

/**
 * How a signal stands: what its heads still shine, and the plates that are still there. Each fault
 * makes another condition of it, so that faults add up.
 *
 * @param heads top to bottom
 * @param plates sorted
 * @param night what is made out by night of each display that an arm may be taken for then
 */
public record Condition(List<Head> heads, List<String> plates, Map<Display, Glimpse> night) {

  /** Copies the lists. */
  public Condition {
    heads = List.copyOf(heads);
    plates = List.copyOf(plates);
    night = Map.copyOf(night);
  }

  /** A signal on which nothing has failed. */
  static Condition of(List<Display> picture, List<String> plates, Map<Display, Glimpse> night) {
    return new Condition(picture.stream().map(Head::whole).toList(), plates, night);
  }

  /**
   * What is made out of each head, top to bottom. That the lamp of an arm has failed is seen by
   * night alone, when all arms are no more than their lights.
   */
  List<Glimpse> seen() {
    boolean byNight = heads.stream().anyMatch(Head::isArmWithFailedLamp);
    return heads.stream()
        .map(Head::glimpse)
        .map(g -> byNight && g.maybe().size() == 1 ? night.getOrDefault(g.display(), g) : g)
        .toList();
  }

  /** The same with one head changed. */
  Condition with(int head, UnaryOperator<Head> change) {
    List<Head> changed = new ArrayList<>(heads);
    changed.set(head, change.apply(heads.get(head)));
    return new Condition(changed, plates, night);
  }

  /** The same without a plate. */
  Condition without(String plate) {
    return new Condition(heads, plates.stream().filter(p -> !p.equals(plate)).toList(), night);
  }
}
