package dev.doublet.layout.read;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Supply;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** The supplies and cables of a layout. */
final class Powering {
  private static final double MILLI = 1_000;

  private final Map<String, Supply> supplies = new LinkedHashMap<>();
  private final Complaints complaints;

  private Powering(Complaints complaints) {
    this.complaints = complaints;
  }

  /** The supplies that a layout declares for chains to share. */
  static Powering read(Section layout, Complaints complaints) {
    Powering powering = new Powering(complaints);
    for (Takes.Named<YamlNode.Mapping> supply : layout.read(Keys.SUPPLIES).orElse(List.of())) {
      supply
          .value()
          .map(m -> Section.named(supply.name(), m, Keys.SUPPLY, complaints))
          .map(said -> supply(supply.name().text(), said))
          .ifPresent(s -> powering.supplies.put(s.name(), s));
    }
    return powering;
  }

  /** The supply that a chain names or describes. */
  Supply supply(Section chain) {
    Optional<YamlNode> said = chain.read(Keys.SUPPLY_OF);
    if (said.isEmpty()) {
      return Supply.UNSAID;
    }
    if (said.get() instanceof YamlNode.Mapping own) {
      Span key = chain.entry(Keys.SUPPLY_OF).orElseThrow().key().span();
      return supply("", Section.nameless(own, Keys.SUPPLY, key, complaints));
    }
    YamlNode.Scalar name = (YamlNode.Scalar) said.get();
    if (!supplies.containsKey(name.text())) {
      complaints.unknownName(name, "supply", supplies.keySet());
    }
    return supplies.getOrDefault(name.text(), Supply.UNSAID);
  }

  private static Supply supply(String name, Section said) {
    double volts = said.read(Keys.VOLTS).orElse(0.0);
    double amps = said.read(Keys.AMPS).orElse(0.0);
    return new Supply(name, volts, (int) Math.round(amps * MILLI));
  }

  /** The cable along a chain. */
  Cable cable(Section chain) {
    return chain.read(Keys.CABLE_OF, Keys.CABLE).flatMap(this::cableSaid).orElse(Cable.UNSAID);
  }

  private Optional<Cable> cableSaid(Section said) {
    boolean thick = said.says(Keys.AWG) || said.says(Keys.SQUARE_MM);
    boolean twice = said.says(Keys.AWG) && said.says(Keys.SQUARE_MM);
    if (twice || !thick) {
      complaints.missingKey(
          said.span(),
          twice
              ? "this cable says twice how thick it is"
              : "this cable does not say how thick it is",
          "write its gauge or its cross-section, such as \"{awg: 24, metres: 6}\" or"
              + " \"{square-mm: 0.25, metres: 6}\".");
      return Optional.empty();
    }
    Optional<Double> metres = said.read(Keys.METRES);
    return said.says(Keys.AWG)
        ? said.read(Keys.AWG).flatMap(gauge -> metres.map(m -> Cable.ofGauge(gauge, m)))
        : said.read(Keys.SQUARE_MM).flatMap(area -> metres.map(m -> Cable.ofArea(area, m)));
  }

  /**
   * Where a chain is fed: at LEDs counted from 1, or 0 for the cable's start.
   *
   * @param leds how many LEDs the chain has
   */
  List<Integer> feeds(Section chain, int leds) {
    List<Integer> feeds = chain.read(Keys.FEEDS).orElse(List.of(0));
    for (int i = 0; i < feeds.size(); i++) {
      if (feeds.get(i) > leds) {
        YamlNode.Sequence said = (YamlNode.Sequence) chain.entry(Keys.FEEDS).orElseThrow().value();
        complaints.badValue(
            said.items().get(i).span(),
            "power cannot be led in at LED "
                + feeds.get(i)
                + " of a chain of "
                + Complaints.count(leds, "LED"),
            "write an LED from 1 to " + leds + ", or 0 for the cable's start.");
      }
    }
    return feeds;
  }
}
