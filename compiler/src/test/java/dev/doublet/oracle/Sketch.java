package dev.doublet.oracle;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * A rulebook and a layout as one would jot them down: names and lists alone. A display is its
 * words: "dark", "red", "flashing red"; a letter in braces is a number, as in the language.
 *
 * @param numbers what letters may stand for
 * @param aspects sorted by number
 */
record Sketch(
    List<String> colours,
    List<String> rhythms,
    List<Integer> numbers,
    List<Head> heads,
    List<Form> forms,
    List<String> plates,
    List<Aspect> aspects,
    List<Expected> expectations,
    List<Signal> signals) {
  static final String DARK = "dark";

  private static final List<String> POSITIONS = List.of("level", "raised", "inclined");

  /** How many numbers the letters of one aspect may give it. */
  private static final int MOST_OF_ONE = 4;

  /**
   * A make of head.
   *
   * @param lamps the colours of each lamp
   * @param figures for each figure the lamps that are lit, each with its colour, and before that
   *     perhaps the rhythm of this lamp alone; of an arm its positions in their order, each with
   *     the colour of its one lamp if it has any
   */
  record Head(
      String name, List<List<String>> lamps, Map<String, Map<Integer, String>> figures, Make make) {

    /**
     * True when some lamp shows a colour, or a figure has its name, and nothing is left open; lamps
     * of arms and behind masks show no colour by themselves, and an arm is never dark.
     */
    boolean canShow(String display) {
      String look = display.substring(display.indexOf(' ') + 1);
      return display.equals(DARK) && make != Make.ARM
          || figures.containsKey(look)
          || make == Make.LAMPS && lamps.stream().filter(lamp -> lamp.contains(look)).count() == 1;
    }

    private boolean takesNoRhythm(String look) {
      return figures.containsKey(look) && make == Make.ARM
          || figures.getOrDefault(look, Map.of()).values().stream().anyMatch(c -> c.contains(" "));
    }
  }

  /** What a head is made of: a mask stands before each lamp, and shows one number. */
  enum Make {
    LAMPS,
    MASKS,
    ARM
  }

  /**
   * A form.
   *
   * @param mount as the language says it
   * @param places how many heads
   * @param usuallyDark those that are dark where a pattern leaves them unsaid; never all
   */
  record Form(String name, String mount, int places, Set<Integer> usuallyDark) {}

  /**
   * An aspect and the lines that show it.
   *
   * @param number its first, when its letters make it many
   * @param letters those that its name has, in their order
   * @param likenesses at most one
   */
  record Aspect(
      String name, int number, List<String> letters, List<Line> lines, List<Likeness> likenesses) {

    /** Every pattern that shows it. */
    List<Pattern> patterns() {
      List<Pattern> patterns = new ArrayList<>();
      for (Line line : lines) {
        for (Form form : line.forms()) {
          line.alternatives()
              .forEach(a -> patterns.add(new Pattern(form, Set.copyOf(line.plates()), a)));
        }
      }
      for (Likeness likeness : likenesses) {
        for (Pattern pattern : likeness.candidates()) {
          if (likeness.exceptions().stream().noneMatch(e -> takes(e, pattern))) {
            Set<String> plates = new TreeSet<>(pattern.plates());
            plates.add(likeness.plate());
            patterns.add(new Pattern(pattern.form(), plates, pattern.choices()));
          }
        }
      }
      return patterns;
    }
  }

  /**
   * An aspect with a number for each of its letters.
   *
   * @param family its name with letters
   */
  record One(String name, int number, String family, List<Pattern> patterns) {

    private boolean isShown(Form form, List<Head> heads, List<String> plates) {
      return patterns.stream()
          .anyMatch(
              p ->
                  p.form().equals(form)
                      && plates.containsAll(p.plates())
                      && canShow(heads, p.choices()));
    }
  }

  /** True when each of some heads can show one of its displays. */
  static boolean canShow(List<Head> heads, List<List<String>> choices) {
    return IntStream.range(0, heads.size())
        .allMatch(
            place -> {
              List<String> choice = choices.get(place);
              return choice.isEmpty() || choice.stream().anyMatch(heads.get(place)::canShow);
            });
  }

  /** Every aspect, those of many numbers once for each. */
  List<One> ones() {
    List<One> ones = new ArrayList<>();
    for (Aspect aspect : aspects) {
      for (Map<String, String> bound : bindings(aspect.letters())) {
        List<Pattern> patterns =
            aspect.patterns().stream()
                .map(p -> new Pattern(p.form(), p.plates(), bind(p.choices(), bound)))
                .toList();
        int number = aspect.number() + bindings(aspect.letters()).indexOf(bound);
        ones.add(new One(bind(aspect.name(), bound), number, aspect.name(), patterns));
      }
    }
    return ones;
  }

  /** The name of all that one of many numbers is one of, which is its own for others. */
  String family(String name) {
    return ones().stream().filter(o -> o.name().equals(name)).findFirst().orElseThrow().family();
  }

  /** An expectation once for each number that its letters stand for. */
  List<Expected> each(Expected expected) {
    List<String> letters =
        expected.pictures().stream()
            .flatMap(List::stream)
            .flatMap(List::stream)
            .filter(Sketch::isLetter)
            .distinct()
            .toList();
    return bindings(letters).stream()
        .map(
            b ->
                new Expected(
                    expected.form(),
                    expected.plates(),
                    expected.pictures().stream().map(p -> bind(p, b)).toList(),
                    bind(expected.aspect(), b)))
        .toList();
  }

  /** Every way to give some letters a number, the last letter's changing first. */
  List<Map<String, String>> bindings(List<String> letters) {
    List<Map<String, String>> bindings = List.of(Map.of());
    for (String letter : letters) {
      List<Map<String, String>> longer = new ArrayList<>();
      for (Map<String, String> bound : bindings) {
        for (int number : numbers) {
          Map<String, String> more = new TreeMap<>(bound);
          more.put(letter, Integer.toString(number));
          longer.add(more);
        }
      }
      bindings = longer;
    }
    return bindings;
  }

  /** A text with numbers for letters. */
  static String bind(String text, Map<String, String> bound) {
    String with = text;
    for (Map.Entry<String, String> one : bound.entrySet()) {
      with = with.replace(one.getKey(), one.getValue());
    }
    return with;
  }

  /** The same of a choice for each place. */
  static List<List<String>> bind(List<List<String>> choices, Map<String, String> bound) {
    return choices.stream().map(c -> c.stream().map(d -> bind(d, bound)).toList()).toList();
  }

  /**
   * "as … on … with … plate except … or …".
   *
   * @param forms empty for all
   * @param exceptions each with a choice for each place
   */
  record Likeness(
      Aspect other, List<Form> forms, String plate, List<List<List<String>>> exceptions) {

    /** The patterns of the other aspect before exceptions. */
    List<Pattern> candidates() {
      return other.patterns().stream()
          .filter(p -> forms.isEmpty() || forms.contains(p.form()))
          .toList();
    }
  }

  /**
   * One way in which a form shows an aspect.
   *
   * @param choices for each place; an empty one is any
   */
  record Pattern(Form form, Set<String> plates, List<List<String>> choices) {}

  /** What an exception says of every head of a form; as it stands when it fits none. */
  private static List<List<String>> spread(List<List<String>> exception, Form form) {
    if (exception.size() != form.places - form.usuallyDark.size()) {
      return exception;
    }
    List<List<String>> every = new ArrayList<>(exception);
    new TreeSet<>(form.usuallyDark).forEach(place -> every.add(place, List.of(DARK)));
    return every;
  }

  /** True when an exception leaves nothing of a pattern. */
  private static boolean takes(List<List<String>> exception, Pattern pattern) {
    return isInside(pattern.choices(), spread(exception, pattern.form()));
  }

  /** True when every picture of some choices is one of others. */
  private static boolean isInside(List<List<String>> inner, List<List<String>> outer) {
    return inner.size() == outer.size()
        && IntStream.range(0, inner.size())
            .allMatch(
                i ->
                    outer.get(i).isEmpty()
                        || !inner.get(i).isEmpty()
                            && inner.get(i).stream().allMatch(d -> accepts(outer.get(i), d)));
  }

  private static boolean accepts(List<String> choice, String display) {
    boolean number = isLetter(display) || Character.isDigit(display.charAt(0));
    return choice.contains(display) || number && choice.stream().anyMatch(Sketch::isLetter);
  }

  private static boolean isLetter(String display) {
    return display.startsWith("{");
  }

  /** True when some choices and others have a picture in common. */
  private static boolean meet(List<List<String>> one, List<List<String>> other) {
    return one.size() == other.size()
        && IntStream.range(0, one.size())
            .allMatch(
                i ->
                    one.get(i).isEmpty()
                        || other.get(i).isEmpty()
                        || one.get(i).stream().anyMatch(d -> accepts(other.get(i), d))
                        || other.get(i).stream().anyMatch(d -> accepts(one.get(i), d)));
  }

  /**
   * "on … with … plates show … or …".
   *
   * @param alternatives each with a choice for each place; an empty choice is any
   */
  record Line(List<Form> forms, List<String> plates, List<List<List<String>>> alternatives) {}

  /**
   * "expect … or … on … with … plates means …".
   *
   * @param pictures each with a choice for each place
   * @param aspect empty for nothing
   */
  record Expected(
      Form form, List<String> plates, List<List<List<String>>> pictures, String aspect) {}

  /**
   * A signal.
   *
   * @param aspects the names it lists; empty when it lists none
   * @param units one without displays for the whole signal, or one for each head
   */
  record Signal(
      String name,
      Form form,
      List<Head> heads,
      List<String> plates,
      List<String> aspects,
      List<Unit> units) {

    /** True when heads are commanded by themselves. */
    boolean byHead() {
      return !units.get(0).shows().isEmpty();
    }
  }

  /** A way of commanding. */
  enum By {
    ASPECT_NUMBER("aspect-number"),
    BINARY_CODED("binary-coded"),
    ONE_PER_OUTPUT("one-per-output"),
    TOPIC("topic"),
    EVENT("event");

    final String word;

    By(String word) {
      this.word = word;
    }
  }

  /**
   * What one command drives.
   *
   * @param shows for a head, its displays
   * @param bits what the bus carries of an aspect's number: 5 or 8
   * @param addresses how many are listed; 0 when none is
   * @param values what each value is said to call up; empty when nothing is said
   * @param otherwise what other values are said to do; may be empty
   */
  record Unit(
      List<String> shows,
      By by,
      int bits,
      int addresses,
      Map<Integer, String> values,
      boolean byName,
      String otherwise) {}

  /** What the lamp of an arm shows in each position. */
  Map<String, String> byNight() {
    Map<String, String> seen = new TreeMap<>();
    heads.stream()
        .filter(head -> head.make == Make.ARM)
        .forEach(
            arm ->
                arm.figures.forEach(
                    (position, lit) -> lit.values().forEach(c -> seen.put(position, c))));
    return seen;
  }

  /** Every display that the book has words for. */
  List<String> displays() {
    Set<String> looks = new LinkedHashSet<>(colours);
    heads.forEach(head -> looks.addAll(head.figures().keySet()));
    List<String> displays = new ArrayList<>(List.of(DARK));
    displays.addAll(looks);
    looks.removeIf(look -> heads.stream().anyMatch(head -> head.takesNoRhythm(look)));
    rhythms.forEach(rhythm -> looks.forEach(look -> displays.add(rhythm + " " + look)));
    return displays;
  }

  /** A sketch by the dice. */
  static Sketch of(Dice dice) {
    List<String> colours = List.of("red", "green", "yellow").subList(0, dice.from(1, 3));
    List<String> rhythms = List.of("flashing", "winking").subList(0, dice.from(0, 2));
    List<String> plates = List.of("number", "grade", "letter board").subList(0, dice.from(0, 3));
    List<Integer> numbers = dice.onceIn(2) ? List.of() : dice.someOf(List.of(6, 4, 13), 2);
    List<Head> heads = new ArrayList<>();
    for (int i = dice.from(1, 2); i > 0; i--) {
      heads.add(head("h" + i, colours, rhythms, numbers, dice));
    }
    if (!numbers.isEmpty()) {
      heads.add(masks("all", numbers, dice.oneOf(colours)));
      heads.add(masks("some", dice.someOf(numbers, 1), dice.oneOf(colours)));
    }
    for (int i = dice.from(0, 2); i > 0; i--) {
      heads.add(arm("a" + i, colours, dice));
    }
    List<Form> forms = new ArrayList<>();
    for (int i = dice.from(1, 3); i > 0; i--) {
      int places = dice.from(1, 3);
      Set<Integer> dark =
          dice.onceIn(2)
              ? Set.of()
              : Set.copyOf(
                  dice.someOf(IntStream.range(0, places).boxed().toList(), 0).stream()
                      .limit(places - 1)
                      .toList());
      forms.add(new Form("f" + i, dice.oneOf(List.of("in line", "dwarf")), places, dark));
    }
    Sketch without =
        new Sketch(
            colours, rhythms, numbers, heads, forms, plates, List.of(), List.of(), List.of());
    Map<Integer, Aspect> aspects = new TreeMap<>();
    int count = dice.from(1, 4);
    int step = dice.from(MOST_OF_ONE, 9);
    int first = dice.from(0, 255);
    for (int i = 0; i < count; i++) {
      int number = first + i * step;
      // As many as fit below 256 come after the first one, and others before it.
      number = number + step > 256 ? first - (count - i) * step : number;
      List<String> letters = without.letters(dice);
      List<Line> lines = new ArrayList<>();
      for (int k = dice.from(1, 3); k > 0; k--) {
        lines.add(without.line(letters, dice));
      }
      List<Aspect> others =
          aspects.values().stream().filter(a -> a.letters().equals(letters)).toList();
      List<Likeness> likenesses =
          others.isEmpty() || plates.isEmpty() || !dice.onceIn(2)
              ? List.of()
              : List.of(likeness(dice.oneOf(others), plates, dice));
      String name = String.join(" by ", letters);
      aspects.put(
          number, new Aspect(("A" + i + " " + name).strip(), number, letters, lines, likenesses));
    }
    List<Aspect> all = List.copyOf(aspects.values());
    Sketch book =
        new Sketch(colours, rhythms, numbers, heads, forms, plates, all, List.of(), List.of());
    List<Signal> signals = new ArrayList<>();
    for (int i = 0, most = dice.from(1, 3); i < most; i++) {
      signals.add(book.signal("S" + i, dice));
    }
    Set<Expected> expectations = new LinkedHashSet<>();
    for (int i = dice.from(0, 3); i > 0; i--) {
      expectations.add(book.expected(dice));
    }
    return new Sketch(
        colours, rhythms, numbers, heads, forms, plates, all, List.copyOf(expectations), signals);
  }

  private static Head masks(String name, List<Integer> numbers, String colour) {
    Map<String, Map<Integer, String>> figures = new LinkedHashMap<>();
    for (int i = 0; i < numbers.size(); i++) {
      figures.put(Integer.toString(numbers.get(i)), Map.of(i, colour));
    }
    List<List<String>> lamps = numbers.stream().map(n -> List.of(colour)).toList();
    return new Head(name, lamps, figures, Make.MASKS);
  }

  /** A position shows one colour by night, on whichever arm. */
  private static Head arm(String name, List<String> colours, Dice dice) {
    boolean lit = dice.onceIn(2);
    Map<String, Map<Integer, String>> positions = new LinkedHashMap<>();
    for (String position : dice.someOf(POSITIONS, 2)) {
      String colour = colours.get(POSITIONS.indexOf(position) % colours.size());
      positions.put(position, lit ? Map.of(0, colour) : Map.of());
    }
    List<String> lamp =
        positions.values().stream().flatMap(p -> p.values().stream()).distinct().toList();
    return new Head(name, lit ? List.of(lamp) : List.of(), positions, Make.ARM);
  }

  /** Of an aspect: seldom more than one, and never so many that it becomes long. */
  private List<String> letters(Dice dice) {
    if (numbers.isEmpty() || !dice.onceIn(2)) {
      return List.of();
    }
    boolean two = numbers.size() == 2 && forms.stream().anyMatch(f -> f.places > 1);
    return two && dice.onceIn(3) ? List.of("{n}", "{m}") : List.of("{n}");
  }

  private static Head head(
      String name, List<String> colours, List<String> rhythms, List<Integer> numbers, Dice dice) {
    List<List<String>> lamps = new ArrayList<>();
    for (int i = dice.from(1, 3); i > 0; i--) {
      lamps.add(dice.someOf(colours, 1));
    }
    List<String> names = new ArrayList<>(List.of("bar", "cross"));
    names.addAll(colours);
    numbers.forEach(n -> names.add(Integer.toString(n)));
    Map<String, Map<Integer, String>> figures = new TreeMap<>();
    for (int i = dice.from(0, 2); i > 0; i--) {
      Map<Integer, String> lit = new TreeMap<>();
      dice.someOf(IntStream.range(0, lamps.size()).boxed().toList(), 1)
          .forEach(lamp -> lit.put(lamp, dice.oneOf(lamps.get(lamp))));
      if (!rhythms.isEmpty() && dice.onceIn(4)) {
        lit.computeIfPresent(
            dice.oneOf(List.copyOf(lit.keySet())),
            (l, colour) -> dice.oneOf(rhythms) + " " + colour);
      }
      figures.put(dice.oneOf(names), lit);
    }
    return new Head(name, lamps, figures, Make.LAMPS);
  }

  private Line line(List<String> letters, Dice dice) {
    Form form = dice.oneOf(forms.stream().filter(f -> f.places >= letters.size()).toList());
    List<Form> also =
        forms.stream()
            .filter(f -> f.places == form.places && f.usuallyDark.equals(form.usuallyDark))
            .toList();
    List<List<List<String>>> alternatives = new ArrayList<>();
    List<Form> on = dice.onceIn(4) ? also : List.of(form);
    List<String> with = dice.someOf(plates, 0);
    for (int i = dice.onceIn(4) ? 2 : 1; i > 0; i--) {
      List<List<String>> choices = new ArrayList<>();
      boolean asUsual = dice.onceIn(2);
      for (int place = 0; place < form.places; place++) {
        boolean dark = asUsual && form.usuallyDark.contains(place);
        choices.add(dark ? List.of(DARK) : choice(dice));
      }
      List<Integer> free = new ArrayList<>(IntStream.range(0, form.places).boxed().toList());
      for (String letter : letters) {
        choices.set(free.remove(dice.from(0, free.size() - 1)), List.of(letter));
      }
      alternatives.add(choices);
    }
    return new Line(on, with, alternatives);
  }

  private static Likeness likeness(Aspect other, List<String> plates, Dice dice) {
    List<Form> shown = other.patterns().stream().map(Pattern::form).distinct().toList();
    List<Form> forms = dice.onceIn(2) ? dice.someOf(shown, 1) : List.of();
    Likeness whole = new Likeness(other, forms, dice.oneOf(plates), List.of());
    List<List<List<String>>> all =
        whole.candidates().stream().map(Pattern::choices).distinct().toList();
    List<List<String>> exception = dice.oneOf(all);
    boolean leavesSome = !whole.candidates().stream().allMatch(p -> takes(exception, p));
    boolean cuts =
        whole.candidates().stream()
            .anyMatch(p -> meet(p.choices(), spread(exception, p.form())) && !takes(exception, p));
    return leavesSome && !cuts && dice.onceIn(2)
        ? new Likeness(other, forms, whole.plate(), List.of(exception))
        : whole;
  }

  /** One that holds as often as not. */
  private Expected expected(Dice dice) {
    Aspect aspect = dice.oneOf(aspects);
    Pattern pattern = dice.oneOf(aspect.patterns());
    boolean ofEach = dice.onceIn(2);
    Map<String, String> bound = ofEach ? Map.of() : dice.oneOf(bindings(aspect.letters()));
    List<List<List<String>>> pictures = new ArrayList<>(List.of(bind(pattern.choices(), bound)));
    if ((!ofEach || aspect.letters().isEmpty()) && dice.onceIn(3)) {
      pictures.set(0, pattern.choices().stream().map(c -> choice(dice)).toList());
    }
    if (dice.onceIn(4)) {
      pictures.add(pattern.choices().stream().map(c -> choice(dice)).toList());
    }
    Set<String> carried = new TreeSet<>(pattern.plates());
    carried.addAll(dice.onceIn(3) ? dice.someOf(plates, 0) : List.of());
    return new Expected(
        pattern.form(),
        List.copyOf(carried),
        pictures,
        dice.onceIn(4) ? "" : bind(aspect.name(), bound));
  }

  private List<String> choice(Dice dice) {
    Set<String> choice = new LinkedHashSet<>();
    switch (dice.from(0, 7)) {
      case 0, 1 -> {}
      case 2 -> choice.addAll(dice.someOf(displays(), 1));
      default -> {
        for (int i = dice.from(1, 2); i > 0; i--) {
          choice.add(dice.oneOf(displays()));
        }
      }
    }
    return List.copyOf(choice);
  }

  private Signal signal(String name, Dice dice) {
    Form form = dice.oneOf(forms);
    List<Head> made = new ArrayList<>();
    for (int place = 0; place < form.places; place++) {
      made.add(dice.oneOf(heads));
    }
    List<String> carried = dice.someOf(plates, 0);
    boolean byHead = dice.onceIn(4);
    if (byHead || made.stream().allMatch(h -> h.lamps().isEmpty())) {
      // Whatever is commanded has a place on a chain of LEDs.
      List<Head> lit = heads.stream().filter(h -> !h.lamps().isEmpty()).toList();
      made.replaceAll(h -> h.lamps().isEmpty() ? dice.oneOf(lit) : h);
    }
    if (byHead) {
      List<Unit> units = new ArrayList<>();
      for (Head head : made) {
        List<String> able = displays().stream().filter(head::canShow).toList();
        List<String> shows = dice.someOf(able, 1);
        units.add(unit(shows, shows, dice));
      }
      return new Signal(name, form, made, carried, List.of(), units);
    }
    List<String> asked = new ArrayList<>();
    if (dice.onceIn(2)) {
      dice.someOf(aspects, 1).forEach(a -> asked.addAll(asked(a, dice)));
    }
    List<String> known =
        ones().stream()
            .filter(
                o ->
                    asked.contains(o.name())
                        || (asked.isEmpty() || asked.contains(o.family()))
                            && (o.name().equals(o.family()) || o.isShown(form, made, carried)))
            .map(One::name)
            .toList();
    return new Signal(name, form, made, carried, asked, List.of(unit(List.of(), known, dice)));
  }

  /** An aspect of many numbers by its name, or some of those that it is. */
  private List<String> asked(Aspect aspect, Dice dice) {
    List<String> names =
        bindings(aspect.letters()).stream().map(bound -> bind(aspect.name(), bound)).toList();
    return dice.onceIn(2) ? dice.someOf(names, 1) : List.of(aspect.name());
  }

  private static Unit unit(List<String> shows, List<String> names, Dice dice) {
    By by = dice.oneOf(List.of(By.values()));
    boolean outputs = by == By.BINARY_CODED || by == By.ONE_PER_OUTPUT;
    Map<Integer, String> values = new LinkedHashMap<>();
    if (outputs && !names.isEmpty() && dice.onceIn(2)) {
      for (int i = dice.from(1, 4); i > 0; i--) {
        values.put(dice.from(0, 9), dice.oneOf(names));
      }
    }
    int addresses = outputs && dice.onceIn(3) ? dice.from(1, 4) : 0;
    return new Unit(
        shows,
        by,
        dice.onceIn(4) ? 8 : 5,
        addresses,
        values,
        dice.onceIn(2),
        dice.onceIn(5) ? dice.oneOf(List.of("keep", "most-restrictive")) : "");
  }

  /** The two files, for the report of a failure. */
  @Override
  public String toString() {
    return SketchText.book(this) + SketchText.layout(this, "book.aspects");
  }

  /** The forms that look like one: as many heads on the same mount. */
  Set<String> alike(Form form) {
    Set<String> alike = new TreeSet<>();
    forms.stream()
        .filter(f -> f.mount.equals(form.mount) && f.places == form.places)
        .forEach(f -> alike.add(f.name));
    return alike;
  }
}
