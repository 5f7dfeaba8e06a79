package dev.doublet.failure;

import dev.doublet.layout.Feed;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Where faults are tried: on signals of a layout that are built alike, or on what a rulebook says
 * of a form with some plates.
 *
 * @param signals their names, in file order; empty for a rulebook alone
 * @param crew who looks at it
 * @param plates the plates carried, sorted
 * @param heads the make of head at each place; empty for a rulebook alone, where every head of the
 *     book that can show a display is tried
 * @param wired indices of the places in chain order; empty for a rulebook alone
 * @param feeds what lights the lamps, place of the chain by place; empty for a rulebook alone
 * @param dies what the LEDs of each chain lose with a die; empty for a rulebook alone
 * @param shown every aspect, with each picture that shows it
 * @param places what stands at each place, and all that it shows
 */
public record Site(
    List<String> signals,
    Crew crew,
    List<String> plates,
    List<HeadType> heads,
    List<Integer> wired,
    List<Feed> feeds,
    List<Dies> dies,
    List<AspectPicture> shown,
    List<Place> places) {
  /** A pattern with more alternatives than anybody writes is tried only so far. */
  public static final int MOST_PICTURES = 1_000;

  /**
   * What fails on a picture that means more than so many aspects is not asked: it means nothing to
   * anybody until its book is mended, and that is an error of its own.
   */
  static final int MOST_MEANINGS = 10;

  /** Copies the lists. */
  public Site {
    signals = List.copyOf(signals);
    plates = List.copyOf(plates);
    heads = List.copyOf(heads);
    wired = List.copyOf(wired);
    feeds = List.copyOf(feeds);
    dies = List.copyOf(dies);
    shown = List.copyOf(shown);
    places = List.copyOf(places);
  }

  /** A site whose places are what is shown there. */
  public Site(
      List<String> signals,
      Crew crew,
      List<String> plates,
      List<HeadType> heads,
      List<Integer> wired,
      List<Feed> feeds,
      List<Dies> dies,
      List<AspectPicture> shown) {
    this(signals, crew, plates, heads, wired, feeds, dies, shown, places(crew, heads, shown));
  }

  private static List<Place> places(Crew crew, List<HeadType> heads, List<AspectPicture> shown) {
    return heads.isEmpty()
        ? Place.of(crew.book(), crew.form().span(), shown)
        : Place.of(heads, shown);
  }

  /** Cheap, as sites are looked up often and hold much. */
  @Override
  public int hashCode() {
    return 31 * signals.hashCode() + crew.form().name().hashCode() + plates.hashCode();
  }

  /**
   * One way to show an aspect.
   *
   * @param by the aspect and its pattern
   * @param picture what each head shows
   * @param span where a message about it points
   */
  public record AspectPicture(Reads by, List<Display> picture, Span span) {
    /** Copies the list. */
    public AspectPicture {
      picture = List.copyOf(picture);
    }

    /** The aspect. */
    public Aspect aspect() {
      return by.aspect();
    }
  }

  /** A rulebook alone: each form with each set of plates that a pattern there asks for. */
  public static List<Site> of(Rulebook book) {
    List<Site> sites = new ArrayList<>();
    for (Form form : book.forms()) {
      Set<List<String>> carried = new LinkedHashSet<>();
      carried.add(List.of());
      book.aspects().forEach(a -> a.patternsOn(form).forEach(p -> carried.add(p.plates())));
      carried.forEach(plates -> on(book, form, plates).ifPresent(sites::add));
    }
    return sites;
  }

  /** A form of a rulebook with some plates, sorted; empty when it shows nothing. */
  public static Optional<Site> on(Rulebook book, Form form, List<String> plates) {
    List<AspectPicture> shown = shownOn(book, form, plates);
    if (shown.isEmpty()) {
      return Optional.empty();
    }
    Crew crew = crew(book, form, shown);
    List<HeadType> unsaid = List.of();
    return Optional.of(
        new Site(List.of(), crew, plates, unsaid, List.of(), List.of(), List.of(), shown));
  }

  /**
   * Signals of a layout that are built and told alike, with all LEDs they are made of; empty when
   * nothing that they can be told to show is meant by an aspect.
   *
   * @param alike at least one
   * @param known what the LEDs of a part lose with a die, worked out once a part
   */
  public static Optional<Site> of(Rulebook book, List<Signal> alike, Function<Part, Dies> known) {
    Signal.Build build = alike.get(0).build();
    List<AspectPicture> shown = Repertoire.of(book, alike.get(0)).shown();
    if (shown.isEmpty()) {
      return Optional.empty();
    }
    List<Dies> dies =
        alike.stream()
            .flatMap(s -> s.units().stream())
            .map(u -> u.chain().part())
            .distinct()
            .map(known)
            .toList();
    return Optional.of(
        new Site(
            alike.stream().map(Signal::name).toList(),
            crew(book, build.form(), shown),
            build.plates(),
            build.heads(),
            build.wired(),
            build.places(),
            dies,
            shown));
  }

  /** True when another is the same signals, or form and plates, before whatever crew. */
  public boolean isPlaceOf(Site other) {
    return signals.equals(other.signals)
        && crew.form().equals(other.crew.form())
        && plates.equals(other.plates);
  }

  /** The same before a crew that reads imperfect signals by another rule. */
  public Site under(Imperfect rule) {
    return new Site(signals, crew.under(rule), plates, heads, wired, feeds, dies, shown, places);
  }

  /** What is shown when some patterns are written as one picture. */
  Stream<AspectPicture> shown(Map<Pattern, Reads> changed, List<Display> picture) {
    return shown.stream()
        .map(
            s -> {
              Reads now = changed.get(s.by().pattern());
              return now == null ? s : new AspectPicture(now, picture, s.span());
            });
  }

  /** True when nothing could be stuck then that cannot be now. */
  boolean holds(Map<Pattern, Reads> changed, List<Display> picture) {
    Set<String> aspects =
        shown.stream()
            .filter(s -> changed.containsKey(s.by().pattern()))
            .map(s -> s.aspect().family())
            .collect(Collectors.toSet());
    if (aspects.isEmpty()) {
      return true;
    }
    boolean makesKept = true;
    for (int head = 0; head < places.size(); head++) {
      if (!places.get(head).shows(picture.get(head).look())) {
        return false;
      }
      makesKept &= places.get(head).keepsOut(aspects);
    }
    if (makesKept) {
      return true;
    }
    List<Place> then = places(crew, heads, shown(changed, picture).toList());
    for (int head = 0; head < places.size(); head++) {
      if (!places.get(head).takesAllOf(then.get(head))) {
        return false;
      }
    }
    return true;
  }

  /** The same under each rule that its crew may have: one where the rulebook says which. */
  public List<Site> underEachRule() {
    return crew.rule() == Imperfect.UNSAID
        ? Imperfect.CHOICES.stream().map(this::under).toList()
        : List.of(this);
  }

  /** Every fault at every aspect, but for dies stuck lit. */
  public List<Case> cases() {
    return cases(this::trials);
  }

  /** Every die stuck lit at every aspect. */
  List<Case> stuckDies() {
    return cases(picture -> trials(picture, SiteFailures.diesStuck(this, picture, dies)));
  }

  private List<Case> cases(Function<List<Display>, List<Trial>> trials) {
    List<Case> cases = new ArrayList<>();
    Map<Object, Crew.Read> known = new HashMap<>();
    for (AspectPicture one : shown) {
      for (Trial trial : trials.apply(one.picture())) {
        Crew.Read read =
            known.computeIfAbsent(
                List.of(trial.seen(), trial.plates()),
                sight -> crew.read(trial.seen(), trial.plates()));
        cases.add(Case.of(one, trial, read));
      }
    }
    return cases;
  }

  /** Every fault at one picture, each with another result once. */
  List<Trial> trials(List<Display> picture) {
    List<Failure> all = new ArrayList<>(SiteFailures.failures(this, picture));
    all.addAll(SiteFailures.stuck(this, picture));
    return trials(picture, all);
  }

  /** How it stands while it shows a picture and nothing has failed. */
  public Condition whole(List<Display> picture) {
    return Condition.of(picture, plates, crew.night());
  }

  private List<Trial> trials(List<Display> picture, List<Failure> faults) {
    Condition whole = whole(picture);
    Set<Object> seen = new HashSet<>();
    return faults.stream()
        .map(failure -> Trial.of(whole, failure))
        .filter(trial -> seen.add(trial.result()))
        .toList();
  }

  /** The makes of head that may show a display at a place, the simplest first. */
  public List<HeadType> types(int head, Display display) {
    if (!heads.isEmpty()) {
      return List.of(heads.get(head));
    }
    List<HeadType> able =
        crew.book().heads().stream()
            .filter(h -> h.lights(display.look()).isPresent())
            .sorted(Comparator.comparingInt(h -> h.lamps().size()))
            .toList();
    return able.isEmpty() ? List.of(plainHead(display.look())) : able;
  }

  private HeadType plainHead(String look) {
    Span span = crew.form().span();
    Lamp lamp = new Lamp("main", List.of(new Colour(look, look, span)), span);
    return new HeadType("plain", List.of(lamp), List.of(), span);
  }

  private static Crew crew(Rulebook book, Form form, List<AspectPicture> shown) {
    return Crew.of(
        book,
        book.failures().imperfect(),
        form,
        shown.stream().map(AspectPicture::by).distinct().toList());
  }

  /** True when some picture of a form means so many aspects that nothing fails on it here. */
  public static boolean isCrowded(Rulebook book, Form form, List<String> plates) {
    PatternIndex patterns = PatternIndex.of(book, form);
    List<List<Display>> rest = Place.rest(book, patterns, plates);
    return patterns.patterns().stream()
        .flatMap(by -> pictures(by.pattern(), rest).stream())
        .distinct()
        .anyMatch(picture -> patterns.meanings(plates, picture).size() > MOST_MEANINGS);
  }

  private static List<AspectPicture> shownOn(Rulebook book, Form form, List<String> plates) {
    PatternIndex patterns = PatternIndex.of(book, form);
    List<AspectPicture> shown = new ArrayList<>();
    Set<Object> known = new HashSet<>();
    Map<List<Display>, List<Reads>> meanings = new HashMap<>();
    List<List<Display>> rest = Place.rest(book, patterns, plates);
    for (Reads by : patterns.patterns()) {
      if (plates.containsAll(by.pattern().plates())) {
        for (List<Display> picture : pictures(by.pattern(), rest)) {
          List<Reads> means = meanings.computeIfAbsent(picture, p -> patterns.meanings(plates, p));
          Reads read = by.of(picture);
          if (means.size() <= MOST_MEANINGS
              && means.contains(read)
              && known.add(List.of(read.aspect().name(), picture))) {
            shown.add(new AspectPicture(read, picture, by.pattern().span()));
          }
        }
      }
    }
    return shown;
  }

  /** Each alternative of a pattern; a head that may show anything is at rest. */
  private static List<List<Display>> pictures(Pattern pattern, List<List<Display>> rest) {
    List<List<Display>> options = new ArrayList<>();
    long count = 1;
    for (int head = 0; head < rest.size(); head++) {
      Choice choice = pattern.choices().get(head);
      List<Display> all = choice.isAny() ? rest.get(head) : choice.displays();
      count = Math.min(MOST_PICTURES + 1, count * all.size());
      options.add(count > MOST_PICTURES ? all.subList(0, 1) : all);
    }
    return Crew.pictures(options);
  }

  /** True when a pattern has so many pictures that not all of them are tried. */
  public static boolean isCutShort(Pattern pattern) {
    long count = 1;
    for (Choice choice : pattern.choices()) {
      count = Math.min(MOST_PICTURES + 1, count * Math.max(1, choice.displays().size()));
    }
    return count > MOST_PICTURES;
  }
}
