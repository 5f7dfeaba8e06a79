package dev.doublet.layout.read;

import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Supply;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;

/** The supplies and cables of a layout. */
final class Powering {
  private static final double MILLI = 1_000;

  private final Declared<Supply> supplies;
  private final Complaints complaints;

  private Powering(Declared<Supply> supplies, Complaints complaints) {
    this.supplies = supplies;
    this.complaints = complaints;
  }

  /** The supplies that a layout declares for chains to share. */
  static Powering read(Section layout, Complaints complaints) {
    return new Powering(
        Declared.read(
            layout,
            complaints,
            Keys.SUPPLIES,
            "supply",
            (name, said) ->
                Optional.of(
                    supply(name.text(), Section.named(name, said, Keys.SUPPLY, complaints)))),
        complaints);
  }

  /** The supply that a chain names or describes; as if nothing were said when it has a mistake. */
  Supply supply(Section chain) {
    return complaints.lossless(() -> supplySaid(chain)).orElse(Supply.UNSAID);
  }

  private Optional<Supply> supplySaid(Section chain) {
    Optional<YamlNode> said = chain.read(Keys.SUPPLY_OF);
    if (said.isPresent() && said.get() instanceof YamlNode.Mapping own) {
      Span key = chain.entry(Keys.SUPPLY_OF).orElseThrow().key().span();
      return Optional.of(supply("", Section.nameless(own, Keys.SUPPLY, key, complaints)));
    }
    return said.flatMap(name -> supplies.find((YamlNode.Scalar) name, complaints));
  }

  private static Supply supply(String name, Section said) {
    double volts = said.read(Keys.VOLTS).orElse(0.0);
    double amps = said.read(Keys.AMPS).orElse(0.0);
    return new Supply(name, volts, (int) Math.round(amps * MILLI));
  }

  /** The cable along a chain; as if nothing were said when it has a mistake. */
  Cable cable(Section chain) {
    return complaints
        .lossless(() -> chain.read(Keys.CABLE_OF, Keys.CABLE).flatMap(this::cableSaid))
        .orElse(Cable.UNSAID);
  }

  private Optional<Cable> cableSaid(Section said) {
    boolean thick = said.says(Keys.AWG) || said.says(Keys.SQUARE_MM);
    boolean twice = said.says(Keys.AWG) && said.says(Keys.SQUARE_MM);
    if (!thick && !said.isWhole()) {
      return Optional.empty();
    }
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

  /** Where a chain is fed: at LEDs counted from 1, or 0 for the cable's start. */
  List<Integer> feeds(Section chain, Walk walk) {
    List<Integer> feeds = chain.read(Keys.FEEDS).orElse(List.of(0));
    for (int i = 0; i < feeds.size(); i++) {
      if (feeds.get(i) > walk.leds() && walk.isCertain()) {
        YamlNode.Sequence said = (YamlNode.Sequence) chain.entry(Keys.FEEDS).orElseThrow().value();
        complaints.wrong(
            "out-of-range",
            said.items().get(i).span(),
            "power cannot be led in at LED "
                + feeds.get(i)
                + " of a chain of "
                + Words.count(walk.leds(), "LED"),
            "write an LED from 1 to " + walk.leds() + ", or 0 for the cable's start.");
      }
    }
    return feeds.stream().filter(feed -> feed <= walk.leds()).toList();
  }
}
