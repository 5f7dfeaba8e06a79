package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Controller;
import java.util.List;

/** A controller whose signals a table cannot hold. */
public final class UnwritableTable implements Check.OfLayout {

  /** It makes tables to measure them. */
  @Override
  public boolean takesLong() {
    return true;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    return facts.layout().controllers().stream()
        .filter(c -> !facts.needs(c).isWritable())
        .map(c -> report(c, facts.needs(c).fault()))
        .toList();
  }

  private Diagnostic report(Controller controller, String fault) {
    return finding(
            Severity.ERROR,
            controller.span(),
            Words.say("no table can be written for controller %s: %s", controller.name(), fault))
        .about(List.of(controller.name()))
        .word("controller", controller.name())
        .word("fault", fault)
        .because("a table numbers its parts in one or two bytes each, so that it stays small")
        .help("move some of its signals to another controller");
  }
}
