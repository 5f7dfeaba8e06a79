package dev.doublet.report;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Function;

/**
 * Everything said in one run, and the line that closes it.
 *
 * @param shown what is told, by file and place; of many alike, text draws the first and counts the
 *     rest
 * @param files how many files were checked
 * @param skipped how many checks did not run
 */
public record Summary(List<Diagnostic> shown, int files, int skipped) {
  /** How many findings of one name and severity are drawn: as many as are mended at one go. */
  private static final int MOST_ALIKE = 30;

  /**
   * What is said of some files.
   *
   * @param all in any order
   * @param notes true to show notes too
   */
  public static Summary of(List<Diagnostic> all, int files, int skipped, boolean notes) {
    List<Diagnostic> sorted = all.stream().sorted(Diagnostic.ORDER).distinct().toList();
    List<Diagnostic> shown = sorted.stream().filter(d -> notes || d.isFinding()).toList();
    return new Summary(shown, files, skipped);
  }

  /** What is left of a run. */
  public static Summary of(Findings findings) {
    return new Summary(
        findings.all().stream().map(Findings.Finding::said).toList(),
        findings.files().size(),
        findings.skipped());
  }

  /**
   * True when a run has failed: when there is an error.
   *
   * @param strict true when a warning counts as one
   */
  public boolean isFailure(boolean strict) {
    return strict ? shown.stream().anyMatch(Diagnostic::isFinding) : hasErrors();
  }

  /** True when there is an error. */
  public boolean hasErrors() {
    return count(Severity.ERROR) > 0;
  }

  /**
   * All of it, drawn for people.
   *
   * @param colour true to mark severities with terminal colours
   */
  public String text(boolean colour) {
    return text(new TextRendering(colour));
  }

  /**
   * All of it, drawn for people on a terminal that has colours.
   *
   * @param drawing lines that show what one says, its names made visible; empty for most
   */
  public String text(Function<Diagnostic, String> drawing) {
    return text(new TextRendering(true, drawing));
  }

  private String text(TextRendering rendering) {
    StringBuilder text = new StringBuilder();
    SortedMap<String, Integer> alike = new TreeMap<>();
    List<Diagnostic> drawn =
        shown.stream().filter(d -> alike.merge(kind(d), 1, Integer::sum) <= MOST_ALIKE).toList();
    if (!drawn.isEmpty()) {
      text.append(rendering.draw(drawn)).append('\n');
    }
    alike.forEach(
        (kind, count) -> {
          if (count > MOST_ALIKE) {
            text.append(Words.say("%,d more of %s are not shown.\n", count - MOST_ALIKE, kind));
          }
        });
    if (skipped > 0) {
      text.append(Words.count(skipped, "check"))
          .append(" did not run: mend the errors above first.\n");
    }
    return text.append(line()).append('\n').toString();
  }

  /** "the error twin-aspects": what is counted together where there are many. */
  private static String kind(Diagnostic diagnostic) {
    return "the " + diagnostic.severity().word() + " " + diagnostic.name();
  }

  private String line() {
    List<String> counts = new ArrayList<>();
    for (Severity severity : Severity.values()) {
      if (count(severity) > 0) {
        counts.add(Words.count(count(severity), severity.word()));
      }
    }
    String found = counts.isEmpty() ? "nothing found" : String.join(", ", counts);
    return Words.count(files, "file") + " checked: " + found + ".";
  }

  private long count(Severity severity) {
    return shown.stream().filter(d -> d.severity() == severity).count();
  }
}
