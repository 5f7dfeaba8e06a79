package dev.doublet.diagnostic;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/** Keeps what a person can mend at one go. */
public final class Shortlist {
  /** How many diagnostics of one file are shown. */
  public static final int LENGTH = 50;

  private Shortlist() {}

  /**
   * Sorts diagnostics, makes one of those that are alike, and keeps the first of each file; where
   * some are left out, the last one kept says how many, as a fact.
   */
  public static List<Diagnostic> of(List<Diagnostic> diagnostics) {
    List<Diagnostic> kept = new ArrayList<>();
    Map<String, Integer> counts = new HashMap<>();
    List<Diagnostic> sorted = diagnostics.stream().sorted(Diagnostic.ORDER).toList();
    for (Diagnostic diagnostic : Alike.drawnTogether(sorted)) {
      String file = diagnostic.primary().span().file().name();
      if (counts.merge(file, 1, Integer::sum) <= LENGTH) {
        kept.add(diagnostic);
      }
    }
    for (int i = 0; i < kept.size(); i++) {
      String file = kept.get(i).primary().span().file().name();
      boolean last =
          i + 1 == kept.size() || !kept.get(i + 1).primary().span().file().name().equals(file);
      int more = counts.get(file) - LENGTH;
      if (last && more > 0) {
        kept.set(i, kept.get(i).fact("not shown", more + " more in this file"));
      }
    }
    return kept;
  }
}
