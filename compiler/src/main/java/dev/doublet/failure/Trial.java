package dev.doublet.failure;

import dev.doublet.rulebook.Fault;
import java.util.ArrayList;
import java.util.List;

/**
 * One fault of a signal or two at once, and what is then seen.
 *
 * @param failures what failed, in the order in which single faults are tried
 * @param after how the signal then stands
 * @param seen each head, top to bottom
 */
public record Trial(List<Failure> failures, Condition after, List<Glimpse> seen) {

  /** Copies the lists. */
  public Trial {
    failures = List.copyOf(failures);
    seen = List.copyOf(seen);
  }

  /** One fault of a signal. */
  public static Trial of(Condition before, Failure failure) {
    return of(List.of(failure), failure.of(before));
  }

  /** Several faults of a signal at once. */
  public static Trial of(Condition before, List<Failure> failures) {
    Condition after = before;
    for (Failure failure : failures) {
      after = failure.of(after);
    }
    return of(failures, after);
  }

  /** The same with one more fault. */
  Trial and(Failure more) {
    List<Failure> all = new ArrayList<>(failures);
    all.add(more);
    return of(all, more.of(after));
  }

  private static Trial of(List<Failure> failures, Condition after) {
    return new Trial(failures, after, after.seen());
  }

  /** The kinds of the faults, as many as there are faults, sorted. */
  public List<Fault> faults() {
    return failures.size() == 1
        ? List.of(failures.get(0).kind())
        : failures.stream().map(Failure::kind).sorted().toList();
  }

  /** The plates that are still there, sorted. */
  List<String> plates() {
    return after.plates();
  }

  /** What tells it from other trials: which kinds of faults, and what a crew then has before it. */
  Object result() {
    return result(faults(), seen, plates());
  }

  /** The result of faults of some kinds that leave this to be seen. */
  static Object result(List<Fault> faults, List<Glimpse> seen, List<String> plates) {
    return List.of(faults, seen, plates);
  }
}
