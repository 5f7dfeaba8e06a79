package dev.doublet.layout.read;

import dev.doublet.colour.LedFamily;
import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Drives;
import dev.doublet.layout.Part;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;

/** The kinds of LED of a layout. */
final class Parts {
  /**
   * Common practice, from memory; one maker's sheet, of 2019, prints 12 mA. Too high a figure costs
   * a stronger supply, too low a one a dark layout.
   */
  private static final double CHANNEL_MILLIAMPS = 20;

  /** What one maker's sheet prints, for four channels; 0.6 mA in another, of 2019. */
  private static final double REST_MILLIAMPS = 1;

  /** The longest rest that makers' sheets of the one-wire family ask for: 280 in one of 2019. */
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

  private final Declared<Part> all;
  private final Complaints complaints;

  private Parts(Declared<Part> all, Complaints complaints) {
    this.all = all;
    this.complaints = complaints;
  }

  /** The kinds that a layout declares, or one of red, green and blue when it declares none. */
  static Parts read(Section layout, Rulebook book, BookNames names, Complaints complaints) {
    if (layout.maySay(Keys.ALL_LEDS)) {
      return new Parts(
          Declared.read(
              layout,
              complaints,
              Keys.ALL_LEDS,
              "kind of LED",
              (name, said) ->
                  Optional.of(
                      part(
                          name.text(),
                          Section.named(name, said, Keys.LEDS, complaints),
                          book,
                          names,
                          complaints))),
          complaints);
    }
    LedFamily family = Families.plain(3);
    Part plain =
        new Part(
            "rgb",
            "GRB",
            family,
            Drives.of(family, book, Set.of(), false),
            CHANNEL_MILLIAMPS,
            REST_MILLIAMPS,
            LATCH_MICROS,
            MINIMUM_VOLTS,
            MAXIMUM_VOLTS,
            layout.span());
    return new Parts(Declared.builtIn("kind of LED", "rgb", plain), complaints);
  }

  /** The kind that a chain names, or the first; empty when it has a mistake or is none. */
  Optional<Part> choose(Section chain) {
    return chain.says(Keys.LEDS_OF)
        ? chain.read(Keys.LEDS_OF).flatMap(name -> all.find(name, complaints))
        : all.all().stream().findFirst().flatMap(first -> first);
  }

  private static Part part(
      String name, Section said, Rulebook book, BookNames names, Complaints complaints) {
    Optional<String> ordered = said.read(Keys.ORDER).map(YamlNode.Scalar::text);
    LedFamily family = Families.read(said, ordered.orElse(""), complaints);
    String order = ordered.orElse(family.dies().size() == 4 ? "GRBW" : "GRB");
    boolean evenly = said.read(Keys.STRENGTH).orElse(false);
    Optional<Section> current = said.read(Keys.MILLIAMPS_OF, Keys.MILLIAMPS);
    double minimum = said.read(Keys.MINIMUM_VOLTS).orElse(MINIMUM_VOLTS);
    SortedMap<String, List<Integer>> given = new TreeMap<>();
    for (Takes.Named<List<Integer>> colour : said.read(Keys.COLOURS).orElse(List.of())) {
      drive(colour, names, order, complaints)
          .ifPresent(values -> given.put(colour.name().text(), values));
    }
    SortedMap<String, List<Integer>> drive = Drives.of(family, book, given.keySet(), evenly);
    drive.putAll(given);
    return new Part(
        name,
        order,
        family,
        drive,
        current.flatMap(c -> c.read(Keys.CHANNEL)).orElse(CHANNEL_MILLIAMPS),
        current.flatMap(c -> c.read(Keys.REST)).orElse(REST_MILLIAMPS),
        said.read(Keys.LATCH).orElse(LATCH_MICROS),
        minimum,
        maximumVolts(said, minimum, order.length(), complaints),
        said.span());
  }

  /** Two volts that leave nothing between them are a mistake, or one of them is missing. */
  private static double maximumVolts(
      Section said, double minimum, int channels, Complaints complaints) {
    double maximum =
        said.read(Keys.MAXIMUM_VOLTS).orElse(channels == 4 ? MAXIMUM_VOLTS_OF_FOUR : MAXIMUM_VOLTS);
    if (maximum > minimum) {
      return maximum;
    }
    if (said.says(Keys.MAXIMUM_VOLTS)) {
      complaints.wrong(
          "contradiction",
          said.at(Keys.MAXIMUM_VOLTS),
          "an LED that needs {minimum} V cannot bear only {maximum} V",
          "write the largest supply that its data sheet allows, or its \"minimum-volts\".",
          Datum.of("minimum", minimum),
          Datum.of("maximum", maximum));
    } else {
      complaints.missingKey(
          said.span(),
          "an LED that needs {minimum} V does not say how much it bears",
          "add \"maximum-volts: \" and the largest supply that its data sheet allows.",
          Datum.of("minimum", minimum));
    }
    return maximum;
  }

  private static Optional<List<Integer>> drive(
      Takes.Named<List<Integer>> colour, BookNames names, String order, Complaints complaints) {
    String name = colour.name().text();
    if (names.colour(colour.name()).isEmpty()) {
      return Optional.empty();
    }
    if (colour.value().isPresent() && colour.value().get().size() != order.length()) {
      complaints.wrong(
          "wrong-count",
          colour.node().span(),
          "\"{colour}\" has {numbers}, but an LED of order {order} has {channels} channels",
          "write a drive of 0 to 255 for "
              + (order.length() == 4 ? "red, green, blue and white." : "red, green and blue."),
          Datum.of("colour", name),
          Datum.count("numbers", colour.value().get().size(), "number"),
          Datum.of("order", order),
          Datum.of("channels", order.length()));
      return Optional.empty();
    }
    return colour.value();
  }
}
