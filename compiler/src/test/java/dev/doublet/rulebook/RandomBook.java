package dev.doublet.rulebook;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.source.Mentions;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Random;
import java.util.Set;
import java.util.function.Supplier;
import java.util.stream.IntStream;

/** Makes correct rulebooks. */
final class RandomBook {
  private static final Span NOWHERE = new SourceFile("nowhere", "").span(0, 0);
  private static final List<String> LETTERS =
      List.of("a", "Q", "ü", "ß", "_", "7b", "Ж", "x-", "-9", "0", "𝔏", "信");

  /** Words of the language that are names too. */
  private static final List<String> SOFT =
      List.of("edition", "mph", "maximum", "sight", "line", "dwarf", "second", "at");

  private static final List<String> SOFTER =
      List.of("was", "rule", "number", "indicates", "lit", "starting");

  private static final List<String> PUBLISHED = List.of("red", "warm-white", "green-deficient");

  private final Random random;
  private final Set<String> taken = new HashSet<>();
  private final Set<String> flashing = new HashSet<>();

  RandomBook(long start) {
    this.random = new Random(start);
  }

  /** A correct rulebook without places. */
  Rulebook book() {
    List<Speed> speeds = some(1, 4, this::speed);
    List<Colour> colours = some(1, 4, this::colour);
    List<Rhythm> rhythms =
        some(
            0,
            3,
            () -> new Rhythm(name(false), from(1, 600), from(1, 99), from(0, 1) == 1, NOWHERE));
    List<HeadType> heads = some(0, 3, () -> head(colours, rhythms));
    List<Form> forms = some(1, 4, this::form);
    List<Plate> plates = some(0, 3, () -> new Plate(name(true), random.nextBoolean(), NOWHERE));
    List<String> looks = new ArrayList<>(colours.stream().map(Colour::name).toList());
    heads.forEach(h -> h.figures().forEach(f -> looks.add(f.name())));
    List<Integer> numbers = new ArrayList<>(IntStream.range(0, 256).boxed().toList());
    Collections.shuffle(numbers, random);
    List<Aspect> aspects = new ArrayList<>();
    for (int i = 0; i < from(1, 4); i++) {
      List<Pattern> patterns =
          some(aspects.isEmpty() ? 1 : 0, 5, () -> pattern(forms, plates, rhythms, looks));
      if (i > 0 && !plates.isEmpty() && random.nextBoolean()) {
        patterns.addAll(alike(oneOf(aspects), oneOf(plates)));
      }
      aspects.add(
          new Aspect(
              "Aspect " + i,
              random.nextInt(4) > 0 ? List.of() : List.of("Old " + i, "Older " + i),
              random.nextBoolean() ? "" : from(1, 999) + (random.nextBoolean() ? "" : "A"),
              random.nextBoolean() ? Aspect.NO_NUMBER : numbers.get(i),
              random.nextBoolean() ? "" : "Proceed # or {stop} – " + i,
              permission(speeds),
              patterns,
              Numerals.NONE,
              NOWHERE,
              NOWHERE));
    }
    String date = random.nextBoolean() ? "" : "19" + from(10, 99) + "-0" + from(1, 9) + "-11";
    String unit = random.nextBoolean() ? "mph" : "km/h";
    return new Rulebook(
        "Brackwater & Northern",
        from(0, 3) == 0 ? from(1, 65_535) : 0,
        date,
        unit,
        random.nextBoolean() ? "" : "marine",
        speeds,
        Numbers.NONE,
        colours,
        rhythms,
        heads,
        forms,
        plates,
        aspects,
        failures(forms, aspects, looks),
        expectations(aspects, forms, plates, rhythms, looks),
        some(0, 2, () -> acceptance(aspects, forms, rhythms)),
        Unread.NOTHING,
        Mentions.NONE,
        NOWHERE);
  }

  private List<Expectation> expectations(
      List<Aspect> aspects,
      List<Form> forms,
      List<Plate> plates,
      List<Rhythm> rhythms,
      List<String> looks) {
    List<Expectation> all = new ArrayList<>();
    for (int i = from(0, 3); i > 0; i--) {
      Form form = oneOf(forms);
      List<List<Choice>> pictures =
          some(1, 2, () -> form.places().stream().map(p -> choice(rhythms, looks)).toList());
      List<String> carried = someOf(plates, 0).stream().map(Plate::name).toList();
      String aspect = random.nextBoolean() ? "" : oneOf(aspects).name();
      all.add(new Expectation.Meaning(form, carried, pictures, aspect, NOWHERE));
      Permission.Standing standing = Permission.Standing.values()[from(1, 3)];
      all.add(
          new Expectation.Order(oneOf(aspects).name(), standing, oneOf(aspects).name(), NOWHERE));
      all.add(
          new Expectation.Precedence(
              oneOf(aspects).name(), random.nextBoolean(), oneOf(aspects).name(), NOWHERE));
      all.add(new Expectation.Allowed(oneOf(aspects).name(), oneOf(aspects).permission(), NOWHERE));
    }
    return all;
  }

  /** About an aspect or a rhythm at least. */
  private Acceptance acceptance(List<Aspect> aspects, List<Form> forms, List<Rhythm> rhythms) {
    List<String> of = new ArrayList<>();
    someOf(aspects, 1).forEach(a -> of.add(a.name()));
    someOf(rhythms, 0).forEach(r -> of.add(r.name()));
    someOf(forms, 0).forEach(f -> of.add(f.name()));
    return new Acceptance("check-" + from(1, 9), of, "rule " + from(1, 9), NOWHERE);
  }

  private Failures failures(List<Form> forms, List<Aspect> aspects, List<String> looks) {
    List<Fault> faults = List.of(Fault.values());
    List<Cover> covers =
        some(
            0,
            2,
            () ->
                new Cover(
                    Set.copyOf(someOf(faults, 1)),
                    someOf(forms, 0),
                    "rule " + from(1, 9),
                    NOWHERE));
    Failures.Imperfect imperfect = oneOf(List.of(Failures.Imperfect.values()));
    List<Proviso> provisos =
        some(
            0,
            2,
            () -> new Proviso(oneOf(aspects).name(), someOf(looks, 1), from(0, 1) == 1, NOWHERE));
    return new Failures(
        imperfect == Failures.Imperfect.UNSAID ? List.of() : provisos,
        imperfect,
        covers,
        Set.copyOf(someOf(faults, 0)));
  }

  private Colour colour() {
    String name = name(false);
    return new Colour(name, random.nextBoolean() ? name : oneOf(PUBLISHED), NOWHERE);
  }

  private Speed speed() {
    Speed.Rank rank = Speed.Rank.values()[from(0, 2)];
    int figure = rank == Speed.Rank.FIGURE ? from(1, 999) : 0;
    return new Speed(name(true), rank, figure, random.nextBoolean(), NOWHERE);
  }

  private HeadType head(List<Colour> colours, List<Rhythm> rhythms) {
    return random.nextInt(4) == 0 ? arm(colours) : ofLamps(colours, rhythms);
  }

  private HeadType arm(List<Colour> colours) {
    boolean hasLamp = random.nextBoolean();
    Set<Colour> shown = new LinkedHashSet<>();
    List<Figure> positions =
        some(
            2,
            4,
            () -> {
              List<Colour> glass = hasLamp ? List.of(oneOf(colours)) : List.of();
              shown.addAll(glass);
              List<Lit> lit = glass.stream().map(c -> new Lit(0, c.name())).toList();
              return new Figure(name(false), lit, NOWHERE);
            });
    List<String> names = positions.stream().map(Figure::name).toList();
    flashing.addAll(names);
    List<Lamp> lamps = hasLamp ? List.of(new Lamp("lamp", List.copyOf(shown), NOWHERE)) : List.of();
    return new HeadType(name(true), lamps, sorted(positions), false, "", names, NOWHERE);
  }

  private HeadType ofLamps(List<Colour> colours, List<Rhythm> rhythms) {
    List<Lamp> lamps = some(1, 4, () -> new Lamp(name(true), someOf(colours, 1), NOWHERE));
    List<Figure> figures = some(0, 2, () -> figure(lamps, rhythms));
    String vane = random.nextBoolean() ? "" : oneOf(lamps.get(0).colours()).name();
    return new HeadType(
        name(true), lamps, sorted(figures), random.nextBoolean(), vane, List.of(), NOWHERE);
  }

  private Figure figure(List<Lamp> lamps, List<Rhythm> rhythms) {
    List<Lit> lit = new ArrayList<>();
    for (Lamp lamp : someOf(lamps, 1)) {
      boolean steady = rhythms.isEmpty() || random.nextInt(3) > 0;
      String rhythm = steady ? "" : oneOf(rhythms).name();
      lit.add(new Lit(lamps.indexOf(lamp), oneOf(lamp.colours()).name(), rhythm));
    }
    lit.sort(Comparator.comparingInt(Lit::lamp));
    Figure figure = new Figure(name(false), lit, NOWHERE);
    if (figure.flashesByItself()) {
      flashing.add(figure.name());
    }
    return figure;
  }

  private static List<Figure> sorted(List<Figure> figures) {
    return figures.stream().sorted(Comparator.comparing(Figure::name)).toList();
  }

  private Form form() {
    List<String> places = some(1, 3, () -> name(true));
    List<String> some = someOf(places, 0);
    List<String> dark =
        places.stream().filter(p -> some.contains(p) && some.size() < places.size()).toList();
    Mount mount = Mount.values()[from(0, 3)];
    return new Form(name(true), mount, places, dark, random.nextBoolean(), NOWHERE);
  }

  private Permission permission(List<Speed> speeds) {
    return new Permission(
        random.nextInt(6) == 0 ? new Movement.Unsaid() : movement(speeds),
        random.nextBoolean() ? new Movement.Unsaid() : movement(speeds),
        random.nextInt(4) == 0,
        random.nextBoolean() ? new Movement.Unsaid() : movement(speeds));
  }

  private Movement movement(List<Speed> speeds) {
    return switch (from(0, 5)) {
      case 0 -> new Movement.Stop();
      case 1 -> new Movement.StopThen(oneOf(speeds));
      case 2 -> new Movement.NotStop();
      case 3 -> reducing(oneOf(speeds), oneOf(speeds));
      default -> new Movement.Proceed(oneOf(speeds));
    };
  }

  private static Movement reducing(Speed one, Speed other) {
    return one.pace().atMost(other.pace())
        ? new Movement.Proceed(one)
        : new Movement.Reducing(one, other);
  }

  private Pattern pattern(
      List<Form> forms, List<Plate> plates, List<Rhythm> rhythms, List<String> looks) {
    Form form = oneOf(forms);
    List<Choice> choices = form.places().stream().map(p -> choice(rhythms, looks)).toList();
    return new Pattern(
        form, someOf(plates, 0).stream().map(Plate::name).toList(), choices, NOWHERE);
  }

  private Choice choice(List<Rhythm> rhythms, List<String> looks) {
    List<Display> displays = some(0, 3, () -> display(rhythms, looks));
    return new Choice(displays.stream().distinct().toList(), NOWHERE);
  }

  private Display display(List<Rhythm> rhythms, List<String> looks) {
    if (from(0, 4) == 0) {
      return Display.DARK;
    }
    boolean steady = rhythms.isEmpty() || random.nextBoolean();
    String look = oneOf(looks);
    return new Display(look, steady || flashing.contains(look) ? "" : oneOf(rhythms).name());
  }

  /** Some forms' patterns of an aspect, or some of those, on signals that also carry a plate. */
  private List<Pattern> alike(Aspect other, Plate plate) {
    List<Form> forms = other.patterns().stream().map(Pattern::form).distinct().toList();
    List<Form> some = someOf(forms, 0);
    List<Pattern> all = other.patterns().stream().filter(p -> some.contains(p.form())).toList();
    Set<List<Choice>> left = new HashSet<>();
    all.forEach(p -> left.add(random.nextInt(3) == 0 ? List.of() : p.choices()));
    return all.stream()
        .filter(p -> left.contains(p.choices()))
        .map(p -> p.with(plate, NOWHERE))
        .toList();
  }

  /** A new name; a broad one may also be a word that ends a display elsewhere. */
  private String name(boolean broad) {
    while (true) {
      List<String> pool = broad && random.nextBoolean() ? SOFTER : SOFT;
      String name = from(0, 3) == 0 ? oneOf(pool) : "n";
      while (name.equals("n") || from(0, 2) == 0) {
        name += oneOf(LETTERS);
      }
      if (taken.add(name)) {
        return name;
      }
    }
  }

  private int from(int least, int most) {
    return least + random.nextInt(most - least + 1);
  }

  private <T> T oneOf(List<T> list) {
    return list.get(random.nextInt(list.size()));
  }

  private <T> List<T> someOf(List<T> list, int least) {
    List<T> shuffled = shuffled(list);
    return shuffled.subList(0, from(Math.min(least, list.size()), list.size()));
  }

  private <T> List<T> shuffled(List<T> list) {
    List<T> shuffled = new ArrayList<>(list);
    Collections.shuffle(shuffled, random);
    return shuffled;
  }

  private <T> List<T> some(int least, int most, Supplier<T> make) {
    return new ArrayList<>(
        IntStream.range(0, from(least, most)).mapToObj(i -> make.get()).toList());
  }
}
