package dev.doublet.check.failure;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.rulebook.Fault;
import java.util.List;
import java.util.Set;

/** A signal that a fault makes permit more than was meant. */
public final class FalseProceed implements Check.OfLayout {

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
    Set<Fault> errors = facts.layout().errors();
    Report report =
        new Report(
            this,
            facts.layout().rulebook(),
            fault -> errors.contains(fault) ? Severity.ERROR : weight(fault));
    return report.of(facts.sites(), facts.asked());
  }

  /**
   * What only a model has, LEDs of several dies and chains of them, is for its builder to judge; so
   * is what seldom fails.
   */
  private static Severity weight(Fault fault) {
    return switch (fault) {
      case LAMP_OUT, FLASHER_STUCK, PLATE_LOST, ARM_FALLEN -> Severity.ERROR;
      case DIE_OUT, CHAIN_BROKEN, LAMP_STUCK, VANE_STUCK, ARM_STUCK -> Severity.WARNING;
      case DIE_STUCK -> Severity.NOTE;
    };
  }
}
