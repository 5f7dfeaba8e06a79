package dev.doublet.rulebook;

import dev.doublet.rulebook.Permission.Standing;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Comparator;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;

/**
 * Which aspects may stand at the signals ahead of one another, from what each permits. An aspect
 * may follow another when it asks no more of a train than the train was told to be ready for.
 */
public final class Sequence {
  private final List<Aspect> aspects;

  /** Which aspects, by their place in the book, may follow one of each permission. */
  private final Map<Permission, BitSet> next = new LinkedHashMap<>();

  private Sequence(List<Aspect> aspects) {
    this.aspects = aspects;
    aspects.forEach(a -> next.computeIfAbsent(a.permission(), this::following));
  }

  private BitSet following(Permission told) {
    BitSet following = new BitSet();
    for (int i = 0; i < aspects.size(); i++) {
      if (mayFollow(told, aspects.get(i).permission())) {
        following.set(i);
      }
    }
    return following;
  }

  /** Works out which of a rulebook's aspects may follow which, each of one number. */
  public static Sequence of(Rulebook book) {
    return new Sequence(book.aspects().stream().flatMap(a -> a.each().stream()).toList());
  }

  /**
   * True when a train that obeys one aspect is known to be ready for another at the next signal. A
   * train that moves on sight is ready for anything; one that is held is going nowhere.
   */
  public static boolean mayFollow(Aspect here, Aspect ahead) {
    return mayFollow(here.permission(), ahead.permission());
  }

  private static boolean mayFollow(Permission told, Permission met) {
    return !(told.here() instanceof Movement.Stop)
        && isReady(told.announced(), met.here())
        && (told.second() instanceof Movement.Unsaid
            || met.here() instanceof Movement.Stop
            || isReady(told.second(), met.announced()));
  }

  /** True when an aspect announces exactly what another permits. */
  public static boolean announces(Aspect here, Aspect ahead) {
    return isExactly(here.permission().announced(), ahead.permission().here())
        && mayFollow(here, ahead);
  }

  /**
   * A train that comes as it was told is ready when it need not come slower. One that was told only
   * that it need not stop slows down for what it then sees.
   */
  private static boolean isReady(Movement told, Movement met) {
    return told instanceof Movement.NotStop
        ? !met.entry().equals(Pace.NONE)
        : told.entry().atMost(met.entry());
  }

  /** True when a signal permits just what was told of it; how fast a train goes on is its own. */
  private static boolean isExactly(Movement told, Movement met) {
    return told instanceof Movement.NotStop && isReady(told, met)
        || told instanceof Movement.Proceed
            && met instanceof Movement.Reducing
            && told.entry().equals(met.entry())
        || told.equals(met);
  }

  /** The aspects that may stand at the next signal, in book order. */
  public List<Aspect> next(Aspect here) {
    return aspects(next.get(here.permission()));
  }

  /** The aspects that permit exactly what an aspect says of the next signal, in book order. */
  public List<Aspect> announced(Aspect here) {
    return next(here).stream().filter(a -> announces(here, a)).toList();
  }

  /**
   * The aspects that a train is told of at the second signal, in book order: those that permit
   * exactly what is said of it and that something at the next signal leads to; or, when nothing is
   * said of it, those that are announced by what is announced. Less restrictive ones may stand
   * there too.
   */
  public List<Aspect> second(Aspect here) {
    Movement told = here.permission().second();
    List<Aspect> between = told instanceof Movement.Unsaid ? announced(here) : next(here);
    return aspects.stream()
        .filter(
            a ->
                between.stream()
                    .anyMatch(
                        n ->
                            told instanceof Movement.Unsaid
                                ? announces(n, a)
                                : isExactly(told, a.permission().here()) && mayFollow(n, a)))
        .toList();
  }

  /** The aspects after which an aspect may stand, in book order. */
  public List<Aspect> before(Aspect ahead) {
    return aspects.stream().filter(a -> mayFollow(a, ahead)).toList();
  }

  /**
   * Aspects that no other is known to exceed. What is in no known order is not among them: nobody
   * knows whether it is fast, or what comes after it.
   */
  public List<Aspect> fastest() {
    Set<Permission> all = next.keySet();
    Set<Permission> fastest =
        all.stream()
            .filter(p -> isRanked(p.here()))
            .filter(p -> p.announced() instanceof Movement.Stop || isRanked(p.announced()))
            .filter(p -> all.stream().noneMatch(q -> p.against(q) == Standing.MORE_RESTRICTIVE))
            .collect(Collectors.toSet());
    return aspects.stream().filter(a -> fastest.contains(a.permission())).toList();
  }

  /** Every aspect that a train may come to after one, signal by signal, nearest first. */
  public List<Aspect> reached(Aspect from) {
    BitSet known = new BitSet();
    List<Aspect> reached = new ArrayList<>();
    Set<Permission> seen = new HashSet<>();
    Deque<Permission> open = new ArrayDeque<>(List.of(from.permission()));
    while (!open.isEmpty()) {
      BitSet ahead = (BitSet) next.get(open.remove()).clone();
      ahead.andNot(known);
      known.or(ahead);
      for (Aspect aspect : aspects(ahead)) {
        reached.add(aspect);
        if (seen.add(aspect.permission())) {
          open.add(aspect.permission());
        }
      }
    }
    return reached;
  }

  /** All aspects, those that more others are known to be more restrictive than first. */
  public List<Aspect> leastRestrictiveFirst() {
    Map<Permission, Long> below = new HashMap<>();
    for (Permission one : next.keySet()) {
      below.put(
          one,
          aspects.stream()
              .filter(a -> a.permission().against(one) == Standing.MORE_RESTRICTIVE)
              .count());
    }
    return aspects.stream()
        .sorted(Comparator.comparingLong(a -> -below.get(a.permission())))
        .toList();
  }

  private List<Aspect> aspects(BitSet places) {
    return places.stream().mapToObj(aspects::get).toList();
  }

  private static boolean isRanked(Movement movement) {
    return movement instanceof Movement.Proceed && movement.entry().isRanked();
  }
}
