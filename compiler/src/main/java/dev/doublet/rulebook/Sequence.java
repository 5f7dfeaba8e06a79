package dev.doublet.rulebook;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Which aspects may stand at the signals ahead of one another, from what each permits. An aspect
 * may follow another when it asks no more of a train than the train was told to be ready for.
 */
public final class Sequence {
  private final List<Aspect> aspects;
  private final Map<Aspect, List<Aspect>> next = new LinkedHashMap<>();

  private Sequence(List<Aspect> aspects) {
    this.aspects = aspects;
    for (Aspect here : aspects) {
      next.put(here, aspects.stream().filter(a -> mayFollow(here, a)).toList());
    }
  }

  /** Works out which of a rulebook's aspects may follow which. */
  public static Sequence of(Rulebook book) {
    return new Sequence(book.aspects());
  }

  /**
   * What an aspect tells a train to be ready for at the next signal. One that speaks of the second
   * signal alone leaves the train at its speed until then.
   */
  public static Movement announced(Permission permission) {
    boolean secondAlone =
        permission.next() instanceof Movement.Unsaid
            && !(permission.second() instanceof Movement.Unsaid);
    return secondAlone ? permission.here() : permission.next();
  }

  /**
   * True when a train that obeys one aspect is known to be ready for another at the next signal. A
   * train that moves on sight is ready for anything; one that is held, or was told nothing, is not
   * known to be ready.
   */
  public static boolean mayFollow(Aspect here, Aspect ahead) {
    Permission told = here.permission();
    if (told.here() instanceof Movement.Stop) {
      return false;
    }
    Movement announced = announced(told);
    if (announced instanceof Movement.Unsaid) {
      return told.here().onSight();
    }
    Permission met = ahead.permission();
    return announced.permitsNoMoreThan(met.here())
        && (told.second() instanceof Movement.Unsaid
            || met.here() instanceof Movement.Stop
            || told.second().permitsNoMoreThan(announced(met)));
  }

  /** True when an aspect announces exactly what another permits. */
  public static boolean announces(Aspect here, Aspect ahead) {
    Permission told = here.permission();
    boolean says =
        !(told.here() instanceof Movement.Stop)
            && !(announced(told) instanceof Movement.Unsaid)
            && announced(told).equals(ahead.permission().here());
    return says && mayFollow(here, ahead);
  }

  /** The aspects that may stand at the next signal, in book order. */
  public List<Aspect> next(Aspect here) {
    return next.get(here);
  }

  /**
   * The aspects that may stand at the second signal, in book order. What an aspect tells of the
   * second signal is kept by every aspect that may follow it, and so needs no second look.
   */
  public List<Aspect> second(Aspect here) {
    Set<Aspect> reached = new LinkedHashSet<>();
    next(here).forEach(a -> reached.addAll(next(a)));
    return aspects.stream().filter(reached::contains).toList();
  }

  /** The aspects after which an aspect may stand, in book order. */
  public List<Aspect> before(Aspect ahead) {
    return aspects.stream().filter(a -> next(a).contains(ahead)).toList();
  }

  /**
   * Aspects that no other is known to exceed. What is in no known order, or says nothing of the
   * next signal, is not among them: nobody knows whether it is fast, or what comes after it.
   */
  public List<Aspect> fastest() {
    return aspects.stream()
        .filter(a -> isRanked(a.permission().here()))
        .filter(
            a ->
                announced(a.permission()) instanceof Movement.Stop
                    || isRanked(announced(a.permission())))
        .filter(
            a ->
                aspects.stream()
                    .noneMatch(
                        b ->
                            a.permission().against(b.permission())
                                == Permission.Standing.MORE_RESTRICTIVE))
        .toList();
  }

  /** Every aspect that a train may come to after one, signal by signal, nearest first. */
  public List<Aspect> reached(Aspect from) {
    Set<Aspect> reached = new LinkedHashSet<>();
    Deque<Aspect> open = new ArrayDeque<>(List.of(from));
    while (!open.isEmpty()) {
      for (Aspect ahead : next(open.remove())) {
        if (reached.add(ahead)) {
          open.add(ahead);
        }
      }
    }
    return List.copyOf(reached);
  }

  private static boolean isRanked(Movement movement) {
    return movement instanceof Movement.Proceed proceed
        && proceed.speed().rank() != Speed.Rank.UNRANKED;
  }
}
