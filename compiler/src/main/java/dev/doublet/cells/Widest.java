package dev.doublet.cells;

import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;
import java.util.function.Function;

/** Keeps of many sets those that lie in no other, so that what is alike is told once. */
public final class Widest {
  private Widest() {}

  /** The things whose sets lie in no other's, in their order; of equal sets the first. */
  public static <T> List<T> of(List<T> things, Function<T, BitSet> set) {
    List<T> widest = new ArrayList<>();
    for (T thing : things) {
      BitSet its = set.apply(thing);
      if (widest.stream().noneMatch(known -> holds(set.apply(known), its))) {
        widest.removeIf(known -> holds(its, set.apply(known)));
        widest.add(thing);
      }
    }
    return widest;
  }

  /** True when every member of one set is in another. */
  public static boolean holds(BitSet more, BitSet few) {
    BitSet rest = (BitSet) few.clone();
    rest.andNot(more);
    return rest.isEmpty();
  }
}
