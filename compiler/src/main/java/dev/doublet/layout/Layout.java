package dev.doublet.layout;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Set;

/**
 * A layout with every name resolved.
 *
 * @param title as its file says
 * @param rulebook the book its signals follow
 * @param scale the ratio: 87.1 for 1:87.1
 * @param viewing from where it is looked at
 * @param prices what its parts cost
 * @param buses in the order declared
 * @param controllers in the order declared
 * @param acceptances the warnings it lives with
 * @param errors the faults whose hazards it will not have at all, besides those of its rulebook
 * @param span its first line
 */
public record Layout(
    String title,
    Rulebook rulebook,
    double scale,
    Viewing viewing,
    Prices prices,
    List<Bus> buses,
    List<Controller> controllers,
    List<Acceptance> acceptances,
    Set<Fault> errors,
    Span span) {

  /** Copies the lists. */
  public Layout {
    buses = List.copyOf(buses);
    controllers = List.copyOf(controllers);
    acceptances = List.copyOf(acceptances);
    errors = Set.copyOf(errors);
  }
}
