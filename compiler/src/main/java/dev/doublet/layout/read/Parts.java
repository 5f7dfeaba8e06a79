package dev.doublet.layout.read;

import dev.doublet.colour.LedFamily;
import dev.doublet.layout.Drives;
import dev.doublet.layout.Part;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** The kinds of LED of a layout. */
final class Parts {
  private static final double CHANNEL_MILLIAMPS = 20;
  private static final double REST_MILLIAMPS = 1;
  private static final int LATCH_MICROS = 280;

  /**
   * The highest of the least supplies that makers' data sheets of the one-wire family print: 3.7 V
   * in one of 2019, 3.5 V in two of 2015 and 2016.
   */
  private static final double MINIMUM_VOLTS = 3.7;

  /**
   * The largest supply that makers' data sheets of the one-wire family allow: 5.3 V in two of three
   * channels (the newer of 2019), 5.5 V in one of four (2015).
   */
  private static final double MAXIMUM_VOLTS = 5.3;

  private static final double MAXIMUM_VOLTS_OF_FOUR = 5.5;

  private static final int MOST_VOLTS = 60;
  private static final int MOST_LATCH_MICROS = 100_000;
  private static final int MOST_MILLIAMPS = 1_000;

  /** Whether colours are sent at full drive, or all as weak as the weakest. */
  static final Map<String, Boolean> STRENGTHS = new TreeMap<>(Map.of("full", false, "even", true));

  private final List<Part> all;
  private final Complaints complaints;

  private Parts(List<Part> all, Complaints complaints) {
    this.all = List.copyOf(all);
    this.complaints = complaints;
  }

  /** The kinds that a layout declares, or one of red, green and blue when it declares none. */
  static Parts read(Section layout, Rulebook book, Complaints complaints) {
    List<Part> all = new ArrayList<>();
    if (layout.says("leds")) {
      layout
          .mapping("leds")
          .ifPresent(m -> m.entries().forEach(e -> part(e, book, complaints).ifPresent(all::add)));
    } else {
      all.add(
          new Part(
              "rgb",
              "GRB",
              Families.plain(3),
              Drives.of(Families.plain(3), book, Set.of(), false),
              CHANNEL_MILLIAMPS,
              REST_MILLIAMPS,
              LATCH_MICROS,
              MINIMUM_VOLTS,
              MAXIMUM_VOLTS,
              layout.place()));
    }
    return new Parts(all, complaints);
  }

  /** The kind that a chain names, or the first. */
  Optional<Part> choose(Section chain) {
    Optional<YamlNode.Scalar> named = chain.scalar("leds", "the name of a kind of LED");
    if (named.isEmpty()) {
      return all.stream().findFirst();
    }
    Optional<Part> found =
        all.stream().filter(p -> p.name().equals(named.get().text())).findFirst();
    if (found.isEmpty()) {
      complaints.unknownName(named.get(), "kind of LED", all.stream().map(Part::name).toList());
    }
    return found;
  }

  private static Optional<Part> part(YamlNode.Entry entry, Rulebook book, Complaints complaints) {
    Span span = entry.key().span();
    if (!(entry.value() instanceof YamlNode.Mapping mapping)) {
      complaints.wrongType(entry.value(), entry.key().text(), "keys with values");
      return Optional.empty();
    }
    Section said = Section.of(mapping, Keys.LEDS, span, complaints);
    Optional<String> ordered = said.scalar("order", "letters").map(s -> order(s, complaints));
    LedFamily family = Families.read(said, ordered.orElse(""), complaints);
    String order = ordered.orElse(family.dies().size() == 4 ? "GRBW" : "GRB");
    boolean evenly = said.word("strength", STRENGTHS).orElse(false);
    Optional<Section> current = said.section("milliamps", Keys.MILLIAMPS);
    double channel =
        current.flatMap(c -> c.decimal("channel", MOST_MILLIAMPS, false)).orElse(CHANNEL_MILLIAMPS);
    double rest =
        current.flatMap(c -> c.decimal("rest", MOST_MILLIAMPS, true)).orElse(REST_MILLIAMPS);
    int latch = said.integer("latch", 1, MOST_LATCH_MICROS).orElse(LATCH_MICROS);
    double minimum = said.decimal("minimum-volts", MOST_VOLTS, false).orElse(MINIMUM_VOLTS);
    double maximum = maximumVolts(said, minimum, order.length(), complaints);
    SortedMap<String, List<Integer>> given = new TreeMap<>();
    said.mapping("colours")
        .ifPresent(
            colours -> {
              for (YamlNode.Entry colour : colours.entries()) {
                drive(colour, book, order, complaints)
                    .ifPresent(values -> given.put(colour.key().text(), values));
              }
            });
    SortedMap<String, List<Integer>> drive = Drives.of(family, book, given.keySet(), evenly);
    drive.putAll(given);
    return Optional.of(
        new Part(
            entry.key().text(),
            order,
            family,
            drive,
            channel,
            rest,
            latch,
            minimum,
            maximum,
            span));
  }

  /** Two volts that leave nothing between them are a mistake, or one of them is missing. */
  private static double maximumVolts(
      Section said, double minimum, int channels, Complaints complaints) {
    double maximum =
        said.decimal("maximum-volts", MOST_VOLTS, false)
            .orElse(channels == 4 ? MAXIMUM_VOLTS_OF_FOUR : MAXIMUM_VOLTS);
    if (maximum > minimum) {
      return maximum;
    }
    if (said.says("maximum-volts")) {
      complaints.badValue(
          said.entry("maximum-volts").orElseThrow().value().span(),
          "an LED that needs " + minimum + " V cannot bear only " + maximum + " V",
          "write the largest supply that its data sheet allows, or its \"minimum-volts\".");
    } else {
      complaints.missingKey(
          said.place(),
          "an LED that needs " + minimum + " V does not say how much it bears",
          "add \"maximum-volts: \" and the largest supply that its data sheet allows.");
    }
    return maximum;
  }

  private static String order(YamlNode.Scalar order, Complaints complaints) {
    String text = order.text();
    boolean once = text.chars().distinct().count() == text.length();
    if (once && (text.matches("[RGB]{3}") || text.matches("[RGBW]{4}"))) {
      return text;
    }
    complaints.badValue(
        order.span(),
        "\"order\" cannot be \"" + text + "\"",
        "write the letters R, G and B, or R, G, B and W, in the order in which the LED takes its"
            + " bytes, such as GRB.");
    return "GRB";
  }

  private static Optional<List<Integer>> drive(
      YamlNode.Entry entry, Rulebook book, String order, Complaints complaints) {
    String colour = entry.key().text();
    if (book.colours().stream().noneMatch(c -> c.name().equals(colour))) {
      complaints.unknownName(
          entry.key(), "colour", book.colours().stream().map(Colour::name).toList());
      return Optional.empty();
    }
    if (!(entry.value() instanceof YamlNode.Sequence sequence)) {
      complaints.wrongType(entry.value(), colour, "a list of numbers");
      return Optional.empty();
    }
    List<Integer> values = new ArrayList<>();
    Section reader =
        Section.unchecked(
            new YamlNode.Mapping(List.of(entry), entry.value().span()),
            entry.key().span(),
            complaints);
    for (YamlNode item : sequence.items()) {
      reader.integer(item, colour, 0, 255).ifPresent(values::add);
    }
    if (values.size() == sequence.items().size() && values.size() != order.length()) {
      complaints.badValue(
          sequence.span(),
          "\""
              + colour
              + "\" has "
              + Complaints.count(values.size(), "number")
              + ", but an LED of order "
              + order
              + " has "
              + order.length()
              + " channels",
          "write a drive of 0 to 255 for "
              + (order.length() == 4 ? "red, green, blue and white." : "red, green and blue."));
    }
    return values.size() == order.length() ? Optional.of(values) : Optional.empty();
  }
}
