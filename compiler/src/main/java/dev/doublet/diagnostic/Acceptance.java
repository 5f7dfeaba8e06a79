package dev.doublet.diagnostic;

import dev.doublet.source.Span;
import java.util.Comparator;
import java.util.List;

/**
 * A warning that somebody looked at and lives with. It is narrow: it names everything that the
 * warning is about, so that the next warning of the same check is seen.
 *
 * @param check the name of the check
 * @param of what the warning is about, by name, sorted
 * @param reason why it may stay, in the author's words
 * @param span where it is written
 */
public record Acceptance(String check, List<String> of, String reason, Span span) {
  /** By check, then by what it is about, then by reason. */
  public static final Comparator<Acceptance> ORDER =
      Comparator.comparing(Acceptance::check)
          .thenComparing(a -> a.of().toString())
          .thenComparing(Acceptance::reason);

  /** Copies and sorts the names. */
  public Acceptance {
    of = of.stream().distinct().sorted().toList();
  }

  /** True for a warning of this check that is about nothing but what is named here. */
  public boolean accepts(Diagnostic diagnostic) {
    return diagnostic.severity() == Severity.WARNING && speaksOf(diagnostic);
  }

  /** The same of any severity. */
  public boolean speaksOf(Diagnostic diagnostic) {
    return diagnostic.name().equals(check)
        && !diagnostic.about().isEmpty()
        && of.containsAll(diagnostic.about());
  }
}
