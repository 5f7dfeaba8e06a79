package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Supply;
import dev.doublet.power.Draw;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** Chains that can draw more current than the supply they hang on gives. */
public final class SupplyTooSmall implements Check.OfLayout {

  /**
   * A chain on its supply.
   *
   * @param controller the place of its controller in the layout
   */
  private record Hung(int controller, Chain chain, Supply supply, Draw draw) {}

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<String, List<Hung>> shared = new HashMap<>();
    List<List<Hung>> fed = new ArrayList<>();
    List<Controller> controllers = facts.layout().controllers();
    for (int i = 0; i < controllers.size(); i++) {
      for (Chain chain : controllers.get(i).chains()) {
        Draw draw = facts.draw(controllers.get(i), chain);
        List<Chain.Section> sections = chain.sections();
        for (Chain.Section section : sections) {
          String name = section.supply().name();
          List<Hung> hung = name.isEmpty() ? null : shared.get(name);
          if (hung == null) {
            hung = new ArrayList<>();
            fed.add(hung);
            shared.put(name, hung);
          }
          Draw own = sections.size() == 1 ? draw : draw.between(section.from(), section.to());
          hung.add(new Hung(i, chain, section.supply(), own));
        }
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    for (List<Hung> hung : fed) {
      double milliamps = milliamps(hung);
      Supply supply = hung.get(0).supply();
      if (supply.milliamps() > 0 && milliamps > supply.milliamps()) {
        found.add(report(hung.stream().map(Hung::chain).distinct().toList(), milliamps, supply));
      }
    }
    return found;
  }

  /** Chains of one controller flash on one clock; clocks of two may stand in any way. */
  private static double milliamps(List<Hung> hung) {
    return hung.stream()
        .collect(
            Collectors.groupingBy(
                Hung::controller,
                TreeMap::new,
                Collectors.mapping(Hung::draw, Collectors.toList())))
        .values()
        .stream()
        .mapToDouble(Draw::together)
        .sum();
  }

  private Diagnostic report(List<Chain> chains, double milliamps, Supply by) {
    int given = by.milliamps();
    Chain first = chains.get(0);
    String names = Words.list(chains.stream().map(Chain::name).toList());
    String supply = by.name();
    Diagnostic found =
        finding(
                Severity.ERROR,
                first.span(),
                Words.say(
                    "%s %s can draw %.0f mA, and %s gives %d mA",
                    Words.plural(chains.size(), "chain"),
                    names,
                    Math.ceil(milliamps),
                    supply.isEmpty() ? "its supply" : "supply " + supply,
                    given))
            .about(chains.stream().map(Chain::name).toList())
            .label("{leds}", Datum.count("leds", first.leds(), "LED"))
            .words("chains", chains.stream().map(Chain::name).toList())
            .words("supply", supply.isEmpty() ? List.of() : List.of(supply))
            .measure("drawn", Math.ceil(milliamps), 0, "mA")
            .number("given", given, "mA");
    for (Chain other : chains.subList(1, chains.size())) {
      found =
          found.related(
              other.span(), "{leds} on the same supply", Datum.count("leds", other.leds(), "LED"));
    }
    return found
        .fact(
            "counted",
            "each signal as it draws most, flashing lamps lit unless they take turns, every LED at rest")
        .because(
            "an overloaded supply drops its voltage or shuts down, and signals show wrong colours or go dark")
        .help(
            "split the chain, lower its \"brightness\", or use a larger supply, with a fuse no larger than the wire can bear");
  }
}
