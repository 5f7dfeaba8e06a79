package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.check.LayoutFacts;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Chain;
import java.util.ArrayList;
import java.util.List;

/** A chain that can draw more current than its supply gives. */
public final class SupplyTooSmall implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    Current.byChain(facts)
        .forEach(
            (chain, milliamps) -> {
              boolean tooMuch = chain.supplyMilliamps() > 0 && milliamps > chain.supplyMilliamps();
              if (tooMuch) {
                found.add(report(chain, milliamps));
              }
            });
    return found;
  }

  private Diagnostic report(Chain chain, double milliamps) {
    return finding(
            Severity.ERROR,
            chain.span(),
            Words.say(
                "chain %s can draw %.0f mA, and its supply gives %d mA",
                chain.name(), Math.ceil(milliamps), chain.supplyMilliamps()))
        .label(chain.leds() + " LEDs")
        .fact(
            "counted", "each signal at its brightest aspect, flashing lamps lit, every LED at rest")
        .because(
            "an overloaded supply drops its voltage or shuts down, and signals show wrong colours or go dark")
        .help(
            "split the chain, lower its \"brightness\", or use a larger supply, with a fuse no larger than the wire can bear");
  }
}
