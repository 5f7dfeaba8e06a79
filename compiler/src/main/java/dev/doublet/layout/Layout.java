package dev.doublet.layout;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.rulebook.Fault;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Mentions;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/**
 * A layout with every name resolved. What has a mistake is left out, so that the rest fits
 * together.
 *
 * @param title as its file says
 * @param rulebook the book its signals follow
 * @param scale the ratio: 87.1 for 1:87.1; no number when it could not be read
 * @param viewingOrNull from where it is looked at
 * @param prices what its parts cost
 * @param buses in the order declared
 * @param controllers in the order declared
 * @param modules the layouts it uses, whose controllers are among its own
 * @param acceptances the warnings it lives with
 * @param errors the faults whose hazards it will not have at all, besides those of its rulebook
 * @param pinning which addresses and values its file does not say
 * @param whole true when nothing of its file has a mistake, so that what is not here was not said
 * @param mentions where its names and those of its rulebook are written
 * @param span its first line
 */
public record Layout(
    String title,
    Rulebook rulebook,
    double scale,
    Viewing viewingOrNull,
    Prices prices,
    List<Bus> buses,
    List<Controller> controllers,
    List<Module> modules,
    List<Acceptance> acceptances,
    Set<Fault> errors,
    Pinning pinning,
    boolean whole,
    Mentions mentions,
    Span span) {

  /** Copies the lists. */
  public Layout {
    buses = List.copyOf(buses);
    controllers = List.copyOf(controllers);
    modules = List.copyOf(modules);
    acceptances = List.copyOf(acceptances);
    errors = Set.copyOf(errors);
  }

  /** From where it is looked at, and how large all is; empty when that could not be read. */
  public Optional<Viewing> viewing() {
    return Optional.ofNullable(viewingOrNull);
  }

  /** The module that a controller came with; empty for one of its own. */
  public Optional<Module> module(Controller controller) {
    return modules.stream().filter(m -> m.controllers().contains(controller.name())).findFirst();
  }
}
