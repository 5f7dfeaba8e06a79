package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.check.LayoutFacts;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Chains that can draw more current than the supply they hang on gives. */
public final class SupplyTooSmall implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Chain, Double> drawn = new LinkedHashMap<>();
    for (Controller controller : facts.layout().controllers()) {
      controller.chains().forEach(c -> drawn.put(c, Draw.of(controller, c).milliamps()));
    }
    Map<String, List<Chain>> shared = new LinkedHashMap<>();
    List<List<Chain>> fed = new ArrayList<>();
    for (Chain chain : drawn.keySet()) {
      String name = chain.supply().name();
      if (!shared.containsKey(name)) {
        List<Chain> chains = new ArrayList<>();
        fed.add(chains);
        if (!name.isEmpty()) {
          shared.put(name, chains);
        }
        chains.add(chain);
      } else {
        shared.get(name).add(chain);
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    for (List<Chain> chains : fed) {
      double milliamps = chains.stream().mapToDouble(drawn::get).sum();
      int given = chains.get(0).supply().milliamps();
      if (given > 0 && milliamps > given) {
        found.add(report(chains, milliamps, given));
      }
    }
    return found;
  }

  private Diagnostic report(List<Chain> chains, double milliamps, int given) {
    Chain first = chains.get(0);
    String names = Words.list(chains.stream().map(Chain::name).toList());
    String supply = first.supply().name();
    Diagnostic found =
        finding(
                Severity.ERROR,
                first.span(),
                Words.say(
                    "%s %s can draw %.0f mA, and %s gives %d mA",
                    chains.size() == 1 ? "chain" : "chains",
                    names,
                    Math.ceil(milliamps),
                    supply.isEmpty() ? "its supply" : "supply " + supply,
                    given))
            .label(first.leds() + " LEDs");
    for (Chain other : chains.subList(1, chains.size())) {
      found = found.related(other.span(), other.leds() + " LEDs on the same supply");
    }
    return found
        .fact("counted", "each signal as it draws most, flashing lamps lit, every LED at rest")
        .because(
            "an overloaded supply drops its voltage or shuts down, and signals show wrong colours or go dark")
        .help(
            "split the chain, lower its \"brightness\", or use a larger supply, with a fuse no larger than the wire can bear");
  }
}
