package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Module;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Two signals that answer to one address or topic. */
public final class AddressClash implements Check.OfLayout {
  private static final int MOST_PLACES = 3;
  private static final int MOST_MODULES = 10;

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Heard, Set<Unit>> listeners = new TreeMap<>(Heard.ORDER);
    for (Unit unit : facts.units()) {
      for (Heard heard : heardBy(unit)) {
        listeners.computeIfAbsent(heard, h -> new LinkedHashSet<>()).add(unit);
      }
    }
    Map<Unit, Optional<Module>> modules = modules(facts.layout());
    Map<List<?>, Clash> clashes = new LinkedHashMap<>();
    listeners.forEach(
        (heard, units) -> {
          if (units.size() > 1) {
            Clash clash =
                clashes.computeIfAbsent(
                    cause(heard, units, modules),
                    c -> new Clash(places(units), new LinkedHashSet<>(), new ArrayList<>()));
            clash.units().addAll(units);
            clash.heard().add(heard);
          }
        });
    return clashes.values().stream().map(clash -> owned(clash, modules, report(clash))).toList();
  }

  /**
   * What clashes for one reason.
   *
   * @param places where those of the first address or topic are written, in the order of the layout
   * @param units in the order of the layout at each address
   * @param heard of one bus and packet, in order
   */
  private record Clash(List<Span> places, Set<Unit> units, List<Heard> heard) {}

  /**
   * The same lines of the layout, which may be of many signals each; or the same modules, whose
   * addresses overlap. Topics are each their own.
   */
  private static List<?> cause(Heard heard, Set<Unit> units, Map<Unit, Optional<Module>> modules) {
    Set<Optional<Module>> these = units.stream().map(modules::get).collect(Collectors.toSet());
    return List.of(
        heard.bus(), heard.packet(), heard.topic(), these.size() > 1 ? these : places(units));
  }

  /** Signals that are written in one line stand at one place. */
  private static List<Span> places(Set<Unit> units) {
    return units.stream().map(Unit::span).distinct().toList();
  }

  private static Map<Unit, Optional<Module>> modules(Layout layout) {
    Map<Unit, Optional<Module>> modules = new HashMap<>();
    for (Controller controller : layout.controllers()) {
      controller.units().forEach(unit -> modules.put(unit, layout.module(controller)));
    }
    return modules;
  }

  private record Heard(String bus, String packet, int address, String topic) {
    static final Comparator<Heard> ORDER =
        Comparator.comparing(Heard::bus)
            .thenComparing(Heard::packet)
            .thenComparingInt(Heard::address)
            .thenComparing(Heard::topic);
  }

  private static List<Heard> heardBy(Unit unit) {
    List<Heard> heard = new ArrayList<>();
    Bus bus = unit.command().bus();
    String packet = unit.kind().way() instanceof Way.AspectNumber ? "extended" : "basic";
    unit.command().addresses().forEach(a -> heard.add(new Heard(bus.name(), packet, a, "")));
    if (!unit.command().topic().isEmpty()) {
      heard.add(new Heard(bus.name(), "topic", 0, unit.command().topic()));
    }
    return heard;
  }

  /** Says what to do, and whose modules signals are of, who have to agree. */
  private static Diagnostic owned(
      Clash clash, Map<Unit, Optional<Module>> modules, Diagnostic finding) {
    Map<Module, List<String>> owned = new LinkedHashMap<>();
    Set<Optional<Module>> all = new HashSet<>();
    for (Unit unit : clash.units()) {
      all.add(modules.get(unit));
      modules
          .get(unit)
          .ifPresent(m -> owned.computeIfAbsent(m, o -> new ArrayList<>()).add(unit.name()));
    }
    boolean addresses = clash.heard().get(0).topic().isEmpty();
    String own = "give one of them " + (addresses ? "an address" : "a topic") + " of its own";
    Diagnostic helped =
        finding.help(
            all.size() > 1 && addresses ? own + ", or one of the modules another \"offset\"" : own);
    return owned.isEmpty() ? helped : helped.fact("of modules", words(owned));
  }

  private static String words(Map<Module, List<String>> owned) {
    return owned.entrySet().stream()
            .limit(MOST_MODULES)
            .map(
                of ->
                    Words.say(
                        "%s of %s, addresses moved by %d",
                        Words.list(of.getValue()), of.getKey().words(), of.getKey().offset()))
            .collect(Collectors.joining("; "))
        + (owned.size() > MOST_MODULES ? Words.say("; %,d more", owned.size() - MOST_MODULES) : "");
  }

  private Diagnostic report(Clash clash) {
    List<Unit> units = List.copyOf(clash.units());
    List<Heard> heard = clash.heard();
    List<Span> places = clash.places();
    int last = places.size() - 1;
    Heard first = heard.get(0);
    String what =
        first.packet().equals("topic")
            ? "topic \"" + first.topic() + '"'
            : Words.say(
                "%s %s %s",
                first.packet(),
                Words.plural(heard.size(), "address"),
                Words.numbers(heard.stream().map(Heard::address).toList()));
    List<String> names = units.stream().map(Unit::name).toList();
    Diagnostic finding =
        finding(
                Severity.ERROR,
                places.get(last),
                Words.say(
                    "%s on bus %s %s used by %s",
                    what, first.bus(), heard.size() == 1 ? "is" : "are", Words.list(names)))
            .about(Words.both(List.of(first.bus()), names))
            .label("used again here")
            .word("bus", first.bus())
            .words("users", names)
            .word("packet", first.packet());
    finding =
        first.packet().equals("topic")
            ? finding.word("topic", first.topic())
            : finding.numbers("addresses", heard.stream().map(Heard::address).toList());
    for (Span place : places.subList(0, Math.min(last, MOST_PLACES))) {
      finding = finding.related(place, "used here");
    }
    return finding.because("one command would move them all");
  }
}
