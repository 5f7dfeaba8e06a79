package dev.doublet.layout.read;

import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.Design.UnitDesign;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** The chains of a layout, and the signals along them. */
final class Chains {
  private final Parts parts;
  private final Powering powering;
  private final Map<String, Section> kinds;
  private final Designs designs;
  private final Listening listening;
  private final Complaints complaints;
  private final Section nothing;
  private final Map<String, Span> names = new HashMap<>();
  private final Map<String, Set<Kind>> driven = new HashMap<>();

  /**
   * Takes what chains refer to.
   *
   * @param kinds what each kind says, in the order declared
   */
  Chains(
      Parts parts,
      Powering powering,
      Map<String, Section> kinds,
      Designs designs,
      Listening listening,
      Complaints complaints,
      Span layout) {
    this.parts = parts;
    this.powering = powering;
    this.kinds = new LinkedHashMap<>(kinds);
    this.designs = designs;
    this.listening = listening;
    this.complaints = complaints;
    this.nothing = Section.silent(layout, complaints);
  }

  /** A chain with its signals, in chain order. */
  record Strung(Chain chain, List<Signal> signals) {}

  /** A signal whose place is known, before its chain is. */
  private record Placed(
      String name, Span span, Design design, List<Command> commands, int led, Span where) {}

  /** One chain. */
  Optional<Strung> read(YamlNode.Scalar name, YamlNode.Mapping mapping, int index) {
    Section said = Section.named(name, mapping, Keys.CHAIN, complaints);
    Optional<Part> part = parts.choose(said);
    int brightness = said.read(Keys.BRIGHTNESS).orElse(100);
    int night = said.read(Keys.NIGHT).orElse(brightness);
    if (night > brightness) {
      complaints.badValue(
          said.at(Keys.NIGHT),
          "a chain cannot be brighter by night ("
              + night
              + " %) than by day ("
              + brightness
              + " %)",
          "write a whole number from 1 to " + brightness + ", or leave \"night\" out.");
    }
    Supply supply = powering.supply(said);
    Cable cable = powering.cable(said);
    Walk walk = new Walk();
    said.read(Keys.SIGNALS).orElse(List.of()).forEach(walk::step);
    if (part.isEmpty()) {
      return Optional.empty();
    }
    Chain chain =
        new Chain(
            name.text(),
            index,
            part.get(),
            brightness,
            night,
            walk.leds,
            supply,
            cable,
            powering.feeds(said, walk.leds),
            name.span());
    List<Signal> signals =
        walk.placed.stream()
            .sorted(Comparator.comparingInt(Placed::led))
            .map(p -> signal(p, chain))
            .toList();
    return Optional.of(new Strung(chain, signals));
  }

  private Signal signal(Placed placed, Chain chain) {
    List<Unit> units = new ArrayList<>();
    List<UnitDesign> designed = placed.design().units();
    for (int i = 0; i < designed.size(); i++) {
      UnitDesign unit = designed.get(i);
      units.add(
          new Unit(
              unitName(placed.name(), unit),
              placed.name(),
              unit.kind(),
              chain,
              placed.led() + unit.offset(),
              placed.commands().get(i),
              placed.span()));
      if (driven(chain.part()).add(unit.kind())) {
        checkColours(chain.part(), unit.kind(), placed.span());
      }
    }
    units.sort(Comparator.comparingInt(Unit::led));
    return new Signal(
        placed.name(), placed.design().build(), placed.design().mast(), units, placed.span());
  }

  /** The kinds whose colours were looked up for a part; equal kinds are the same object. */
  private Set<Kind> driven(Part part) {
    return driven.computeIfAbsent(
        part.name(), name -> Collections.newSetFromMap(new IdentityHashMap<>()));
  }

  private void checkColours(Part part, Kind kind, Span user) {
    kind.states().stream()
        .flatMap(s -> s.lit().stream())
        .map(d -> d.look())
        .filter(look -> !look.equals("dark") && !part.drive().containsKey(look))
        .distinct()
        .sorted()
        .forEach(look -> complaints.missingDrive(part, look, user));
  }

  private static String unitName(String signal, UnitDesign unit) {
    return unit.place().isEmpty() ? signal : signal + " " + unit.place();
  }

  /** The way along one cable, from the controller outward. */
  private final class Walk {
    private final List<Placed> placed = new ArrayList<>();
    private final TreeMap<Integer, Placed> byLed = new TreeMap<>();
    private Section before;
    private int next;
    private int leds;
    private boolean certain = true;

    /**
     * True from a signal that overlaps to the next that says its LED: one mistake moves them all.
     */
    private boolean overlapped;

    void step(Optional<YamlNode.Mapping> item) {
      if (item.isEmpty()) {
        certain = false;
      } else if (Section.peek(item.get(), Keys.GAP).isPresent()) {
        Section gap = Section.listed(item.get(), Keys.GAP_OF, complaints);
        next += gap.read(Keys.GAP).orElse(0);
        leds = Math.max(leds, next);
      } else {
        signal(Section.listed(item.get(), Keys.SIGNAL, complaints));
      }
    }

    private void signal(Section own) {
      Optional<YamlNode.Scalar> name = own.read(Keys.NAME);
      Span span = own.span();
      Optional<Section> kind = kind(own);
      if (kind.isEmpty()) {
        certain = false;
        return;
      }
      Section said = own.basedOn(kind.get());
      Optional<Design> design = designs.of(said, kind.get());
      Optional<Integer> told = own.read(Keys.LED);
      if (design.isEmpty() || own.says(Keys.LED) && told.isEmpty()) {
        certain = false;
        return;
      }
      int led = told.orElse(next + 1) - 1;
      next = led + design.get().leds();
      leds = Math.max(leds, next);
      if (name.isPresent() && isNew(name.get(), design.get())) {
        Span where = own.says(Keys.LED) ? own.at(Keys.LED) : span;
        commands(design.get(), said, name.get())
            .ifPresent(
                commands ->
                    place(
                        new Placed(name.get().text(), span, design.get(), commands, led, where),
                        own.says(Keys.LED)));
      }
    }

    private void place(Placed signal, boolean told) {
      placed.add(signal);
      int end = signal.led() + signal.design().leds();
      Map.Entry<Integer, Placed> earlier = byLed.lowerEntry(end);
      boolean meets =
          earlier != null
              && earlier.getKey() + earlier.getValue().design().leds() > signal.led()
              && signal.led() < end;
      if (end > Keys.MOST_LEDS) {
        complaints.badValue(
            signal.where(),
            "signal \"" + signal.name() + "\" would need LED " + end,
            "a chain has at most " + Keys.MOST_LEDS + " LEDs: move some signals to another.");
      } else if (meets && certain && (told || !overlapped)) {
        Placed other = earlier.getValue();
        int shared = Math.max(signal.led(), other.led()) + 1;
        complaints.ledOverlap(signal.where(), signal.name(), other.where(), other.name(), shared);
      }
      overlapped = meets || overlapped && !told;
      byLed.putIfAbsent(signal.led(), signal);
    }

    private Optional<Section> kind(Section own) {
      if (own.says(Keys.KIND_OF)) {
        Optional<Section> named = Optional.empty();
        Optional<YamlNode.Scalar> name = own.read(Keys.KIND_OF);
        if (name.isPresent()) {
          named = Optional.ofNullable(kinds.get(name.get().text()));
          if (named.isEmpty()) {
            complaints.unknownName(name.get(), "kind", kinds.keySet());
          }
        }
        before = named.orElse(null);
        return named;
      }
      if (own.says(Keys.FORM)) {
        before = own.without(Keys.WHERE);
        return Optional.of(nothing);
      }
      if (before == null && kinds.size() == 1) {
        before = kinds.values().iterator().next();
      }
      return Optional.of(before == null ? nothing : before);
    }

    private boolean isNew(YamlNode.Scalar name, Design design) {
      for (UnitDesign unit : design.units()) {
        Span first = names.putIfAbsent(unitName(name.text(), unit), name.span());
        if (first != null) {
          complaints.duplicateName(
              name.span(),
              first,
              "two signals are called \"" + unitName(name.text(), unit) + "\"",
              "rename one of them.");
          return false;
        }
      }
      return true;
    }

    private Optional<List<Command>> commands(Design design, Section said, YamlNode.Scalar name) {
      List<Command> commands = new ArrayList<>();
      for (UnitDesign unit : design.units()) {
        boolean whole = unit.place().isEmpty();
        Section speaker = said;
        String topic = name.text();
        if (!whole) {
          boolean first = unit == design.units().get(0);
          speaker = first ? unit.said().basedOn(said.only(Keys.ADDRESS)) : unit.said();
          topic = name.text() + "/" + unit.place();
        }
        listening.of(unit, speaker, topic).ifPresent(commands::add);
      }
      return commands.size() == design.units().size() ? Optional.of(commands) : Optional.empty();
    }
  }
}
