package dev.doublet.page;

import dev.doublet.colour.Channel;
import dev.doublet.facts.FaultWords;
import dev.doublet.failure.Case;
import dev.doublet.failure.Condition;
import dev.doublet.failure.Dies;
import dev.doublet.failure.Failure;
import dev.doublet.failure.Site;
import dev.doublet.failure.SiteFailures;
import dev.doublet.failure.Trial;
import dev.doublet.failure.Verdict;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Cover;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * What a crew reads of a signal on which one thing failed, for everything that can fail and every
 * picture that the signal can be told to show.
 *
 * @param faults what can fail
 * @param byStates what is then read, by the states of the signal's units in chain order: "3", or
 *     "0,2" where heads are commanded by themselves; nothing for a fault that is not seen then, and
 *     no entry for a picture that means no aspect
 */
record Readings(List<Fault> faults, Map<String, List<Reading>> byStates) {

  /** How a fault changes what lamps show. */
  enum How {
    /** Its LEDs are dark. */
    DARK,
    /** One die of its LED is dead: {@code what} is the die's letter. */
    DIE,
    /**
     * Those of its LEDs that are to flash are lit all the time; of several flashers those in the
     * rhythm that {@code what} names.
     */
    LIT,
    /** The same, dark. */
    UNLIT,
    /** Its plate is missing: {@code what} is the plate's name. */
    PLATE,
    /** Its LED and all behind it on the chain are dark. */
    CHAIN,
    /**
     * Its LED is lit where it is to be dark, as in the state of its unit that {@code what} says.
     */
    LAMP,
    /** Its LED, where it is lit, is coloured as in the state of its unit that {@code what} says. */
    VANE,
    /** One die of its LED is lit: {@code what} is the die's letter and at least how hard. */
    STUCK
  }

  /**
   * One thing that fails.
   *
   * @param words what failed: "the top head is dark"
   * @param how what that does
   * @param leds the lamps concerned, counted from 0 along the signal's part of the chain; of a
   *     broken chain the LED or chip
   * @param what more, where {@code how} needs it; empty elsewhere
   */
  record Fault(String words, How how, List<Integer> leds, String what) {}

  /**
   * What a crew makes of one fault.
   *
   * @param seen the picture that is left
   * @param read the aspects that it may be taken for
   * @param verdict the worst that can be said of that
   * @param covered what the book says keeps it from misleading anybody; empty when nothing does, or
   *     nothing needs to
   */
  record Reading(Fault fault, String seen, List<String> read, Verdict verdict, String covered) {}

  /** The readings of each signal; those that are built, told and lit alike have the same object. */
  static Map<Signal, Readings> of(Layout layout) {
    Map<List<Object>, Readings> known = new LinkedHashMap<>();
    Map<Signal, Readings> all = new IdentityHashMap<>();
    Map<Part, Dies> dies = new IdentityHashMap<>();
    Function<Part, Dies> ofPart =
        part -> dies.computeIfAbsent(part, p -> Dies.of(p, layout.rulebook(), 1));
    layout.controllers().stream()
        .flatMap(c -> c.signals().stream())
        .forEach(
            signal ->
                all.put(
                    signal,
                    known.computeIfAbsent(alike(signal), key -> of(layout, signal, ofPart))));
    return all;
  }

  /** What signals have in common that are read alike. */
  private static List<Object> alike(Signal signal) {
    List<List<String>> states =
        signal.units().stream().map(Unit::kind).map(Kind::stateNames).toList();
    List<Part> parts = signal.units().stream().map(u -> u.chain().part()).toList();
    return List.of(signal.build(), states, parts);
  }

  private static Readings of(Layout layout, Signal signal, Function<Part, Dies> ofPart) {
    Optional<Site> site = Site.of(layout.rulebook(), List.of(signal), ofPart);
    Set<Fault> faults = new LinkedHashSet<>();
    Map<String, List<Reading>> byStates = new LinkedHashMap<>();
    Map<List<Display>, List<Integer>> states = pictures(signal);
    StuckDies dies = site.map(s -> StuckDies.of(s, signal)).orElse(null);
    for (Site.AspectPicture shown : site.map(Site::shown).orElse(List.of())) {
      List<Integer> told = states.get(shown.picture());
      if (told != null) {
        String key = told.stream().map(String::valueOf).collect(Collectors.joining(","));
        byStates.computeIfAbsent(key, k -> readings(site.get(), signal, dies, shown));
        byStates.get(key).forEach(reading -> faults.add(reading.fault()));
      }
    }
    List<Fault> sorted = new ArrayList<>(faults);
    sorted.sort(
        Comparator.comparing(Fault::how)
            .thenComparingInt(fault -> fault.leds().stream().findFirst().orElse(0)));
    return new Readings(sorted, byStates);
  }

  private static List<Reading> readings(
      Site site, Signal signal, StuckDies dies, Site.AspectPicture shown) {
    Map<Fault, Failure> failures = new LinkedHashMap<>();
    List<Failure> all = new ArrayList<>(SiteFailures.failures(site, shown.picture()));
    all.addAll(SiteFailures.stuck(site, shown.picture()));
    Condition whole = site.whole(shown.picture());
    for (Failure failure : all) {
      fault(site, signal, Trial.of(whole, failure), failure)
          .ifPresent(fault -> failures.put(fault, failure));
    }
    failures.putAll(dies.on(shown.picture()));
    List<Reading> readings = new ArrayList<>();
    for (Map.Entry<Fault, Failure> one : failures.entrySet()) {
      Trial trial = Trial.of(whole, one.getValue());
      // A book that does not say how imperfect signals are read is taken at its worst.
      List<Case> cases =
          site.underEachRule().stream().map(s -> Case.of(shown, trial, s.crew())).toList();
      List<String> read =
          cases.stream()
              .flatMap(c -> c.read().reads().stream())
              .map(r -> r.aspect().name())
              .distinct()
              .toList();
      Verdict worst = Collections.min(cases.stream().map(Case::verdict).toList());
      String covered = worst == Verdict.NO_MORE ? "" : covered(site, one.getValue());
      readings.add(new Reading(one.getKey(), FaultWords.seen(trial), read, worst, covered));
    }
    return readings;
  }

  private static String covered(Site site, Failure failure) {
    return site.crew()
        .book()
        .failures()
        .cover(failure.kind(), site.crew().form())
        .map(Cover::reason)
        .orElse("");
  }

  /** A failure as the page plays it; empty for a lamp stuck in a colour that no table has. */
  private static Optional<Fault> fault(Site site, Signal signal, Trial trial, Failure failure) {
    String words = FaultWords.failed(site, trial);
    if (failure instanceof Failure.LampOut out) {
      return Optional.of(
          new Fault(words, How.DARK, List.of(led(site, out.head()) + out.lamp()), ""));
    }
    if (failure instanceof Failure.DieOut out) {
      List<Integer> led = List.of(led(site, out.head()) + out.lamp());
      return Optional.of(new Fault(words, How.DIE, led, letter(out.die())));
    }
    if (failure instanceof Failure.LampStuck stuck) {
      return lit(words, How.LAMP, signal, led(site, stuck.head()) + stuck.lamp(), stuck.colour());
    }
    if (failure instanceof Failure.VaneStuck stuck) {
      return lit(words, How.VANE, signal, led(site, stuck.head()) + stuck.lamp(), stuck.colour());
    }
    if (failure instanceof Failure.FlasherStuck stuck) {
      List<Integer> leds =
          stuck.heads().stream()
              .sorted()
              .flatMap(h -> IntStream.range(0, lamps(site, h)).mapToObj(i -> led(site, h) + i))
              .toList();
      How how = stuck.on() ? How.LIT : How.UNLIT;
      // Where lamps of one head have rhythms of their own, it may have several flashers.
      return Optional.of(
          stuck.makes().isEmpty()
              ? new Fault(words, how, leds, "")
              : new Fault(words + " (" + stuck.rhythm() + ")", how, leds, stuck.rhythm()));
    }
    if (failure instanceof Failure.PlateLost lost) {
      return Optional.of(new Fault(words, How.PLATE, List.of(), lost.plate()));
    }
    if (failure instanceof Failure.ChipOut out) {
      return Optional.of(new Fault(words, How.DARK, out.dark().stream().sorted().toList(), ""));
    }
    if (failure instanceof Failure.ArmElsewhere arm) {
      // By night, that is: its lamp shines through the glass of the position.
      return arm.make().lights(arm.position()).orElseThrow().stream()
          .findFirst()
          .flatMap(one -> lit(words, How.VANE, signal, led(site, arm.head()), one.colour()));
    }
    List<Integer> place = List.of(((Failure.ChainBroken) failure).place());
    return Optional.of(new Fault(words, How.CHAIN, place, ""));
  }

  static String letter(Channel die) {
    return die.name().substring(0, 1);
  }

  /** An LED lit as in a state that shows it in a colour, rather one that a command calls up. */
  private static Optional<Fault> lit(String words, How how, Signal signal, int led, String colour) {
    int first = 0;
    for (Unit unit : signal.units()) {
      Kind kind = unit.kind();
      int at = led - first;
      if (at < kind.lamps()) {
        return IntStream.range(0, kind.states().size())
            .filter(state -> kind.states().get(state).lit().get(at).look().equals(colour))
            .boxed()
            .min(Comparator.comparing(s -> kind.answers().stream().noneMatch(a -> a.state() == s)))
            .map(state -> new Fault(words, how, List.of(led), state.toString()));
      }
      first += kind.lamps();
    }
    return Optional.empty();
  }

  /** The first LED of a head, along the signal's part of the chain. */
  static int led(Site site, int head) {
    return site.wired().stream().takeWhile(h -> h != head).mapToInt(h -> lamps(site, h)).sum();
  }

  private static int lamps(Site site, int head) {
    return site.heads().get(head).lamps().size();
  }

  /** Each picture that a signal can be told to show, with the states of its units. */
  private static Map<List<Display>, List<Integer>> pictures(Signal signal) {
    Map<List<Display>, List<Integer>> pictures = new LinkedHashMap<>();
    Kind first = signal.units().get(0).kind();
    if (first.isWholeSignal()) {
      for (int i = 0; i < first.states().size(); i++) {
        pictures.putIfAbsent(first.states().get(i).picture(), List.of(i));
      }
      return pictures;
    }
    List<Integer> wired = signal.build().wired();
    List<HeadType> heads = signal.build().heads();
    List<List<Integer>> tuples = List.of(List.of());
    for (Unit unit : signal.units()) {
      tuples =
          tuples.stream()
              .limit(Site.MOST_PICTURES)
              .flatMap(
                  t -> IntStream.range(0, unit.kind().states().size()).mapToObj(i -> and(t, i)))
              .toList();
    }
    for (List<Integer> tuple : tuples) {
      List<Display> picture = new ArrayList<>(Collections.nCopies(heads.size(), Display.DARK));
      for (int i = 0; i < tuple.size(); i++) {
        Kind kind = signal.units().get(i).kind();
        picture.set(wired.get(i), kind.states().get(tuple.get(i)).picture().get(0));
      }
      pictures.putIfAbsent(picture, tuple);
    }
    return pictures;
  }

  private static List<Integer> and(Collection<Integer> tuple, int more) {
    List<Integer> longer = new ArrayList<>(tuple);
    longer.add(more);
    return longer;
  }
}
