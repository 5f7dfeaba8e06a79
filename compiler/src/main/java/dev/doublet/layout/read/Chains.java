package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.rulebook.Display;
import dev.doublet.source.Mention;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.IntStream;

/** The chains of a layout, and the signals along them. */
final class Chains {
  /** Keys of which a mistake costs no more than what they say. */
  private static final Set<Key<?>> APART = Set.of(Keys.SUPPLY_OF, Keys.CABLE_OF, Keys.SIGNALS);

  private final Parts parts;
  private final BookNames names;
  private final Powering powering;
  private final Walk.Ground ground;
  private final Complaints complaints;
  private final Map<String, Set<Kind>> driven = new HashMap<>();

  /** Takes what chains refer to. */
  Chains(Parts parts, Powering powering, BookNames names, Walk.Ground ground) {
    this.parts = parts;
    this.names = names;
    this.powering = powering;
    this.ground = ground;
    this.complaints = ground.complaints();
  }

  /** A chain with its signals, in chain order. */
  record Strung(Chain chain, List<Signal> signals) {}

  /** One chain, with the signals on it that have no mistake; empty when it has one itself. */
  Optional<Strung> read(YamlNode.Scalar name, YamlNode.Mapping mapping, int index) {
    Section said = Section.named(name, mapping, Keys.CHAIN, complaints);
    Optional<Part> part = parts.choose(said);
    Supply supply = powering.supply(said);
    Walk walk = new Walk(ground);
    said.read(Keys.SIGNALS).orElse(List.of()).forEach(walk::step);
    int brightness = said.read(Keys.BRIGHTNESS).orElse(100);
    Optional<Integer> night = complaints.lossless(() -> Optional.of(night(said, brightness)));
    Optional<Powering.Fed> feeds =
        complaints.lossless(() -> Optional.of(powering.feeds(said, walk)));
    Cable cable = powering.cable(said, walk, feeds.map(Powering.Fed::own).orElse(List.of()));
    if (part.isEmpty() || night.isEmpty() || feeds.isEmpty() || !said.isReadBut(APART)) {
      return Optional.empty();
    }
    Chain chain =
        new Chain(
            name.text(),
            index,
            part.get(),
            brightness,
            night.get(),
            walk.leds(),
            supply,
            cable,
            feeds.get().at(),
            name.span());
    List<Signal> signals =
        walk.placed().stream()
            .filter(p -> p.design().units().stream().allMatch(u -> isDriven(u, p, chain.part())))
            .map(p -> signal(p, chain))
            .toList();
    return Optional.of(new Strung(chain, signals));
  }

  private int night(Section said, int brightness) {
    int night = said.read(Keys.NIGHT).orElse(brightness);
    if (night > brightness && said.isReadBut(APART)) {
      complaints.wrong(
          "contradiction",
          said.at(Keys.NIGHT),
          "a chain cannot be brighter by night ({night} %) than by day ({day} %)",
          "write a whole number from {least} to {day}, or leave \"night\" out.",
          Datum.of("least", 1),
          Datum.of("night", night),
          Datum.of("day", brightness));
    }
    return night;
  }

  private static Signal signal(Walk.Placed placed, Chain chain) {
    List<Unit> units = new ArrayList<>();
    List<UnitDesign> designed = placed.design().units();
    for (int i = 0; i < designed.size(); i++) {
      UnitDesign unit = designed.get(i);
      units.add(
          new Unit(
              unit.nameOn(placed.name()),
              placed.name(),
              unit.kind(),
              chain,
              placed.led() + unit.offset(),
              placed.commands().get(i),
              unit.dimming(),
              servos(placed, unit),
              placed.span()));
    }
    units.sort(Comparator.comparingInt(Unit::led));
    return new Signal(
        placed.name(),
        placed.design().build(),
        placed.design().mast(),
        placed.note(),
        placed.fixed(),
        units,
        placed.span());
  }

  /** Those of the whole signal, or of a head commanded by itself. */
  private static List<Servo> servos(Walk.Placed placed, UnitDesign unit) {
    int head = placed.design().build().form().places().indexOf(unit.place());
    return head < 0
        ? placed.servos()
        : placed.servos().stream().filter(s -> s.place() == head).map(s -> s.at(0)).toList();
  }

  /** True when LEDs of a part have a drive for all that a unit shows. */
  private boolean isDriven(UnitDesign unit, Walk.Placed user, Part part) {
    if (kinds(driven, part).contains(unit.kind())) {
      return true;
    }
    Kind kind = unit.kind();
    Optional<Chip> odd =
        kind.feeds().stream()
            .flatMap(f -> f.chip().stream())
            .filter(c -> c.outputs().size() != part.channels())
            .findFirst();
    if (odd.isPresent()) {
      complaints.wrong(
          "contradiction",
          user.span(),
          "chip \"{chip}\" has {outputs} outputs, and LEDs of its chain have {channels} channels",
          "hang it on a chain of LEDs that take as many bytes.",
          Datum.of("chip", odd.get().name()),
          Datum.of("outputs", odd.get().outputs().size()),
          Datum.of("channels", part.channels()));
      return false;
    }
    List<String> lacking =
        kind.states().stream()
            .flatMap(
                s ->
                    IntStream.range(0, s.lit().size())
                        .filter(lamp -> kind.chip(lamp).isEmpty())
                        .mapToObj(s.lit()::get))
            .map(Display::look)
            .filter(look -> !look.equals(Display.DARK.look()) && !part.drive().containsKey(look))
            .distinct()
            .sorted()
            .toList();
    lacking.stream()
        .filter(look -> !names.mayDeclare(Mention.Kind.COLOUR, look))
        .forEach(look -> complaints.missingDrive(part, look, user.span()));
    if (lacking.isEmpty()) {
      kinds(driven, part).add(unit.kind());
    }
    return lacking.isEmpty();
  }

  /** Equal kinds are the same object. */
  private static Set<Kind> kinds(Map<String, Set<Kind>> byPart, Part part) {
    return byPart.computeIfAbsent(
        part.name(), name -> Collections.newSetFromMap(new IdentityHashMap<>()));
  }
}
