package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.Comparator;
import java.util.List;
import java.util.Set;

/**
 * What keeps some faults from misleading a crew in practice, though the lamps alone would.
 *
 * @param faults which, at least one
 * @param forms on which forms, by name; empty for all
 * @param reason what covers them, in the rulebook's words
 * @param span where it is declared
 */
public record Cover(Set<Fault> faults, List<Form> forms, String reason, Span span) {
  /** Copies and sorts. */
  public Cover {
    faults = Set.copyOf(faults);
    forms = forms.stream().distinct().sorted(Comparator.comparing(Form::name)).toList();
  }

  /** True when this covers a fault on a form. */
  public boolean covers(Fault fault, Form form) {
    return faults.contains(fault) && (forms.isEmpty() || forms.contains(form));
  }
}
