package dev.doublet.layout.read;

import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Xyz;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Diode;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads the kinds of chip of a layout. */
final class Chips {
  /** Common practice, from memory: what ordinary LEDs bear at most. */
  private static final double OUTPUT_MILLIAMPS = 20;

  /** As for addressable LEDs, whose chips are of one family with these (from memory). */
  private static final double REST_MILLIAMPS = 1;

  private static final List<String> USUAL_OUTPUTS = List.of("1", "2", "3");

  private Chips() {}

  /** The kinds that a layout declares. */
  static Declared<Chip> read(Section layout, BookNames names, Complaints complaints) {
    return Declared.read(
        layout,
        complaints,
        Keys.CHIPS,
        "kind of chip",
        (name, said) ->
            Optional.of(
                chip(
                    name.text(),
                    Section.named(name, said, Keys.CHIP, complaints),
                    names,
                    complaints)));
  }

  private static Chip chip(String name, Section said, BookNames names, Complaints complaints) {
    List<String> outputs =
        said.read(Keys.CHIP_OUTPUTS)
            .map(all -> all.stream().map(YamlNode.Scalar::text).toList())
            .orElse(USUAL_OUTPUTS);
    // One that stands twice was told, and counts as the output that it was meant to be; so was
    // a list of nothing, and what is no list.
    int written =
        said.entry(Keys.CHIP_OUTPUTS)
            .map(Chips::items)
            .filter(items -> items > 0)
            .orElse(USUAL_OUTPUTS.size());
    if (written < 3 || written > 4) {
      complaints.wrong(
          "wrong-count",
          said.at(Keys.CHIP_OUTPUTS),
          "a chip on a chain has three outputs or four, as LEDs have channels, and not {outputs}",
          "name every output in the order in which the chip takes their bytes, the unused ones"
              + " too.",
          Datum.of("outputs", written));
    }
    Optional<Section> current = said.read(Keys.CHIP_MILLIAMPS_OF, Keys.CHIP_MILLIAMPS);
    double given = current.flatMap(c -> c.read(Keys.OUTPUT)).orElse(OUTPUT_MILLIAMPS);
    SortedMap<String, Diode> diodes = new TreeMap<>();
    for (Takes.Named<YamlNode.Mapping> lamp : said.read(Keys.CHIP_LAMPS).orElse(List.of())) {
      if (names.colour(lamp.name()).isPresent() && lamp.value().isPresent()) {
        Section of = Section.named(lamp.name(), lamp.value().get(), Keys.CHIP_LAMP, complaints);
        Diode diode = diode(of, complaints);
        if (diode.milliamps() > given) {
          complaints.wrong(
              "contradiction",
              of.at(Keys.LAMP_MILLIAMPS),
              "an output of chip \"{chip}\" gives {given} mA, and this LED is to have {wanted} mA",
              "write what the LED has from it, with its light at that current, or the \"output\""
                  + " current that the chip is set to.",
              Datum.of("chip", name),
              Datum.of("given", Words.number(given)),
              Datum.of("wanted", Words.number(diode.milliamps())));
        }
        diodes.put(lamp.name().text(), diode);
      }
    }
    return new Chip(
        name,
        outputs,
        given,
        current.flatMap(c -> c.read(Keys.CHIP_REST)).orElse(REST_MILLIAMPS),
        diodes,
        said.span());
  }

  private static int items(YamlNode.Entry list) {
    return list.value() instanceof YamlNode.Sequence all ? all.items().size() : 0;
  }

  private static Diode diode(Section said, Complaints complaints) {
    return new Diode(
        said.read(Keys.LIGHT_OF, Keys.DIE).flatMap(d -> light(d, complaints)).orElse(null),
        said.read(Keys.FORWARD_VOLTS).orElse(0.0),
        said.read(Keys.LAMP_MILLIAMPS).orElse(0.0));
  }

  private static Optional<Xyz> light(Section said, Complaints complaints) {
    Optional<Double> x = said.read(Keys.X);
    Optional<Double> y = said.read(Keys.Y);
    Optional<Double> mcd = said.read(Keys.MCD);
    if (x.isEmpty() || y.isEmpty() || mcd.isEmpty()) {
      return Optional.empty();
    }
    Chromaticity colour = new Chromaticity(x.get(), y.get());
    if (!colour.isOfLight()) {
      complaints.add(Misfit.light(said.at(Keys.X), said.at(Keys.Y)));
      return Optional.empty();
    }
    return Optional.of(Xyz.of(colour, mcd.get()));
  }
}
