package dev.doublet.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.RulebookResolver;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Writes small random layouts, as text: one signal of heads with one to three lamps, wired in any
 * order, on LEDs whose yellow is mixed of two dies and whose lunar is mixed of three. The rulebook
 * is written twice, as that of {@link SmallBook} is.
 */
public final class SmallSignal {
  /** Which dies shine for each colour: bit 0 red, bit 1 green, bit 2 blue. */
  static final SortedMap<String, Integer> DIES =
      new TreeMap<>(Map.of("red", 1, "green", 2, "yellow", 3, "lunar", 7));

  private static final String LEDS =
      "{order: RGB, colours: {red: [255, 0, 0], green: [0, 255, 0], yellow: [255, 255, 0],"
          + " lunar: [255, 255, 255]}}";
  private static final List<String> NUMBERS = List.of("4", "6");
  private static final List<String> FORMS = List.of("one", "two", "three", "left");
  private static final List<List<String>> PLACES =
      List.of(List.of("a"), List.of("a", "b"), List.of("a", "b", "c"), List.of("a", "b"));
  private static final List<String> MOVEMENTS =
      List.of("stop", "slow", "fast", "odd", "stop, then slow");

  /**
   * A make of head: for each lamp the colours that it shows, and figures as colours by lamp.
   *
   * @param lamps colours of each lamp
   * @param figures lit lamps by the figure's name
   * @param flashing those of them that flash while the others of the figure are steady
   * @param vane whether a vane colours its lamps
   * @param masks whether its lamps stand behind masks of numbers
   */
  record Make(
      List<List<String>> lamps,
      SortedMap<String, SortedMap<Integer, String>> figures,
      SortedMap<String, Set<Integer>> flashing,
      boolean vane,
      boolean masks) {

    /** What a lamp is called. */
    String lamp(int index) {
      return masks ? NUMBERS.get(index) : "l" + index;
    }

    /** Everything that it can show, with the lamps that then shine. */
    SortedMap<String, SortedMap<Integer, String>> looks() {
      SortedMap<String, SortedMap<Integer, String>> looks = new TreeMap<>(figures);
      for (String colour : masks ? Set.<String>of() : DIES.keySet()) {
        List<Integer> able = new ArrayList<>();
        for (int lamp = 0; lamp < lamps.size(); lamp++) {
          if (lamps.get(lamp).contains(colour)) {
            able.add(lamp);
          }
        }
        if (able.size() == 1) {
          looks.putIfAbsent(colour, new TreeMap<>(Map.of(able.get(0), colour)));
        }
      }
      return looks;
    }
  }

  private final Random random;
  private final int form;
  private final List<Make> makes = new ArrayList<>();
  private final List<Integer> heads = new ArrayList<>();
  private final List<Integer> wired = new ArrayList<>();
  private final List<String> plates;
  private final String book;
  private final String plainBook;

  public SmallSignal(long start) {
    this.random = new Random(start);
    this.form = random.nextInt(FORMS.size());
    makes.add(random.nextInt(3) == 0 ? masks() : make());
    makes.add(make());
    for (int place = 0; place < PLACES.get(form).size(); place++) {
      heads.add(random.nextInt(2));
      wired.add(place);
    }
    Collections.shuffle(wired, random);
    this.plates =
        List.of(List.<String>of(), List.of("p"), List.of("p", "q")).get(random.nextInt(3));
    StringBuilder many = new StringBuilder(head());
    StringBuilder plain = new StringBuilder(many);
    for (int i = 0; i < 6; i++) {
      String aspect = aspect(i);
      many.append(aspect.replace("={n}", "{n}"));
      plain.append(ofEachNumber(aspect));
    }
    this.book = many.toString();
    this.plainBook = plain.toString();
  }

  private Make masks() {
    String colour = one(List.copyOf(DIES.keySet()));
    SortedMap<String, SortedMap<Integer, String>> figures = new TreeMap<>();
    for (int lamp = 0; lamp < NUMBERS.size(); lamp++) {
      figures.put(NUMBERS.get(lamp), new TreeMap<>(Map.of(lamp, colour)));
    }
    List<List<String>> lamps = NUMBERS.stream().map(n -> List.of(colour)).toList();
    return new Make(lamps, figures, new TreeMap<>(), false, true);
  }

  public LayoutFacts facts() {
    return facts(book, layout());
  }

  /** The rulebook, as text. */
  public String bookText() {
    return book;
  }

  /** The facts of a layout with its rulebook, both as text. */
  public static LayoutFacts facts(String book, String yaml) {
    SourceFile rules = new SourceFile("small.aspects", book);
    SourceFile layout = new SourceFile("layout.yaml", yaml);
    Outcome<Layout> read =
        LayoutResolver.resolve("layout.yaml", path -> path.endsWith("yaml") ? layout : rules);
    assertThat(read.value()).as("%s%n%s", book, read.diagnostics()).isPresent();
    return LayoutFacts.of(read.value().get(), new CheckOptions(true, 2));
  }

  /** The rulebook, with more lines after it. */
  public Rulebook rulebook(String more) {
    SourceFile rules = new SourceFile("small.aspects", book + more);
    return RulebookResolver.resolve("small.aspects", path -> rules).value().orElseThrow();
  }

  /** The rulebook with an aspect for each number. */
  Rulebook plain() {
    SourceFile rules = new SourceFile("small.aspects", plainBook);
    return RulebookResolver.resolve("small.aspects", path -> rules).value().orElseThrow();
  }

  /** The make of head at each place. */
  public List<Make> heads() {
    return heads.stream().map(makes::get).toList();
  }

  /** The places in the order of the chain. */
  public List<Integer> wired() {
    return wired;
  }

  private Make make() {
    int lamps = 1 + random.nextInt(3);
    List<List<String>> colours = new ArrayList<>();
    for (int lamp = 0; lamp < lamps; lamp++) {
      List<String> all = new ArrayList<>(DIES.keySet());
      Collections.shuffle(all, random);
      colours.add(List.copyOf(all.subList(0, 1 + random.nextInt(2))));
    }
    SortedMap<String, SortedMap<Integer, String>> figures = new TreeMap<>();
    SortedMap<String, Set<Integer>> flashing = new TreeMap<>();
    for (int figure = 0; lamps > 1 && figure < 2; figure++) {
      SortedMap<Integer, String> lit = new TreeMap<>();
      while (lit.size() < 2) {
        int lamp = random.nextInt(lamps);
        lit.put(lamp, one(colours.get(lamp)));
      }
      if (lamps == 3 && random.nextBoolean()) {
        for (int lamp = 0; lamp < lamps; lamp++) {
          lit.putIfAbsent(lamp, one(colours.get(lamp)));
        }
      }
      if (!figures.containsValue(lit)) {
        figures.put("figure" + figure, lit);
        if (random.nextInt(3) == 0) {
          flashing.put("figure" + figure, Set.of(one(List.copyOf(lit.keySet()))));
        }
      }
    }
    return new Make(colours, figures, flashing, random.nextBoolean(), false);
  }

  private String head() {
    StringBuilder text = new StringBuilder("rulebook \"Small\"\n");
    text.append("speeds in mph { figures 40, 60  fast 60  slow 20  odd unranked }\n");
    text.append("numbers times 10 { 4 6 }\ncolours { red green yellow lunar }\n");
    text.append("rhythms { flashing 60 per minute }\nplate p, q\n");
    for (int i = 0; i < makes.size(); i++) {
      head(i, text);
    }
    text.append("form one { a }\nform two { a, b }\nform three { a, b, c }\n");
    text.append("form left staggered { a, b }\n");
    Imperfect rule = Imperfect.CHOICES.get(random.nextInt(4));
    text.append("imperfect signals read as ");
    if (random.nextInt(3) == 0) {
      text.append("\"A0\" where yellow");
      text.append(random.nextBoolean() ? " or lunar" : "");
      text.append(random.nextBoolean() ? " alone" : "").append(" shows, else ");
    }
    text.append(rule.words()).append('\n');
    return text.toString();
  }

  /** The first one may be one that imperfect signals are read as. */
  private boolean isMany(int i) {
    return i > 0 && makes.get(0).masks() && heads.contains(0) && random.nextInt(3) == 0;
  }

  private String aspect(int i) {
    boolean many = isMany(i);
    StringBuilder text = new StringBuilder("aspect \"A").append(i).append(many ? " {n}" : "");
    text.append("\" { number ").append(i * NUMBERS.size()).append(many ? " up" : "");
    text.append(" allows ").append(movement(many));
    if (random.nextBoolean()) {
      text.append(" then ").append(movement(many));
    }
    text.append(pattern(form, many));
    return text.append(pattern(random.nextInt(FORMS.size()), many)).append(" }\n").toString();
  }

  private String movement(boolean many) {
    return many && random.nextBoolean() ? "={n}" : one(MOVEMENTS);
  }

  private static String ofEachNumber(String aspect) {
    Matcher first = Pattern.compile("number (\\d+) up").matcher(aspect);
    if (!first.find()) {
      return aspect;
    }
    StringBuilder all = new StringBuilder();
    for (int i = 0; i < NUMBERS.size(); i++) {
      int number = Integer.parseInt(first.group(1)) + i;
      all.append(
          aspect
              .replace(first.group(), "number " + number)
              .replace("={n}", NUMBERS.get(i) + "0")
              .replace("{n}", NUMBERS.get(i)));
    }
    return all.toString();
  }

  private void head(int index, StringBuilder text) {
    Make make = makes.get(index);
    text.append("head m").append(index);
    if (make.masks()) {
      text.append(" shows numbers in ").append(make.lamps().get(0).get(0)).append('\n');
      return;
    }
    if (make.vane()) {
      text.append(" with vane ").append(make.lamps().get(0).get(0));
    }
    text.append(" {");
    for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
      text.append(" lamp l").append(lamp).append(" shows ");
      text.append(String.join(", ", make.lamps().get(lamp)));
    }
    make.figures()
        .forEach(
            (name, lit) -> {
              Map<Integer, String> lamps = new LinkedHashMap<>(lit);
              Set<Integer> flashing = make.flashing().getOrDefault(name, Set.of());
              lamps.replaceAll(
                  (lamp, colour) ->
                      (flashing.contains(lamp) ? "flashing l" : "l") + lamp + " in " + colour);
              text.append(" figure ").append(name).append(" lights ");
              text.append(String.join(", ", lamps.values()));
            });
    text.append(" }\n");
  }

  /** On the signal's own form what its heads can show, so that some of it is shown. */
  private String pattern(int on, boolean many) {
    List<String> displays = new ArrayList<>();
    for (int place = 0; place < PLACES.get(on).size(); place++) {
      Make make = makes.get(on == form ? heads.get(place) : random.nextInt(2));
      List<String> looks = new ArrayList<>(make.looks().keySet());
      String look = looks.isEmpty() ? "dark" : one(looks);
      displays.add(
          switch (random.nextInt(8)) {
            case 0 -> "any";
            case 1 -> "(" + look + " or dark)";
            case 2 -> "dark";
            case 3, 4 -> look.equals("dark") || flashesByItself(look) ? look : "flashing " + look;
            default -> look;
          });
    }
    if (many) {
      List<Integer> places = new ArrayList<>();
      for (int place = 0; place < displays.size(); place++) {
        if (on != form || heads.get(place) == 0) {
          places.add(place);
        }
      }
      displays.set(one(places), "{n}");
    }
    String plate = random.nextInt(4) == 0 ? " with p plate" : "";
    return " on " + FORMS.get(on) + plate + " show " + String.join(" over ", displays);
  }

  private boolean flashesByItself(String look) {
    return makes.stream().anyMatch(make -> make.flashing().containsKey(look));
  }

  /** The layout, as text; the same each time. */
  public String layout() {
    List<String> places = PLACES.get(form);
    return "layout: Small\nrulebook: small.aspects\notherwise: most-restrictive\nleds:\n  own: "
        + LEDS
        + "\ncontrollers:\n  west:\n    flash: 28672\n    ram: 1536\n    chains:\n      main:\n"
        + "        signals:\n        - {name: S, form: "
        + FORMS.get(form)
        + ", heads: "
        + heads.stream().map(h -> "m" + h).toList()
        + ", wired: "
        + wired.stream().map(places::get).toList()
        + ", plates: "
        + plates
        + ", by: aspect-number}\n";
  }

  /** The same signal with each head commanded by itself, to all that it can show. */
  public LayoutFacts factsByHead() {
    List<String> made =
        heads.stream()
            .map(h -> "{type: m" + h + ", shows: " + shows(makes.get(h)) + ", by: topic, bus: b}")
            .toList();
    String yaml =
        layout()
            .replaceFirst("heads: \\[[^]]*]", "heads: " + Matcher.quoteReplacement(made.toString()))
            .replace(", by: aspect-number}", "}")
            .replace("controllers:", "buses:\n  b: {speaks: mqtt}\ncontrollers:");
    return facts(book, yaml);
  }

  /** What a head of some make can show: dark, and every look steady and flashing. */
  List<String> shows(Make make) {
    List<String> shows = new ArrayList<>(List.of("dark"));
    shows.addAll(make.looks().keySet());
    make.looks().keySet().stream()
        .filter(look -> !flashesByItself(look))
        .forEach(look -> shows.add("flashing " + look));
    return shows;
  }

  private <T> T one(List<T> words) {
    return words.get(random.nextInt(words.size()));
  }
}
