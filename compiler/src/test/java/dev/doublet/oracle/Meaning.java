package dev.doublet.oracle;

import dev.doublet.oracle.Sketch.By;
import dev.doublet.oracle.Sketch.One;
import dev.doublet.oracle.Sketch.Signal;
import dev.doublet.oracle.Sketch.Unit;
import java.math.BigInteger;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiFunction;
import java.util.function.Function;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * What a sketch means, as formulas: a variable for each head, with every display as a value, and
 * one for each plate, carried or not. A pattern holds where its plates are carried and its choices
 * accept the displays, unless a pattern holds that names its plates and more.
 *
 * @param <F> a formula of the solver asked
 */
final class Meaning<F> {
  private final Sketch sketch;
  private final Function<List<Integer>, Logic<F>> solver;

  Meaning(Sketch sketch, Function<List<Integer>, Logic<F>> solver) {
    this.sketch = sketch;
    this.solver = solver;
  }

  /** One alternative of one line on one form. */
  private record Shown(String aspect, Set<String> plates, List<List<String>> choices) {
    boolean outdoes(Shown other) {
      return plates.size() > other.plates.size() && plates.containsAll(other.plates);
    }
  }

  /**
   * Two aspects that look alike on some forms.
   *
   * @param aspects those of many numbers by the name of all; one alone if two of its numbers do
   */
  record Twins(Set<String> forms, Set<String> aspects) {}

  /** All twins. */
  Set<Twins> twins() {
    return twins((all, places) -> meetings(all, places, sketch.displays()));
  }

  /** All that a crew tells apart by the positions of arms, and by night does not. */
  Set<Twins> twinsByNight() {
    return sketch.byNight().isEmpty() ? Set.of() : twins(this::meetingsByNight);
  }

  private Set<Twins> twins(BiFunction<List<Shown>, Integer, Set<Set<String>>> meetings) {
    Map<Set<String>, Integer> looks = new HashMap<>();
    sketch.forms().forEach(f -> looks.put(sketch.alike(f), f.places()));
    Set<Twins> twins = new HashSet<>();
    looks.forEach(
        (forms, places) ->
            meetings
                .apply(shown(forms), places)
                .forEach(pair -> twins.add(new Twins(forms, pair))));
    return twins;
  }

  /** All that a crew does not tell apart by night, whether it does by day or not. */
  Set<Twins> alikeByNight() {
    return sketch.byNight().isEmpty()
        ? Set.of()
        : twins(
            (all, places) ->
                meetings(all.stream().map(this::byNight).toList(), places, litByNight()));
  }

  private Set<Set<String>> meetingsByNight(List<Shown> all, int places) {
    Logic<F> logic = logic(places);
    List<List<String>> displays = places(places, sketch.displays());
    List<F> day = all.stream().map(s -> covers(logic, s, displays)).toList();
    List<Shown> dim = all.stream().map(this::byNight).toList();
    List<F> night = reading(logic, dim, pattern -> holds(logic, pattern, places));
    F lit = showing(logic, places, litByNight());
    Set<Set<String>> meetings = new HashSet<>();
    for (int i = 0; i < all.size(); i++) {
      for (int k = 0; k < i; k++) {
        Set<String> pair = new TreeSet<>(List.of(family(all.get(i)), family(all.get(k))));
        if (pair.size() == 2
            && !meetings.contains(pair)
            && logic.possible(List.of(lit, night.get(i), night.get(k)))
            && !logic.possible(List.of(day.get(i), day.get(k)))) {
          meetings.add(pair);
        }
      }
    }
    return meetings;
  }

  private Shown byNight(Shown shown) {
    Map<String, String> lamps = sketch.byNight();
    return new Shown(
        shown.aspect,
        shown.plates,
        shown.choices.stream()
            .map(c -> c.stream().map(d -> lamps.getOrDefault(d, d)).toList())
            .toList());
  }

  /** What can be seen by night: no position of an arm, which {@code any} accepts by day. */
  private Set<String> litByNight() {
    Map<String, String> lamps = sketch.byNight();
    Set<String> lit = new TreeSet<>();
    sketch.displays().forEach(d -> lit.add(lamps.getOrDefault(d, d)));
    return lit;
  }

  private Set<Set<String>> meetings(List<Shown> all, int places, Collection<String> displays) {
    Logic<F> logic = logic(places);
    List<F> reading = reading(logic, all, pattern -> holds(logic, pattern, places));
    F seen = showing(logic, places, displays);
    Set<Set<String>> meetings = new HashSet<>();
    for (int i = 0; i < all.size(); i++) {
      for (int k = 0; k < i; k++) {
        Set<String> pair = new TreeSet<>(List.of(family(all.get(i)), family(all.get(k))));
        if (!all.get(i).aspect.equals(all.get(k).aspect)
            && !meetings.contains(pair)
            && logic.possible(List.of(seen, reading.get(i), reading.get(k)))) {
          meetings.add(pair);
        }
      }
    }
    return meetings;
  }

  private Logic<F> logic(int places) {
    List<Integer> sizes = new ArrayList<>();
    IntStream.range(0, places).forEach(p -> sizes.add(sketch.displays().size()));
    sketch.plates().forEach(p -> sizes.add(2));
    return solver.apply(sizes);
  }

  private String family(Shown shown) {
    return sketch.family(shown.aspect);
  }

  /** Where every head shows one of some displays. */
  private F showing(Logic<F> logic, int places, Collection<String> displays) {
    List<Integer> values = displays.stream().map(sketch.displays()::indexOf).toList();
    return logic.all(
        IntStream.range(0, places).mapToObj(place -> logic.oneOf(place, values)).toList());
  }

  private F holds(Logic<F> logic, Shown pattern, int places) {
    List<F> parts = new ArrayList<>();
    pattern.plates.forEach(
        plate -> parts.add(logic.oneOf(places + sketch.plates().indexOf(plate), List.of(1))));
    parts.add(covers(logic, pattern, places(places, sketch.displays())));
    return logic.all(parts);
  }

  /** For each pattern where the crew reads it: where it holds and none that outdoes it does. */
  private List<F> reading(Logic<F> logic, List<Shown> all, Function<Shown, F> holds) {
    List<F> holding = all.stream().map(holds).toList();
    List<F> reading = new ArrayList<>();
    for (int i = 0; i < all.size(); i++) {
      List<F> parts = new ArrayList<>(List.of(holding.get(i)));
      for (int k = 0; k < all.size(); k++) {
        if (all.get(k).outdoes(all.get(i))) {
          parts.add(logic.not(holding.get(k)));
        }
      }
      reading.add(logic.all(parts));
    }
    return reading;
  }

  /** Where each head shows what the pattern accepts, of the displays that it can show. */
  private F covers(Logic<F> logic, Shown pattern, List<List<String>> displays) {
    List<F> parts = new ArrayList<>();
    for (int place = 0; place < displays.size(); place++) {
      List<String> choice = pattern.choices.get(place);
      if (!choice.isEmpty()) {
        List<String> able = displays.get(place);
        parts.add(
            logic.oneOf(
                place,
                IntStream.range(0, able.size())
                    .filter(i -> choice.contains(able.get(i)))
                    .boxed()
                    .toList()));
      }
    }
    return logic.all(parts);
  }

  private static List<List<String>> places(int count, List<String> displays) {
    return IntStream.range(0, count).mapToObj(p -> displays).toList();
  }

  private List<Shown> shown(Collection<String> forms) {
    List<Shown> all = new ArrayList<>();
    for (One aspect : sketch.ones()) {
      for (Sketch.Pattern pattern : aspect.patterns()) {
        if (forms.contains(pattern.form().name())) {
          all.add(new Shown(aspect.name(), pattern.plates(), pattern.choices()));
        }
      }
    }
    return all;
  }

  /** The patterns on a signal's form that name no plate it lacks. */
  private List<Shown> held(Signal signal) {
    return shown(List.of(signal.form().name())).stream()
        .filter(s -> signal.plates().containsAll(s.plates))
        .toList();
  }

  /** What the heads of a signal can show. */
  private List<List<String>> able(Signal signal) {
    return signal.heads().stream()
        .map(head -> sketch.displays().stream().filter(head::canShow).toList())
        .toList();
  }

  /** How many pictures a signal's heads can make. */
  BigInteger pictures(Signal signal) {
    return able(signal).stream()
        .map(displays -> BigInteger.valueOf(displays.size()))
        .reduce(BigInteger.ONE, BigInteger::multiply);
  }

  /** How many of them mean nothing. */
  BigInteger meaningless(Signal signal) {
    Logic<F> logic = onHeads(signal);
    return logic.count(meaningless(logic, signal));
  }

  /** Whether any of them means nothing. */
  boolean anyMeaningless(Signal signal) {
    Logic<F> logic = onHeads(signal);
    return logic.possible(List.of(meaningless(logic, signal)));
  }

  private Logic<F> onHeads(Signal signal) {
    return solver.apply(able(signal).stream().map(List::size).toList());
  }

  private F meaningless(Logic<F> logic, Signal signal) {
    List<List<String>> able = able(signal);
    return logic.not(logic.any(held(signal).stream().map(p -> covers(logic, p, able)).toList()));
  }

  /**
   * The values that can reach a unit and call up nothing.
   *
   * @return nothing as well where nothing is asked: the layout says what happens, there is nothing
   *     to call up, or values have no numbers
   */
  List<Integer> unanswered(Signal signal, Unit unit) {
    boolean numbered = unit.by() != By.TOPIC && unit.by() != By.EVENT;
    if (!numbered || !isAsked(signal, unit)) {
      return List.of();
    }
    Map<Integer, String> said = said(signal, unit);
    Set<Integer> answered = new TreeSet<>();
    List<String> callable = callable(signal, unit);
    said.forEach(
        (value, name) -> {
          if (callable.contains(name)) {
            answered.add(value);
          }
        });
    int highest = said.keySet().stream().mapToInt(v -> v).max().orElse(0);
    int capacity =
        switch (unit.by()) {
          case ASPECT_NUMBER -> 1 << unit.bits();
          case BINARY_CODED -> binary(unit.addresses(), highest);
          default -> 2 * (unit.addresses() > 0 ? unit.addresses() : highest / 2 + 1);
        };
    Logic<F> logic = solver.apply(List.of(capacity));
    answered.removeIf(value -> value >= capacity);
    F nothing = logic.not(logic.oneOf(0, answered));
    return IntStream.range(0, capacity)
        .filter(value -> logic.possible(List.of(nothing, logic.oneOf(0, List.of(value)))))
        .boxed()
        .toList();
  }

  /** Whether something is to be said of values that call up nothing, if there are any. */
  boolean isAsked(Signal signal, Unit unit) {
    return unit.otherwise().isEmpty() && !callable(signal, unit).isEmpty();
  }

  private static int binary(int addresses, int highest) {
    int capacity = addresses > 0 ? 1 << addresses : 2;
    while (addresses == 0 && capacity <= highest) {
      capacity *= 2;
    }
    return capacity;
  }

  /** What each value is meant to call up, whether it can be shown or not. */
  private Map<Integer, String> said(Signal signal, Unit unit) {
    if (!unit.values().isEmpty()) {
      return unit.values();
    }
    List<String> names = unit.shows().isEmpty() ? names(signal) : unit.shows();
    Map<Integer, String> said = new HashMap<>();
    for (String name : names) {
      boolean byNumber = unit.by() == By.ASPECT_NUMBER && !signal.byHead();
      said.put(byNumber ? number(name) : said.size(), name);
    }
    return said;
  }

  private int number(String name) {
    return sketch.ones().stream()
        .filter(a -> a.name().equals(name))
        .mapToInt(One::number)
        .findFirst()
        .orElseThrow();
  }

  /** What can be called up: displays of a head, or aspects that the heads can show. */
  private List<String> callable(Signal signal, Unit unit) {
    if (signal.byHead()) {
      return unit.shows();
    }
    boolean byValues = signal.aspects().isEmpty() && !unit.values().isEmpty();
    Collection<String> names = byValues ? new TreeSet<>(unit.values().values()) : names(signal);
    return names.stream().filter(name -> isShown(name, signal)).toList();
  }

  /** The aspects a signal lists, or those that it can put up and a crew then reads, by number. */
  private List<String> names(Signal signal) {
    if (!signal.aspects().isEmpty()) {
      return signal.aspects().stream().flatMap(name -> ones(name, signal)).toList();
    }
    List<Shown> held = held(signal);
    List<List<String>> displays = places(signal.form().places(), sketch.displays());
    Logic<F> logic = solver.apply(displays.stream().map(List::size).toList());
    List<F> reading = reading(logic, held, pattern -> covers(logic, pattern, displays));
    return sketch.ones().stream()
        .map(One::name)
        .filter(name -> isRead(logic, name, held, reading))
        .filter(name -> sketch.family(name).equals(name) || isShown(name, signal))
        .toList();
  }

  /** The names of all that a name speaks of: of many numbers those for which there are lamps. */
  private Stream<String> ones(String said, Signal signal) {
    return sketch.ones().stream()
        .filter(o -> o.name().equals(said) || o.family().equals(said) && isShown(o.name(), signal))
        .map(One::name);
  }

  private boolean isShown(String name, Signal signal) {
    return held(signal).stream()
        .anyMatch(s -> s.aspect.equals(name) && Sketch.canShow(signal.heads(), s.choices));
  }

  private boolean isRead(Logic<F> logic, String aspect, List<Shown> held, List<F> reading) {
    List<Integer> own =
        IntStream.range(0, held.size())
            .filter(i -> held.get(i).aspect.equals(aspect))
            .boxed()
            .toList();
    F read = logic.any(own.stream().map(reading::get).toList());
    return own.stream()
        .anyMatch(
            i -> {
              List<F> parts = new ArrayList<>(List.of(read));
              List<List<String>> choices = held.get(i).choices;
              for (int place = 0; place < choices.size(); place++) {
                List<String> choice = choices.get(place);
                String put = choice.isEmpty() ? Sketch.DARK : choice.get(0);
                parts.add(logic.oneOf(place, List.of(sketch.displays().indexOf(put))));
              }
              return logic.possible(parts);
            });
  }

  /** Whether every picture that an expectation speaks of is read as it says. */
  boolean holds(Sketch.Expected expected) {
    return sketch.each(expected).stream().allMatch(this::holdsOfOne);
  }

  private boolean holdsOfOne(Sketch.Expected expected) {
    List<Shown> held =
        shown(List.of(expected.form().name())).stream()
            .filter(s -> expected.plates().containsAll(s.plates))
            .toList();
    List<List<String>> displays = places(expected.form().places(), sketch.displays());
    Logic<F> logic = solver.apply(displays.stream().map(List::size).toList());
    List<F> reading = reading(logic, held, pattern -> covers(logic, pattern, displays));
    List<F> meant = new ArrayList<>();
    List<F> others = new ArrayList<>();
    for (int i = 0; i < held.size(); i++) {
      (held.get(i).aspect.equals(expected.aspect()) ? meant : others).add(reading.get(i));
    }
    if (!expected.aspect().isEmpty()) {
      others.add(logic.not(logic.any(meant)));
    }
    return expected.pictures().stream()
        .map(p -> covers(logic, new Shown("", Set.of(), p), displays))
        .noneMatch(seen -> logic.possible(List.of(seen, logic.any(others))));
  }

  /** What a crew reads from a picture on any of some forms that carry some plates. */
  Set<String> read(Collection<String> forms, Collection<String> plates, List<String> picture) {
    List<Shown> holding =
        shown(forms).stream()
            .filter(s -> plates.containsAll(s.plates))
            .filter(
                s ->
                    IntStream.range(0, picture.size())
                        .allMatch(
                            i ->
                                s.choices.get(i).isEmpty()
                                    || s.choices.get(i).contains(picture.get(i))))
            .toList();
    Set<String> read = new TreeSet<>();
    holding.stream()
        .filter(s -> holding.stream().noneMatch(other -> other.outdoes(s)))
        .forEach(s -> read.add(s.aspect));
    return read;
  }
}
