package dev.doublet.check;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Diagnostic;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What is left to say after warnings that are meant so have become notes.
 *
 * @param diagnostics everything, the notes among it
 * @param taken for each acceptance the warnings that it took, which may be none
 */
public record AcceptanceOutcome(
    List<Diagnostic> diagnostics, Map<Acceptance, List<Diagnostic>> taken) {

  /**
   * Takes each warning by the first acceptance that fits it.
   *
   * @param acceptances in any order
   * @param found what was said before
   */
  public static AcceptanceOutcome of(List<Acceptance> acceptances, List<Diagnostic> found) {
    Map<Acceptance, List<Diagnostic>> taken = new LinkedHashMap<>();
    acceptances.forEach(a -> taken.put(a, new ArrayList<>()));
    List<Diagnostic> diagnostics = new ArrayList<>();
    for (Diagnostic diagnostic : found) {
      Diagnostic left = diagnostic;
      for (Acceptance acceptance : acceptances) {
        if (acceptance.accepts(left)) {
          taken.get(acceptance).add(left);
          left = left.accepted(acceptance);
        }
      }
      diagnostics.add(left);
    }
    return new AcceptanceOutcome(List.copyOf(diagnostics), taken);
  }
}
