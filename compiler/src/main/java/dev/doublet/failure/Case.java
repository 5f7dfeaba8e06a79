package dev.doublet.failure;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Extremes;
import dev.doublet.rulebook.Reading.Reads;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Optional;

/**
 * One fault, or two at once, tried while a signal shows one aspect.
 *
 * @param shown the aspect that should be seen, and how
 * @param trial what failed
 * @param read what the crew may take it for
 * @param verdict the worst that can be said of that
 * @param worst the reading of which it is said
 */
public record Case(
    Site.AspectPicture shown, Trial trial, Crew.Read read, Verdict verdict, Reads worst) {

  /** Weighs one trial. */
  public static Case of(Site.AspectPicture shown, Trial trial, Crew crew) {
    return of(shown, trial, crew.read(trial.seen(), trial.plates()));
  }

  /**
   * Weighs one trial by what the crew makes of it. A picture that still means the aspect is no harm
   * that the fault does: that it means another as well is an error of the book, whatever fails.
   */
  public static Case of(Site.AspectPicture shown, Trial trial, Crew.Read seen) {
    List<Reads> same =
        seen.reads().stream().filter(r -> r.aspect().name().equals(shown.aspect().name())).toList();
    Crew.Read read = seen.defined() && !same.isEmpty() ? new Crew.Read(true, same) : seen;
    EnumMap<Verdict, List<Reads>> weighed = new EnumMap<>(Verdict.class);
    for (Reads one : read.reads()) {
      weighed.computeIfAbsent(verdict(one, shown.aspect()), v -> new ArrayList<>()).add(one);
    }
    if (weighed.isEmpty()) {
      throw new IllegalArgumentException("a crew makes something of every picture");
    }
    Verdict worst = weighed.keySet().iterator().next();
    return new Case(shown, trial, read, worst, widest(weighed.get(worst)));
  }

  /**
   * This case with only those of its hazardous readings that other cases do not tell of: none of
   * theirs permits as much. Empty when all are told.
   */
  Optional<Case> beyond(List<Case> others) {
    List<Reads> told = others.stream().flatMap(c -> c.hazardous().stream()).toList();
    List<Reads> left =
        hazardous().stream().filter(r -> told.stream().noneMatch(t -> covers(t, r))).toList();
    return left.isEmpty()
        ? Optional.empty()
        : Optional.of(of(shown, trial, new Crew.Read(read.defined(), left)));
  }

  /** What it may be read as that permits more than was meant, or of which nobody can say. */
  List<Reads> hazardous() {
    return read.reads().stream().filter(r -> verdict(r, meant()) != Verdict.NO_MORE).toList();
  }

  private static boolean covers(Reads told, Reads reads) {
    return told.aspect().equals(reads.aspect())
        || reads.aspect().permission().atLeastAsRestrictiveAs(told.aspect().permission());
  }

  /** The aspect that should be seen. */
  public Aspect meant() {
    return shown.aspect();
  }

  /** True when the crew may go on with more than was meant. */
  public boolean isFalseProceed() {
    return verdict == Verdict.MORE;
  }

  /** True when nobody can say whether it may. */
  boolean isUnknown() {
    return verdict == Verdict.UNKNOWN;
  }

  /** True when the crew is known to do no more than was meant. */
  public boolean isSafe() {
    return !isFalseProceed() && !isUnknown();
  }

  private static Verdict verdict(Reads read, Aspect meant) {
    return Verdict.of(read.aspect().permission(), meant.permission());
  }

  /** The first that no other is known to permit more than. */
  private static Reads widest(List<Reads> among) {
    return among.size() == 1
        ? among.get(0)
        : Extremes.leastRestrictive(among, r -> r.aspect().permission()).stream()
            .findFirst()
            .orElse(among.get(0));
  }
}
