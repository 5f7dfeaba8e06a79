package dev.doublet.failure;

import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;

/**
 * How a signal stands: what its heads still shine, and the plates that are still there. Each fault
 * makes another condition of it, so that faults add up.
 *
 * @param heads top to bottom
 * @param plates sorted
 */
public record Condition(List<Head> heads, List<String> plates) {

  /** Copies the lists. */
  public Condition {
    heads = List.copyOf(heads);
    plates = List.copyOf(plates);
  }

  /** A signal on which nothing has failed. */
  public static Condition of(List<Display> picture, List<String> plates) {
    return new Condition(picture.stream().map(Head::whole).toList(), plates);
  }

  /** The same with one head changed. */
  Condition with(int head, UnaryOperator<Head> change) {
    List<Head> changed = new ArrayList<>(heads);
    changed.set(head, change.apply(heads.get(head)));
    return new Condition(changed, plates);
  }

  /** The same without a plate. */
  Condition without(String plate) {
    return new Condition(heads, plates.stream().filter(p -> !p.equals(plate)).toList());
  }
}
