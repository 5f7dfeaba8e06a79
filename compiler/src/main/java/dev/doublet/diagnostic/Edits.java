package dev.doublet.diagnostic;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;

/**
 * Changes that can be made together.
 *
 * @param fixes in the order of what they mend; no two of them overlap
 */
public record Edits(List<Fix> fixes) {

  /** Copies the list. */
  public Edits {
    fixes = List.copyOf(fixes);
  }

  /**
   * The one sure change for each diagnostic that has one. Of two that overlap the first is made;
   * what the other would mend is found again in the text that comes of it.
   */
  public static Edits of(List<Diagnostic> diagnostics) {
    List<Fix> fixes = new ArrayList<>();
    TreeSet<Fix.Edit> taken =
        new TreeSet<>(Comparator.comparing(Fix.Edit::span).thenComparing(Fix.Edit::replacement));
    for (Diagnostic diagnostic : diagnostics.stream().sorted(Diagnostic.ORDER).toList()) {
      sure(diagnostic)
          .filter(fix -> isFree(fix, taken))
          .ifPresent(
              fix -> {
                fixes.add(fix);
                taken.addAll(fix.edits());
              });
    }
    return new Edits(fixes);
  }

  /** The change that surely mends what was found; empty when there is a choice or a doubt. */
  public static Optional<Fix> sure(Diagnostic diagnostic) {
    return diagnostic.fixes().size() == 1
        ? diagnostic.fixes().stream().filter(Fix::safe).findFirst()
        : Optional.empty();
  }

  private static boolean isFree(Fix fix, TreeSet<Fix.Edit> taken) {
    // Those taken do not overlap, so only neighbours by place can reach into a new one.
    for (Fix.Edit edit : fix.edits()) {
      Fix.Edit before = taken.floor(edit);
      Fix.Edit after = taken.higher(edit);
      if (before != null && before.overlaps(edit) || after != null && after.overlaps(edit)) {
        return false;
      }
    }
    return true;
  }

  /** A text with the changes that concern it, and the rest of it as it was. */
  public SourceFile appliedTo(SourceFile file) {
    StringBuilder text = new StringBuilder(file.text());
    fixes.stream()
        .flatMap(f -> f.edits().stream())
        .filter(e -> e.span().file().name().equals(file.name()))
        .sorted(Comparator.comparing(Fix.Edit::span).reversed())
        .forEach(e -> text.replace(e.span().start(), e.span().end(), e.replacement()));
    return new SourceFile(file.name(), text.toString());
  }

  /** True for a part of the text that comes of the changes which holds or touches one of them. */
  public boolean changes(Span after) {
    int shift = 0;
    List<Fix.Edit> ordered =
        fixes.stream()
            .flatMap(f -> f.edits().stream())
            .filter(e -> e.span().file().name().equals(after.file().name()))
            .sorted(Comparator.comparing(Fix.Edit::span))
            .toList();
    for (Fix.Edit edit : ordered) {
      int start = edit.span().start() + shift;
      int end = start + edit.replacement().length();
      if (start <= after.end() && after.start() <= end) {
        return true;
      }
      shift += edit.replacement().length() - (edit.span().end() - edit.span().start());
    }
    return false;
  }
}
