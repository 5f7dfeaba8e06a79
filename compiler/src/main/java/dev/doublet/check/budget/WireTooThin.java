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
              "wires that carry more than they bear grow hot",
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
              guard(flow)));
    }
    return Optional.empty();
  }

  private static String guard(Flow flow) {
    List<Optional<Double>> fuses = flow.fuses();
    List<String> each = new ArrayList<>();
    for (int i = 0; i < fuses.size(); i++) {
      if (fuses.get(i).isEmpty()) {
        return Words.say(
            "use thicker wire: no fuse as sold lasts at the %.2f A that are led in at %s and blows before these wires grow hot",
            flow.feedAmps().get(i), place(flow.chain().feeds().get(i)));
      }
      each.add(
          Words.say(
              "%s at %s", Words.amps(fuses.get(i).get()), place(flow.chain().feeds().get(i))));
    }
    return "fuse each feed where it leaves the supply: " + Words.list(each);
  }

  private Diagnostic said(Flow flow, Severity severity, String message, String why, String help) {
    Chain chain = flow.chain();
    return finding(severity, chain.span(), message)
        .about(List.of(chain.name()))
        .label(chain.cable().words() + ", fed at " + places(chain))
        .word("chain", chain.name())
        .measure("carried", flow.mostAmps(), 2, "A")
        .fact(
            "in a bundle or on a long run they bear",
            Words.say("%.2f A", Wire.bearsBundled(chain.cable())))
        .measure("borne", Wire.bears(chain.cable()), 2, "A")
        .measure("borne in a bundle", Wire.bearsBundled(chain.cable()), 2, "A")
        .measure("supplied", chain.supply().milliamps() / 1000.0, 3, "A")
        .because(why, severity == Severity.NOTE ? new String[] {"MOROP NEM 609"} : new String[0])
        .help(help);
  }

  private static String places(Chain chain) {
    return Words.list(chain.feeds().stream().map(WireTooThin::place).toList());
  }

  private static String place(int feed) {
    return feed == 0 ? "its start" : "LED " + feed;
  }
}
