package dev.doublet;

import dev.doublet.chart.Answers;
import dev.doublet.chart.AnswersText;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Edits;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Severity;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Pinning;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Optional;

/**
 * A layout's file in which every address and value stands, so that none moves when a signal or an
 * aspect is added. What the file said before it says in the same words.
 *
 * @param before the file as it was
 * @param after the same with them written; empty where that is not possible
 * @param addresses how many addresses were written
 * @param values how many values were written
 * @param said why it is not possible: what a reading of the file finds
 */
public record PinnedLayout(
    SourceFile before,
    Optional<SourceFile> after,
    int addresses,
    int values,
    List<Diagnostic> said) {
  private static final String UNPINNED = "unpinned-number";

  /**
   * Pins a layout.
   *
   * @throws SourceReader.Unreadable when its file cannot be read
   */
  public static PinnedLayout of(String path, SourceReader reader) throws SourceReader.Unreadable {
    SourceFile before = reader.read(path);
    Outcome<Layout> read = LayoutResolver.resolve(path, reader);
    boolean wrong =
        read.diagnostics().stream()
            .anyMatch(d -> d.severity() == Severity.ERROR && !d.name().equals(UNPINNED));
    if (wrong || read.value().isEmpty()) {
      return new PinnedLayout(before, Optional.empty(), 0, 0, read.diagnostics());
    }
    Layout layout = read.value().get();
    Pinning pinning = layout.pinning();
    List<Fix> writing =
        pinning.edits().isEmpty()
            ? List.of()
            : List.of(new Fix("write all numbers", pinning.edits(), true));
    SourceFile after = new Edits(writing).appliedTo(before);
    SourceReader changed = name -> name.equals(path) ? after : reader.read(name);
    Outcome<Layout> again = LayoutResolver.resolve(path, changed);
    if (again.hasErrors() || !read.hasErrors() && !answers(again).equals(answers(read))) {
      throw new IllegalStateException("what was written reads otherwise: " + after.text());
    }
    return new PinnedLayout(
        before,
        Optional.of(after),
        pinning.automatic().stream().mapToInt(Pinning.Automatic::addresses).sum(),
        pinning.automatic().stream().mapToInt(Pinning.Automatic::values).sum(),
        read.diagnostics());
  }

  private static String answers(Outcome<Layout> read) {
    return AnswersText.of(Answers.of(read.value().orElseThrow()));
  }
}
