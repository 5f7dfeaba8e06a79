package dev.doublet.facts;

import dev.doublet.diagnostic.Words;
import dev.doublet.failure.Dies;
import dev.doublet.failure.Site;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.power.Draw;
import dev.doublet.power.Flow;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.table.TableNeeds;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;

/**
 * What checks, charts and verbs share of a layout: its signals and units in file order, gathered by
 * what they have in common, so that checks work once a kind. What takes long is worked out when
 * first asked for, and kept.
 */
public final class LayoutFacts {
  private final Layout layout;
  private final List<BuildGroup> builds;
  private final List<Alike> kinds;
  private final CheckOptions asked;
  private final Map<Controller, TableNeeds> needs = new IdentityHashMap<>();
  private final Map<Chain, Draw> draws = new IdentityHashMap<>();
  private final Map<Chain, Optional<Flow>> flows = new IdentityHashMap<>();
  private List<Site> sitesOrNull;
  private List<LedGroup> glowsOrNull;

  private LayoutFacts(
      Layout layout, List<BuildGroup> builds, List<Alike> kinds, CheckOptions asked) {
    this.layout = layout;
    this.builds = List.copyOf(builds);
    this.kinds = List.copyOf(kinds);
    this.asked = asked;
  }

  /** Works out the facts. */
  public static LayoutFacts of(Layout layout, CheckOptions asked) {
    Map<Signal.Build, List<Signal>> builds = new IdentityHashMap<>();
    List<Signal.Build> buildOrder = new ArrayList<>();
    Map<Kind, Map<String, List<Unit>>> kinds = new IdentityHashMap<>();
    List<Kind> kindOrder = new ArrayList<>();
    for (Controller controller : layout.controllers()) {
      for (Signal signal : controller.signals()) {
        builds
            .computeIfAbsent(
                signal.build(),
                b -> {
                  buildOrder.add(b);
                  return new ArrayList<>();
                })
            .add(signal);
        for (Unit unit : signal.units()) {
          kinds
              .computeIfAbsent(
                  unit.kind(),
                  k -> {
                    kindOrder.add(k);
                    return new LinkedHashMap<>();
                  })
              .computeIfAbsent(unit.command().bus().name(), b -> new ArrayList<>())
              .add(unit);
        }
      }
    }
    List<BuildGroup> built = new ArrayList<>();
    buildOrder.forEach(
        b -> built.add(new BuildGroup(b, ApparentSize.of(layout, b), List.copyOf(builds.get(b)))));
    List<Alike> alike = new ArrayList<>();
    for (Kind kind : kindOrder) {
      for (List<Unit> units : kinds.get(kind).values()) {
        alike.add(new Alike(kind, units.get(0).command().bus(), List.copyOf(units)));
      }
    }
    return new LayoutFacts(layout, built, alike, asked);
  }

  /** Every unit of the layout, in file order. */
  public List<Unit> units() {
    return layout.controllers().stream().flatMap(c -> c.units().stream()).toList();
  }

  /** The layout. */
  public Layout layout() {
    return layout;
  }

  /** Signals of one build together. */
  public List<BuildGroup> builds() {
    return builds;
  }

  /** Units of one kind on one bus together. */
  public List<Alike> kinds() {
    return kinds;
  }

  /** What the run asks of the checks. */
  public CheckOptions asked() {
    return asked;
  }

  /** What the table of a controller asks of it, or why it can have none. */
  public TableNeeds needs(Controller controller) {
    return needs.computeIfAbsent(controller, c -> TableNeeds.of(layout.rulebook(), c));
  }

  /** What a chain of a controller can draw. */
  public Draw draw(Controller controller, Chain chain) {
    return draws.computeIfAbsent(chain, c -> Draw.of(layout.rulebook(), controller, c));
  }

  /** How current flows along a chain; empty when the layout does not say cable and supply. */
  public Optional<Flow> flow(Controller controller, Chain chain) {
    return flows.computeIfAbsent(chain, c -> Flow.of(c, draw(controller, c)));
  }

  /** LEDs that glow alike, by day and by night, in file order. */
  public List<LedGroup> glows() {
    if (glowsOrNull == null) {
      glowsOrNull = List.copyOf(LedGroup.all(this));
    }
    return glowsOrNull;
  }

  /** The signals as sites of faults: those that are built and told alike once. */
  public List<Site> sites() {
    if (sitesOrNull == null) {
      Rulebook book = layout.rulebook();
      Map<Part, Dies> known = new IdentityHashMap<>();
      Function<Part, Dies> dies =
          part -> known.computeIfAbsent(part, p -> Dies.of(p, book, asked.faults()));
      sitesOrNull =
          told().stream().flatMap(b -> Site.of(book, b.signals(), dies).stream()).toList();
    }
    return sitesOrNull;
  }

  /** Signals that are built alike and can be told to show the same. */
  public List<BuildGroup> told() {
    List<BuildGroup> told = new ArrayList<>();
    for (BuildGroup built : builds) {
      Map<List<List<String>>, List<Signal>> alike = new LinkedHashMap<>();
      built.signals().forEach(s -> alike.computeIfAbsent(shows(s), k -> new ArrayList<>()).add(s));
      alike.values().forEach(s -> told.add(new BuildGroup(built.build(), built.sight(), s)));
    }
    return told;
  }

  /** What each head may show, in chain order; nothing for a whole signal, as its build says it. */
  private static List<List<String>> shows(Signal signal) {
    return signal.units().stream()
        .map(Unit::kind)
        .filter(k -> !k.isWholeSignal())
        .map(Kind::stateNames)
        .toList();
  }

  /**
   * Signals built alike.
   *
   * @param build how
   * @param sight how large their lamps look
   * @param signals at least one, in file order
   */
  public record BuildGroup(Signal.Build build, ApparentSize sight, List<Signal> signals) {

    /** The first of them, which messages point at. */
    public Signal first() {
      return signals.get(0);
    }

    /** The name of each. */
    public List<String> names() {
      return signals.stream().map(Signal::name).toList();
    }

    /** "signal W1", or "signal W1 and 3 more like it". */
    public String words() {
      return "signal " + Words.first(names());
    }
  }

  /**
   * Units of one kind on one bus.
   *
   * @param kind the kind
   * @param bus the bus
   * @param units at least one, in file order
   */
  public record Alike(Kind kind, Bus bus, List<Unit> units) {

    /** The first of them, which messages point at. */
    public Unit first() {
      return units.get(0);
    }

    /** The name of each. */
    public List<String> names() {
      return units.stream().map(Unit::name).toList();
    }

    /** "signal W1", "head W3 top and 1 more like it". */
    public String words() {
      return (kind.isWholeSignal() ? "signal " : "head ") + Words.first(names());
    }

    /** How many values commands can carry, numbered from 0; 0 when they are not numbered. */
    public int capacity() {
      return kind.way().values(bus);
    }
  }
}
