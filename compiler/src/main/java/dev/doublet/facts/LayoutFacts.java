package dev.doublet.facts;

import dev.doublet.failure.Site;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableWriter;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What the checks of a layout share: its signals and units in file order, gathered by what they
 * have in common, so that checks work once a kind.
 *
 * @param layout the layout
 * @param builds signals of one build together
 * @param kinds units of one kind on one bus together
 * @param tables each controller's table, in the order of the controllers
 * @param asked what the run asks of the checks
 */
public record LayoutFacts(
    Layout layout, List<Built> builds, List<Alike> kinds, List<Tabled> tables, Asked asked) {

  /** Works out the facts for a run that asks everything about single faults. */
  public static LayoutFacts of(Layout layout) {
    return of(layout, Asked.ALL);
  }

  /** Works out the facts. */
  public static LayoutFacts of(Layout layout, Asked asked) {
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
    List<Built> built = new ArrayList<>();
    buildOrder.forEach(
        b -> built.add(new Built(b, Sight.of(layout, b), List.copyOf(builds.get(b)))));
    List<Alike> alike = new ArrayList<>();
    for (Kind kind : kindOrder) {
      for (List<Unit> units : kinds.get(kind).values()) {
        alike.add(new Alike(kind, units.get(0).command().bus(), List.copyOf(units)));
      }
    }
    return new LayoutFacts(layout, List.copyOf(built), List.copyOf(alike), tables(layout), asked);
  }

  /** How many values commands can carry, numbered from 0; 0 when they are not numbered. */
  public static int capacity(Kind kind, Bus bus) {
    return switch (kind.mode()) {
      case ASPECT_NUMBER -> 1 << bus.aspectBits();
      case BINARY_CODED -> 1 << kind.addresses();
      case ONE_PER_OUTPUT -> 2 * kind.addresses();
      case TOPIC, EVENT -> 0;
    };
  }

  /** Every unit of the layout, in file order. */
  public List<Unit> units() {
    return layout.controllers().stream().flatMap(c -> c.units().stream()).toList();
  }

  /** The signals that are commanded whole, as sites of faults: each build once. */
  public List<Site> sites() {
    return builds.stream()
        .flatMap(b -> Site.of(layout.rulebook(), b.words(), b.signals(), asked.faults()).stream())
        .toList();
  }

  /** The names by which an acceptance speaks of a chain: its controller's and its own. */
  public List<String> names(Chain chain) {
    Controller of =
        layout.controllers().stream()
            .filter(c -> c.chains().stream().anyMatch(other -> other == chain))
            .findFirst()
            .orElseThrow();
    return List.of(of.name(), chain.name());
  }

  /**
   * Signals built alike.
   *
   * @param build how
   * @param sight how large their lamps look
   * @param signals at least one, in file order
   */
  public record Built(Signal.Build build, Sight sight, List<Signal> signals) {

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
      return "signal " + first().name() + more(signals.size());
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
      return (kind.isWholeSignal() ? "signal " : "head ") + first().name() + more(units.size());
    }

    /** How many values commands can carry, numbered from 0; 0 when they are not numbered. */
    public int capacity() {
      return LayoutFacts.capacity(kind, bus);
    }
  }

  /**
   * A controller with its table.
   *
   * @param controller the controller
   * @param bytes the table; empty when it cannot be written
   * @param fault why it cannot be written; empty when it can
   */
  public record Tabled(Controller controller, byte[] bytes, String fault) {

    /** True when there is a table. */
    public boolean isWritten() {
      return fault.isEmpty();
    }
  }

  private static List<Tabled> tables(Layout layout) {
    List<Tabled> tables = new ArrayList<>();
    for (Controller controller : layout.controllers()) {
      try {
        byte[] bytes = TableWriter.write(Lowering.lower(layout.rulebook(), controller));
        tables.add(new Tabled(controller, bytes, ""));
      } catch (TableFault fault) {
        tables.add(new Tabled(controller, new byte[0], fault.getMessage()));
      }
    }
    return List.copyOf(tables);
  }

  private static String more(int count) {
    return count == 1 ? "" : " and " + (count - 1) + " more like it";
  }
}
