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
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/** Two signals that answer to one address or topic. */
public final class AddressClash implements Check.OfLayout {
  private static final int MOST_PLACES = 3;

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Heard, Set<Unit>> listeners = new TreeMap<>(Heard.ORDER);
    for (Unit unit : facts.units()) {
      for (Heard heard : heardBy(unit)) {
        listeners.computeIfAbsent(heard, h -> new LinkedHashSet<>()).add(unit);
      }
    }
    Map<List<Unit>, List<Heard>> clashes = new LinkedHashMap<>();
    listeners.forEach(
        (heard, units) -> {
          if (units.size() > 1) {
            clashes.computeIfAbsent(List.copyOf(units), u -> new ArrayList<>()).add(heard);
          }
        });
    List<Diagnostic> found = new ArrayList<>();
    clashes.forEach(
        (units, heard) ->
            found.add(
                owned(
                    facts.layout(), units, heard.get(0).topic().isEmpty(), report(units, heard))));
    return found;
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
      Layout layout, List<Unit> units, boolean addresses, Diagnostic finding) {
    List<String> owned = new ArrayList<>();
    Set<Optional<Module>> modules = new LinkedHashSet<>();
    for (Controller controller : layout.controllers()) {
      if (controller.units().stream().anyMatch(units::contains)) {
        modules.add(layout.module(controller));
      }
      layout
          .module(controller)
          .ifPresent(
              module ->
                  controller.units().stream()
                      .filter(units::contains)
                      .forEach(
                          u ->
                              owned.add(
                                  Words.say(
                                      "%s of %s, addresses moved by %d",
                                      u.name(), module.words(), module.offset()))));
    }
    String own = "give one of them " + (addresses ? "an address" : "a topic") + " of its own";
    Diagnostic helped =
        finding.help(
            modules.size() > 1 && addresses
                ? own + ", or one of the modules another \"offset\""
                : own);
    return owned.isEmpty() ? helped : helped.fact("of modules", Words.list(owned));
  }

  private Diagnostic report(List<Unit> units, List<Heard> heard) {
    Unit last = units.get(units.size() - 1);
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
                last.span(),
                Words.say("%s on bus %s is used by %s", what, first.bus(), Words.list(names)))
            .about(Words.both(List.of(first.bus()), names))
            .label("used again here")
            .word("bus", first.bus())
            .words("users", names)
            .word("packet", first.packet());
    finding =
        first.packet().equals("topic")
            ? finding.word("topic", first.topic())
            : finding.numbers("addresses", heard.stream().map(Heard::address).toList());
    for (Unit unit : units.subList(0, Math.min(MOST_PLACES, units.size() - 1))) {
      finding = finding.related(unit.span(), "used here");
    }
    return finding.because("one command would move them all");
  }
}
