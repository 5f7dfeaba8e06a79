package dev.doublet.cli;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.TextRendering;
import java.util.ArrayList;
import java.util.List;

/**
 * Everything said in one run, and the line that closes it.
 *
 * @param shown what is printed, by file and place
 * @param files how many files were checked
 * @param skipped how many checks did not run
 */
record Summary(List<Diagnostic> shown, int files, int skipped) {

  static Summary of(List<Diagnostic> all, int files, int skipped, boolean notes) {
    List<Diagnostic> sorted = all.stream().sorted(Diagnostic.ORDER).distinct().toList();
    List<Diagnostic> shown = sorted.stream().filter(d -> notes || d.isFinding()).toList();
    return new Summary(shown, files, skipped);
  }

  int exitCode() {
    return shown.stream().anyMatch(Diagnostic::isFinding) ? Main.FINDINGS : Main.CLEAN;
  }

  boolean hasErrors() {
    return count(Severity.ERROR) > 0;
  }

  void print(Terminal terminal) {
    if (!shown.isEmpty()) {
      terminal.out().print(new TextRendering(terminal.colour()).draw(shown));
      terminal.out().print('\n');
    }
    if (skipped > 0) {
      terminal
          .out()
          .print(plural(skipped, "check") + " did not run: mend the errors above first.\n");
    }
    terminal.out().print(line() + "\n");
  }

  private String line() {
    List<String> counts = new ArrayList<>();
    for (Severity severity : Severity.values()) {
      if (count(severity) > 0) {
        counts.add(plural(count(severity), severity.word()));
      }
    }
    String found = counts.isEmpty() ? "nothing found" : String.join(", ", counts);
    return plural(files, "file") + " checked: " + found + ".";
  }

  private long count(Severity severity) {
    return shown.stream().filter(d -> d.severity() == severity).count();
  }

  private static String plural(long count, String thing) {
    return count + " " + thing + (count == 1 ? "" : "s");
  }
}
