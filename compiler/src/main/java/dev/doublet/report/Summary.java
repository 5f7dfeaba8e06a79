package dev.doublet.report;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import java.util.ArrayList;
import java.util.List;

/**
 * Everything said in one run, and the line that closes it.
 *
 * @param shown what is printed, by file and place
 * @param files how many files were checked
 * @param skipped how many checks did not run
 */
public record Summary(List<Diagnostic> shown, int files, int skipped) {

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

  /** True when there is an error or a warning. */
  public boolean hasFindings() {
    return shown.stream().anyMatch(Diagnostic::isFinding);
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
    StringBuilder text = new StringBuilder();
    if (!shown.isEmpty()) {
      text.append(new TextRendering(colour).draw(shown)).append('\n');
    }
    if (skipped > 0) {
      text.append(Words.count(skipped, "check"))
          .append(" did not run: mend the errors above first.\n");
    }
    return text.append(line()).append('\n').toString();
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
