package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Supply;
import dev.doublet.power.Flow;
import dev.doublet.power.Wire;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/** A cable that carries more current than its wires bear, or that its supply could overheat. */
public final class WireTooThin implements Check.OfLayout {

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
    Optional<Diagnostic> thin = ownWires(flow);
    if (thin.isPresent()) {
      return thin;
    }
    Supply strongest = strongest(chain);
    if (strongest.milliamps() > bears * 1000) {
      return Optional.of(
          said(
              flow,
              Severity.NOTE,
              Words.say(
                  "the supply of chain %s could send %s A through wires that bear %s A",
                  chain.name(), Words.number(strongest.milliamps() / 1000.0), Words.number(bears)),
              "a short circuit is no overload to a large supply: wires grow hot before it shuts down"
                  + " (MOROP NEM 609 asks for a cross-section fit for the largest current)",
              guard(flow)));
    }
    return Optional.empty();
  }

  private static Supply strongest(Chain chain) {
    return chain.sections().stream()
        .map(Chain.Section::supply)
        .max(Comparator.comparingInt(Supply::milliamps))
        .orElseThrow();
  }

  /** The wires of feeds, and those to signals. */
  private Optional<Diagnostic> ownWires(Flow flow) {
    Chain chain = flow.chain();
    for (int i = 0; i < chain.feeds().size(); i++) {
      int feed = chain.feeds().get(i);
      Optional<Cable> wire = chain.cable().lay().feed(feed).map(Lay.Feed::wire);
      if (wire.isPresent() && wire.get().isSaid()) {
        double amps = flow.feedAmps().get(i);
        if (amps > Wire.bears(wire.get())) {
          return Optional.of(
              hot(flow, "the wires to its feed at " + place(feed), wire.get(), amps));
        }
      }
    }
    List<Lay.Lead> leads = chain.cable().lay().leads();
    for (int i = 0; i < leads.size(); i++) {
      double amps = flow.leadAmps().get(i);
      if (amps > Wire.bears(leads.get(i).wire())) {
        String what = "the lead to the signal at LED " + (leads.get(i).first() + 1);
        return Optional.of(hot(flow, what, leads.get(i).wire(), amps));
      }
    }
    return Optional.empty();
  }

  private Diagnostic hot(Flow flow, String what, Cable wire, double amps) {
    return said(
            flow,
            Severity.ERROR,
            Words.say(
                "on chain %s %.2f A flow through %s, and %s bears %s A",
                flow.chain().name(), amps, what, wire.words(), Words.number(Wire.bears(wire))),
            "wires that carry more than they bear grow hot",
            "use thicker wire there")
        .word("wires", wire.words())
        .measure("carried there", amps, 2, "A")
        .measure("borne there", Wire.bears(wire), 2, "A");
  }

  /** What would blow before the wires from each feed grow hot, where any would. */
  private static Datum fuses(Flow flow) {
    List<String> each = new ArrayList<>();
    for (int i = 0; i < flow.fuses().size(); i++) {
      Optional<Double> fuse = flow.fuses().get(i);
      String at = place(flow.chain().feeds().get(i));
      fuse.ifPresent(amps -> each.add(Words.say("%s at %s", Words.amps(amps), at)));
    }
    return Datum.of("fuses", each);
  }

  private static String guard(Flow flow) {
    List<Optional<Double>> fuses = flow.fuses();
    for (int i = 0; i < fuses.size(); i++) {
      if (fuses.get(i).isEmpty()) {
        return Words.say(
            "use thicker wire: no fuse as sold lasts at the %.2f A that are led in at %s and blows before these wires grow hot",
            flow.feedAmps().get(i), place(flow.chain().feeds().get(i)));
      }
    }
    return "fuse each feed where it leaves the supply: {fuses}";
  }

  private Diagnostic said(Flow flow, Severity severity, String message, String why, String help) {
    Chain chain = flow.chain();
    return finding(severity, chain.span(), message)
        .about(List.of(chain.name()))
        .label(
            "{cable}, fed at {feeds}",
            Datum.of("cable", chain.cable().words()),
            Datum.of("feeds", chain.feeds().stream().map(WireTooThin::place).toList()))
        .word("chain", chain.name())
        .measure("carried", flow.mostAmps(), 2, "A")
        .fact(
            "in a bundle or on a long run they bear",
            Words.say("%.2f A", Wire.bearsBundled(chain.cable())))
        .measure("borne", Wire.bears(chain.cable()), 2, "A")
        .measure("borne in a bundle", Wire.bearsBundled(chain.cable()), 2, "A")
        .measure("supplied", strongest(chain).milliamps() / 1000.0, 3, "A")
        .because(why, severity == Severity.NOTE ? new String[] {"MOROP NEM 609"} : new String[0])
        .help(help, fuses(flow));
  }

  private static String place(int feed) {
    return feed == 0 ? "its start" : "LED " + feed;
  }
}
