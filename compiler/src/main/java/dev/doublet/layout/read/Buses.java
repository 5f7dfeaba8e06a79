package dev.doublet.layout.read;

import dev.doublet.bus.TopicName;
import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Spelling;
import dev.doublet.layout.read.Commands.By;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The buses of a layout. */
final class Buses {
  private final Declared<Bus> all;
  private final Complaints complaints;

  private Buses(Declared<Bus> all, Complaints complaints) {
    this.all = all;
    this.complaints = complaints;
  }

  /** The buses that a layout declares, or one DCC bus when it declares none. */
  static Buses read(Section layout, Complaints complaints) {
    if (!layout.maySay(Keys.BUSES)) {
      Bus dcc = new Bus("dcc", Bus.Speaks.DCC, 1, 5, "", layout.span());
      return new Buses(Declared.builtIn("bus", "dcc", dcc), complaints);
    }
    Map<String, YamlNode.Scalar> alike = new HashMap<>();
    return new Buses(
        Declared.read(
            layout,
            complaints,
            Keys.BUSES,
            "bus",
            (name, said) -> {
              YamlNode.Scalar first = alike.putIfAbsent(Spelling.alike(name.text()), name);
              if (first != null) {
                complaints.speltAlike("buses", name, first, Spelling.of(name.text()));
              }
              return bus(name, said, complaints);
            }),
        complaints);
  }

  /** Those without a mistake, in the order declared. */
  List<Bus> all() {
    return all.sound();
  }

  /**
   * The bus that a unit is commanded by: the one it names, or the first that speaks what it needs.
   * Nothing is said when only a mistake in a bus may be why there is none.
   */
  Optional<Bus> choose(Section said, By by, Span place) {
    if (said.says(Keys.BUS)) {
      return said.read(Keys.BUS).flatMap(name -> named(name, by));
    }
    Bus.Speaks needed = by.speaks();
    for (Optional<Bus> bus : all.all()) {
      if (bus.isEmpty() || bus.get().speaks() == needed) {
        return bus;
      }
    }
    if (all.isWhole()) {
      complaints.missingKey(
          place,
          "no bus speaks {speaks}, which {by} needs",
          "add one to \"buses\", such as \"{speaks}: {speaks: {speaks}}\".",
          Datum.of("speaks", word(needed)),
          Datum.of("by", by.word()));
    }
    return Optional.empty();
  }

  private Optional<Bus> named(YamlNode.Scalar name, By by) {
    Bus.Speaks needed = by.speaks();
    Optional<Bus> found = all.find(name, complaints);
    if (found.isPresent() && found.get().speaks() != needed) {
      complaints.commandKeys(
          name.span(),
          "bus \"{bus}\" speaks {speaks}, but {by} needs one that speaks {needed}",
          "name another bus, or command the signal another way.",
          Datum.of("bus", name.text()),
          Datum.of("speaks", word(found.get().speaks())),
          Datum.of("by", by.word()),
          Datum.of("needed", word(needed)));
      return Optional.empty();
    }
    return found;
  }

  private static String word(Bus.Speaks speaks) {
    return Keys.LANGUAGES.wordFor(speaks);
  }

  private static Optional<Bus> bus(
      YamlNode.Scalar name, YamlNode.Mapping mapping, Complaints complaints) {
    Optional<YamlNode.Entry> said = Section.peek(mapping, Keys.SPEAKS);
    if (said.isEmpty()) {
      complaints.missingKeys(name.span(), "bus \"" + name.text() + '"', List.of(Keys.SPEAKS));
      return Optional.empty();
    }
    Optional<Bus.Speaks> speaks =
        Keys.LANGUAGES.read(said.get().value(), said.get().key(), complaints);
    if (speaks.isEmpty()) {
      return Optional.empty();
    }
    Place place =
        switch (speaks.get()) {
          case DCC -> Keys.DCC_BUS;
          case MQTT -> Keys.MQTT_BUS;
          case OPENLCB -> Keys.OPENLCB_BUS;
        };
    Section bus = Section.named(name, mapping, place, complaints);
    return Optional.of(
        new Bus(
            name.text(),
            speaks.get(),
            bus.read(Keys.FIRST_DECODER).orElse(1),
            bus.read(Keys.ASPECT_BITS).orElse(5),
            bus.read(Keys.TOPICS).map(t -> topics(t, complaints)).orElse(""),
            name.span()));
  }

  private static String topics(YamlNode.Scalar topics, Complaints complaints) {
    TopicName.fault(topics.text())
        .ifPresent(
            why ->
                complaints.wrong(
                    "malformed-value",
                    topics.span(),
                    "\"topics\" is no topic: {reason}",
                    "write levels with \"/\" between, such as \"layout/signals\".",
                    Datum.of("reason", why)));
    return topics.text();
  }
}
