package dev.doublet.failure;

import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Extremes;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Proviso;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * A crew that knows its rulebook and looks at a signal that may have failed.
 *
 * @param book the rulebook
 * @param provisos what it reads of imperfect signals before that
 * @param rule how it has imperfect signals read
 * @param form the form of the signal
 * @param dark what a signal is read as on which nothing can be made out: the most restrictive
 *     aspects that it can show
 * @param patterns every pattern of the form
 * @param shorter for each form that it may be read as without dark heads, every pattern
 * @param night what it makes out by night of each display that an arm may be taken for then
 */
public record Crew(
    Rulebook book,
    Provisos provisos,
    Imperfect rule,
    Form form,
    List<Reads> dark,
    PatternIndex patterns,
    Map<Form, PatternIndex> shorter,
    Map<Display, Glimpse> night) {
  /** How many pictures of a signal with many dark heads are looked at. */
  private static final long MOST_PICTURES = 100_000;

  /** Stands for every display that no pattern names: only {@code any} takes them, and all alike. */
  private static final Display UNNAMED = Display.steady("");

  /** Copies the lists. */
  public Crew {
    dark = List.copyOf(dark);
    shorter = Collections.unmodifiableMap(new LinkedHashMap<>(shorter));
  }

  /**
   * A crew for a signal of some form.
   *
   * @param shows what the signal can show, each aspect by its patterns, at least one
   */
  static Crew of(Rulebook book, Imperfect rule, Form form, List<Reads> shows) {
    Map<Form, PatternIndex> shorter = new LinkedHashMap<>();
    for (Form other : book.forms()) {
      if (mayBeTaken(form, other)) {
        shorter.put(other, PatternIndex.of(book, other));
      }
    }
    return new Crew(
        book,
        Provisos.of(book, form),
        rule,
        form,
        mostRestrictive(shows),
        PatternIndex.of(book, form),
        shorter,
        night(book));
  }

  /** By night an arm is taken for any position, of any arm, in which that light shows. */
  private static Map<Display, Glimpse> night(Rulebook book) {
    Map<Display, Display> lights = book.byNight();
    Map<Display, Set<Display>> alike = new HashMap<>();
    lights.forEach(
        (position, light) ->
            alike.computeIfAbsent(light, l -> new TreeSet<>(Set.of(l))).add(position));
    Map<Display, Glimpse> night = new HashMap<>();
    alike.forEach(
        (light, all) -> {
          Glimpse glimpse = Glimpse.byNight(light, List.copyOf(all));
          all.forEach(display -> night.put(display, glimpse));
        });
    return night;
  }

  /**
   * What the crew may take a picture for.
   *
   * @param defined true when the rulebook defines the picture for this form
   * @param reads which aspects, and by which patterns
   */
  public record Read(boolean defined, List<Reads> reads) {
    /** The names of the aspects. */
    Set<String> names() {
      return reads.stream().map(r -> r.aspect().name()).collect(Collectors.toSet());
    }
  }

  /**
   * True when a signal of one form with dark heads may look like one of another. A dwarf is known
   * by its height; how other signals stand is not seen of what is left.
   */
  static boolean mayBeTaken(Form form, Form other) {
    boolean bothLowOrHigh = (form.mount() == Mount.DWARF) == (other.mount() == Mount.DWARF);
    return bothLowOrHigh && other.places().size() < form.places().size();
  }

  /** The same crew with another rule for all imperfect signals. */
  Crew under(Imperfect other) {
    return new Crew(book, Provisos.NONE, other, form, dark, patterns, shorter, night);
  }

  /** The exception by which a picture is read that the rulebook does not define. */
  public Optional<Proviso> proviso(List<Glimpse> seen) {
    return provisos.of(seen);
  }

  /** What the crew takes a picture for, on a signal with some plates. */
  public Read read(List<Glimpse> seen, Collection<String> plates) {
    return orDark(madeOut(seen, plates));
  }

  /** A signal on which nothing can be made out is its most restrictive aspect under every rule. */
  Read orDark(Read madeOut) {
    return madeOut.reads().isEmpty() ? new Read(false, dark) : madeOut;
  }

  /** What can be made out of a picture whatever else the signal shows; perhaps nothing. */
  Read madeOut(List<Glimpse> seen, Collection<String> plates) {
    if (seen.stream().allMatch(Glimpse::named)) {
      List<Reads> defined =
          pictures(seen.stream().map(Glimpse::shows).toList()).stream()
              .flatMap(picture -> patterns.meanings(plates, picture).stream())
              .distinct()
              .toList();
      if (!defined.isEmpty()) {
        return new Read(true, defined);
      }
    }
    Optional<Proviso> proviso = proviso(seen);
    if (proviso.isPresent()) {
      return new Read(false, List.of(provisos.reads().get(proviso.get())));
    }
    if (seen.stream().noneMatch(Glimpse::isLit) || seen.stream().anyMatch(Glimpse::isContrary)) {
      return new Read(false, List.of());
    }
    return new Read(
        false,
        switch (rule) {
          case UNSAID, MOST_RESTRICTIVE -> List.of();
          case AS_LIT -> asLit(seen, plates);
          case ANY_FITTING -> fitting(seen, plates);
          case MOST_RESTRICTIVE_FITTING -> mostRestrictive(fitting(seen, plates));
        });
  }

  /** The same crew that reads some patterns as others. */
  Crew with(Map<Pattern, Reads> changed) {
    Map<Form, PatternIndex> others = new LinkedHashMap<>();
    shorter.forEach((other, its) -> others.put(other, its.with(changed)));
    return new Crew(book, provisos, rule, form, dark, patterns.with(changed), others, night);
  }

  /** True when a head that may show anything may show the same before another crew. */
  boolean sameAnything(Crew other) {
    for (int head = 0; head < form.places().size(); head++) {
      if (patterns.hasAny(head) && !everyDisplay(head).equals(other.everyDisplay(head))) {
        return false;
      }
    }
    return true;
  }

  private List<Reads> asLit(List<Glimpse> seen, Collection<String> plates) {
    Set<Reads> reads = new LinkedHashSet<>();
    addReadings(reads, patterns, seen, plates);
    List<Glimpse> lit = seen.stream().filter(Glimpse::isLit).toList();
    shorter.forEach(
        (other, its) -> {
          if (other.places().size() == lit.size()) {
            addReadings(reads, its, lit, plates);
          }
        });
    return List.copyOf(reads);
  }

  /** Adds what a signal may be read as on which the dark heads are dark and the others are lit. */
  private static void addReadings(
      Set<Reads> reads, PatternIndex patterns, List<Glimpse> seen, Collection<String> plates) {
    List<List<Display>> options =
        seen.stream().map(g -> g.isLit() ? g.maybe() : List.of(Display.DARK)).toList();
    for (List<Display> picture : pictures(options)) {
      reads.addAll(patterns.meanings(plates, picture));
    }
  }

  /** Every reading of every picture that what is lit may be part of. */
  private List<Reads> fitting(List<Glimpse> seen, Collection<String> plates) {
    List<Reads> fitting = new ArrayList<>();
    for (Reads reads : patterns.fitting(seen)) {
      if (plates.containsAll(reads.pattern().plates())) {
        fitting.add(reads);
      }
    }
    Map<List<String>, List<Pattern>> rivals = Reading.rivals(fitting);
    return fitting.stream()
        .flatMap(r -> ofEachNumber(r, seen))
        .filter(r -> standsAlone(r, seen, rivals.getOrDefault(r.pattern().plates(), List.of())))
        .toList();
  }

  /** A reading of every number that what is lit may be, and dark heads may hide. */
  private static Stream<Reads> ofEachNumber(Reads reads, List<Glimpse> seen) {
    Pattern pattern = reads.pattern();
    return reads.aspect().each().stream()
        .filter(a -> a == reads.aspect() || canBe(a.shownBy(pattern), seen))
        .map(a -> new Reads(a, pattern));
  }

  private static boolean canBe(Pattern pattern, List<Glimpse> seen) {
    for (int head = 0; head < seen.size(); head++) {
      Glimpse glimpse = seen.get(head);
      Choice choice = pattern.choices().get(head);
      if (glimpse.isLit() && glimpse.maybe().stream().noneMatch(choice::accepts)) {
        return false;
      }
    }
    return true;
  }

  /** True when some picture is left that is read so and that no more specific pattern takes. */
  private boolean standsAlone(Reads reads, List<Glimpse> seen, List<Pattern> rivals) {
    if (rivals.isEmpty()) {
      return true;
    }
    Pattern pattern = reads.aspect().shownBy(reads.pattern());
    List<List<Display>> options = new ArrayList<>();
    for (int head = 0; head < seen.size(); head++) {
      Choice choice = pattern.choices().get(head);
      Glimpse glimpse = seen.get(head);
      options.add(
          glimpse.isLit()
              ? glimpse.maybe().stream().filter(choice::accepts).toList()
              : choice.isAny() ? everyDisplay(head) : choice.displays());
    }
    long count = 1;
    for (List<Display> here : options) {
      count = Math.min(MOST_PICTURES, count * here.size());
    }
    // Beyond that it is taken to stand, which can only find a hazard too many.
    return count == MOST_PICTURES
        || pictures(options).stream().anyMatch(p -> rivals.stream().noneMatch(r -> r.covers(p)));
  }

  /** Every display that some pattern of this form names at a head, dark, and one for the others. */
  private List<Display> everyDisplay(int head) {
    TreeSet<Display> displays = new TreeSet<>();
    displays.add(Display.DARK);
    displays.add(UNNAMED);
    patterns.patterns().forEach(r -> displays.addAll(r.pattern().choices().get(head).displays()));
    return List.copyOf(displays);
  }

  /** Every way to take one option at each place. */
  static List<List<Display>> pictures(List<List<Display>> options) {
    List<List<Display>> pictures = List.of(List.of());
    for (List<Display> here : options) {
      List<List<Display>> longer = new ArrayList<>();
      for (List<Display> start : pictures) {
        for (Display display : here) {
          List<Display> next = new ArrayList<>(start);
          next.add(display);
          longer.add(next);
        }
      }
      pictures = longer;
    }
    return pictures;
  }

  /** Those that no other of them is known to be more restrictive than. */
  private static List<Reads> mostRestrictive(List<Reads> among) {
    return Extremes.mostRestrictive(among, r -> r.aspect().permission());
  }
}
