package dev.doublet.layout.read;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Supply;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;

/** The supplies and cables of a layout. */
final class Powering {
  private static final int MOST_VOLTS = 60;
  private static final int MOST_AMPS = 1_000;
  private static final int THICKEST_GAUGE = 10;
  private static final int THINNEST_GAUGE = 30;
  private static final double LEAST_AREA = 0.05;
  private static final double MOST_AREA = 6;
  private static final double MOST_METRES = 1_000;

  private final Map<String, Supply> supplies = new LinkedHashMap<>();
  private final Complaints complaints;

  private Powering(Complaints complaints) {
    this.complaints = complaints;
  }

  /** The supplies that a layout declares for chains to share. */
  static Powering read(Section layout, Complaints complaints) {
    Powering powering = new Powering(complaints);
    for (YamlNode.Entry entry :
        layout.mapping("supplies").map(YamlNode.Mapping::entries).orElse(List.of())) {
      String name = entry.key().text();
      if (entry.value() instanceof YamlNode.Mapping mapping) {
        Section said = Section.of(mapping, Keys.SUPPLY, entry.key().span(), complaints);
        powering.supplies.put(name, powering.supply(name, said));
      } else {
        complaints.wrongType(entry.value(), name, "keys with values");
      }
    }
    return powering;
  }

  /** The supply that a chain names or describes. */
  Supply supply(Section chain) {
    Optional<YamlNode.Entry> said = chain.entry("supply");
    if (said.isPresent() && said.get().value() instanceof YamlNode.Scalar name) {
      if (name.isNothing()) {
        complaints.wrongType(name, "supply", "the name of a supply, or volts and amps");
      } else if (!supplies.containsKey(name.text())) {
        complaints.unknownName(name, "supply", supplies.keySet());
      }
      return supplies.getOrDefault(name.text(), Supply.UNSAID);
    }
    return chain.section("supply", Keys.SUPPLY).map(s -> supply("", s)).orElse(Supply.UNSAID);
  }

  private Supply supply(String name, Section said) {
    double volts = supplied(said, "volts", MOST_VOLTS);
    double amps = supplied(said, "amps", MOST_AMPS);
    return new Supply(name, volts, (int) Math.round(amps * 1000));
  }

  private double supplied(Section supply, String key, int most) {
    if (!supply.says(key)) {
      complaints.missingKey(
          supply.place(),
          "the supply does not say its " + key,
          "write both, such as \"supply: {volts: 5, amps: 4}\".");
    }
    return supply.decimal(key, most, false).orElse(0.0);
  }

  /** The cable along a chain. */
  Cable cable(Section chain) {
    return chain.section("cable", Keys.CABLE).flatMap(this::cableSaid).orElse(Cable.UNSAID);
  }

  private Optional<Cable> cableSaid(Section said) {
    boolean thick = said.says("awg") || said.says("square-mm");
    boolean twice = said.says("awg") && said.says("square-mm");
    if (twice || !thick || !said.says("metres")) {
      complaints.missingKey(
          said.place(),
          twice
              ? "the cable says twice how thick it is"
              : "the cable does not say how " + (thick ? "long" : "thick") + " it is",
          "write its gauge or its cross-section, and its length from the supply to the last LED,"
              + " such as \"{awg: 24, metres: 6}\" or \"{square-mm: 0.25, metres: 6}\".");
      return Optional.empty();
    }
    Optional<Double> metres = said.decimal("metres", MOST_METRES, false);
    if (said.says("awg")) {
      OptionalInt gauge = said.integer("awg", THICKEST_GAUGE, THINNEST_GAUGE);
      return gauge.isEmpty()
          ? Optional.empty()
          : metres.map(m -> Cable.ofGauge(gauge.getAsInt(), m));
    }
    Optional<Double> area = said.decimal("square-mm", MOST_AREA, false);
    if (area.isPresent() && area.get() < LEAST_AREA) {
      complaints.badValue(
          said.entry("square-mm").orElseThrow().value().span(),
          "a wire of " + area.get() + " mm² is too thin to feed LEDs",
          "write a cross-section of " + LEAST_AREA + " to " + (int) MOST_AREA + " mm².");
      return Optional.empty();
    }
    return area.flatMap(a -> metres.map(m -> Cable.ofArea(a, m)));
  }

  /**
   * Where a chain is fed: at LEDs counted from 1, or 0 for the cable's start.
   *
   * @param leds how many LEDs the chain has
   */
  List<Integer> feeds(Section chain, int leds) {
    List<Integer> feeds = new ArrayList<>();
    for (YamlNode item : chain.items("feeds", "a list such as [0, 40]").orElse(List.of())) {
      chain.integer(item, "feeds", 0, leds).ifPresent(feeds::add);
    }
    return feeds.isEmpty() ? List.of(0) : feeds;
  }
}
