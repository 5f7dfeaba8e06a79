package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.power.Flow;
import dev.doublet.power.Wire;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A cable that carries more current than its wires bear, or that its supply could overheat. */
public final class WireTooThin implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        facts.flow(controller, chain).flatMap(this::report).ifPresent(found::add);
      }
    }
    return found;
  }

  private Optional<Diagnostic> report(Flow flow) {
    Chain chain = flow.chain();
    double bears = Wire.bears(chain.cable());
    if (flow.mostAmps() > bears) {
      return Optional.of(
          said(
              flow,
              Severity.ERROR,
              Words.say(
                  "the cable of chain %s carries %.2f A, and its wires bear %s A",
                  chain.name(), flow.mostAmps(), Words.number(bears)),
              "wires that carry more than they bear grow hot, and in a bundle sooner",
              "use thicker wire, or lead power in at more LEDs"));
    }
    if (chain.supply().milliamps() > bears * 1000) {
      return Optional.of(
          said(
              flow,
              Severity.NOTE,
              Words.say(
                  "the supply of chain %s could send %s A through wires that bear %s A",
                  chain.name(),
                  Words.number(chain.supply().milliamps() / 1000.0),
                  Words.number(bears)),
              "a short circuit is no overload to a large supply: wires grow hot before it shuts down"
                  + " (MOROP NEM 609 asks for a cross-section fit for the largest current)",
              "fuse the cable where it leaves the supply, at "
                  + Words.number(Wire.fuse(chain.cable(), flow.mostAmps()).orElse(bears))
                  + " A"));
    }
    return Optional.empty();
  }

  private Diagnostic said(Flow flow, Severity severity, String message, String why, String help) {
    Chain chain = flow.chain();
    return finding(severity, chain.span(), message)
        .about(List.of(chain.name()))
        .label(chain.cable().words() + ", fed at " + places(chain))
        .word("chain", chain.name())
        .measure("carried", flow.mostAmps(), 2, "A")
        .measure("borne", Wire.bears(chain.cable()), 2, "A")
        .measure("supplied", chain.supply().milliamps() / 1000.0, 3, "A")
        .because(why, severity == Severity.NOTE ? new String[] {"MOROP NEM 609"} : new String[0])
        .help(help);
  }

  private static String places(Chain chain) {
    return Words.list(chain.feeds().stream().map(f -> f == 0 ? "its start" : "LED " + f).toList());
  }
}
