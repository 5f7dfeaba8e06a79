package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Supply;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;
import java.util.TreeMap;

/** The supplies and cables of a layout. */
final class Powering {
  private static final double MILLI = 1_000;

  /** So many keep the products finite by which a cable is worked out; a choice of ours. */
  private static final int MOST_OWN = 60;

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

  /** The cable along a chain as it lies; as if nothing were said when it has a mistake. */
  Cable cable(Section chain, Walk walk, List<Lay.Feed> feeds) {
    if (chain.maySay(Keys.CABLE_OF)) {
      return cableSaid(chain, walk, feeds);
    }
    if (walk.laying().isSaid() || !feeds.isEmpty()) {
      complaints.missingKey(
          chain.span(),
          "how the cable of this chain lies is said, but not what cable it is",
          "add its gauge or its cross-section to the chain, such as \"cable: {awg: 24}\" or"
              + " \"cable: {square-mm: 0.25}\".");
    }
    return Cable.UNSAID;
  }

  private Cable cableSaid(Section chain, Walk walk, List<Lay.Feed> feeds) {
    return complaints
        .lossless(
            () ->
                chain
                    .read(Keys.CABLE_OF, Keys.CABLE)
                    .flatMap(
                        said ->
                            wires(said, complaints)
                                .filter(
                                    c ->
                                        said.read(Keys.METRES).isPresent()
                                            == said.says(Keys.METRES))
                                .filter(c -> said.isWhole())
                                .flatMap(
                                    c ->
                                        walk.laying()
                                            .laid(
                                                c.lying(
                                                    said.read(Keys.METRES).orElse(0.0), Lay.EVEN),
                                                feeds,
                                                walk.leds(),
                                                said.span()))))
        .orElse(Cable.UNSAID);
  }

  /** Wires with their length; empty when they have a mistake. */
  static Optional<Cable> wire(Section said, Complaints complaints) {
    return wires(said, complaints)
        .flatMap(wires -> said.read(Keys.METRES).map(m -> wires.lying(m, Lay.EVEN)));
  }

  /** How thick wires are; empty when they have a mistake. */
  private static Optional<Cable> wires(Section said, Complaints complaints) {
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
    return said.says(Keys.AWG)
        ? said.read(Keys.AWG).map(gauge -> Cable.ofGauge(gauge, 0))
        : said.read(Keys.SQUARE_MM).map(area -> Cable.ofArea(area, 0));
  }

  /**
   * Where a chain is fed.
   *
   * @param at LEDs counted from 1, or 0 for the cable's start
   * @param own those that have wires or a supply of their own, sorted
   */
  record Fed(List<Integer> at, List<Lay.Feed> own) {}

  /** Where a chain is fed, as far as that can be. */
  Fed feeds(Section chain, Walk walk) {
    List<YamlNode> listed = chain.read(Keys.FEEDS).orElse(List.of());
    TreeMap<Integer, Lay.Feed> fed = new TreeMap<>();
    for (YamlNode node : listed) {
      feed(node).ifPresent(feed -> take(feed, node.span(), walk, fed));
    }
    if (listed.isEmpty()) {
      fed.put(0, new Lay.Feed(0, Cable.UNSAID, null));
    }
    List<Lay.Feed> own =
        fed.values().stream().filter(f -> f.wire().isSaid() || f.supply().isPresent()).toList();
    if (own.size() > MOST_OWN) {
      complaints.wrong(
          "wrong-count",
          chain.at(Keys.FEEDS),
          "{feeds} with wires of their own are too many for one chain",
          "split the chain, or give the wires of at most {most} feeds.",
          Datum.count("feeds", own.size(), "feed"),
          Datum.of("most", MOST_OWN));
    }
    if (!fed.isEmpty() && fed.firstEntry().getValue().supply().isPresent()) {
      complaints.wrong(
          "contradiction",
          chain.at(Keys.FEEDS),
          "nothing feeds the LEDs before LED {led}",
          "lead the chain's own supply in before it too, as at {start}, or make this supply the chain's.",
          Datum.of("led", fed.firstKey()),
          Datum.of("start", 0));
      return new Fed(List.of(), List.of());
    }
    return new Fed(List.copyOf(fed.keySet()), own);
  }

  private Optional<Lay.Feed> feed(YamlNode node) {
    if (!(node instanceof YamlNode.Mapping mapping)) {
      return node instanceof YamlNode.Scalar led
          ? Keys.FEED_LED.read(led, led, complaints).map(at -> new Lay.Feed(at, Cable.UNSAID, null))
          : Optional.empty();
    }
    Section said = Section.nameless(mapping, Keys.FEED, Section.first(mapping), complaints);
    Optional<Cable> wire =
        said.says(Keys.FEED_WIRE)
            ? said.read(Keys.FEED_WIRE, Keys.WIRE).flatMap(w -> wire(w, complaints))
            : Optional.of(Cable.UNSAID);
    Optional<Supply> supply = supplySaid(said);
    boolean read = wire.isPresent() && supply.isPresent() == said.says(Keys.FEED_SUPPLY);
    return read
        ? said.read(Keys.FEED_AT).map(at -> new Lay.Feed(at, wire.get(), supply.orElse(null)))
        : Optional.empty();
  }

  private void take(Lay.Feed feed, Span span, Walk walk, TreeMap<Integer, Lay.Feed> fed) {
    if (feed.at() > walk.leds()) {
      if (walk.isCertain()) {
        complaints.wrong(
            "out-of-range",
            span,
            "power cannot be led in at LED {led} of a chain of {leds}",
            "write an LED from {first} to {last}, or {start} for the cable's start.",
            Datum.of("first", 1),
            Datum.of("start", 0),
            Datum.of("led", feed.at()),
            Datum.count("leds", walk.leds(), "LED"),
            Datum.of("last", walk.leds()));
      }
      return;
    }
    Optional<Walk.Placed> cut =
        walk.placed().stream()
            .filter(p -> p.led() + 1 < feed.at() && feed.at() <= p.end())
            .findFirst();
    if (feed.supply().isPresent() && cut.isPresent()) {
      complaints.wrong(
          "contradiction",
          span,
          "another supply cannot begin at LED {led}, amid signal {signal}",
          "write the first LED of a signal, {first} or another.",
          Datum.of("led", feed.at()),
          Datum.of("signal", cut.get().name()),
          Datum.of("first", (cut.get().led() + 1)));
      return;
    }
    fed.putIfAbsent(feed.at(), feed);
  }
}
