package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Part;
import dev.doublet.layout.Supply;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** A supply of more volts than the LEDs on it bear. */
public final class VoltageTooHigh implements Check.OfLayout {

  /** Supplies and kinds of LED that do not go together; a chain's own supply is one for itself. */
  private record Clash(Supply supply, int chain, String part) {}

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Clash, List<Chain>> clashes = new LinkedHashMap<>();
    List<Chain> chains =
        facts.layout().controllers().stream().flatMap(c -> c.chains().stream()).toList();
    for (int i = 0; i < chains.size(); i++) {
      Chain chain = chains.get(i);
      for (Chain.Section section : chain.sections()) {
        Supply supply = section.supply();
        if (supply.volts() > chain.part().maximumVolts()) {
          String shared = supply.name();
          Clash clash = new Clash(supply, shared.isEmpty() ? i : 0, chain.part().name());
          clashes.computeIfAbsent(clash, c -> new ArrayList<>()).add(chain);
        }
      }
    }
    return clashes.entrySet().stream().map(e -> report(e.getValue(), e.getKey().supply())).toList();
  }

  private Diagnostic report(List<Chain> chains, Supply by) {
    Chain first = chains.get(0);
    Part part = first.part();
    String supply = by.name();
    Diagnostic found =
        finding(
                Severity.ERROR,
                first.span(),
                Words.say(
                    "%s gives %s %s %s V, and LEDs of kind %s bear %s V",
                    supply.isEmpty() ? "the supply" : "supply " + supply,
                    Words.plural(chains.size(), "chain"),
                    Words.list(chains.stream().map(Chain::name).toList()),
                    Words.number(by.volts()),
                    part.name(),
                    Words.number(part.maximumVolts())))
            .about(Words.both(List.of(part.name()), chains.stream().map(Chain::name).toList()))
            .label("{leds}", Datum.count("leds", first.leds(), "LED"))
            .words("chains", chains.stream().map(Chain::name).toList())
            .words("supply", supply.isEmpty() ? List.of() : List.of(supply))
            .word("LEDs", part.name())
            .measure("given", by.volts(), 2, "V")
            .measure("borne", part.maximumVolts(), 2, "V");
    for (Chain other : chains.subList(1, chains.size())) {
      found =
          found.related(
              other.span(), "{leds} on the same supply", Datum.count("leds", other.leds(), "LED"));
    }
    return found
        .because(
            "more than the absolute maximum of its data sheet kills an LED, or all of a chain at"
                + " once, and can make it hot enough to burn")
        .help(
            "use a supply of {least} to {most} V, or say the \"maximum-volts\" that the data sheet of these"
                + " LEDs allows",
            Datum.of("least", part.minimumVolts()),
            Datum.of("most", part.maximumVolts()));
  }
}
