package dev.doublet;

import dev.doublet.diff.Version;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.report.Findings;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/** Reads and checks versions of files, to be compared. */
public final class Versions {
  private Versions() {}

  /**
   * One version.
   *
   * @param path as the reader knows it
   */
  public static Version read(String path, SourceReader reader) {
    Map<String, String> texts = new TreeMap<>();
    SourceReader remembering =
        name -> {
          SourceFile file = reader.read(name);
          texts.put(name, file.text());
          return file;
        };
    if (LayoutResolver.isLayout(path)) {
      Compiler.Checked<LayoutFacts> checked =
          Compiler.checkLayout(path, remembering, CheckOptions.FINDINGS);
      return Version.ofLayout(path, texts, checked.value(), findings(path, checked));
    }
    Compiler.Checked<Rulebook> checked =
        Compiler.checkRulebook(path, remembering, CheckOptions.FINDINGS);
    Rulebook book = checked.value().orElseThrow();
    return Version.ofBook(path, texts, book, findings(path, checked));
  }

  private static Findings findings(String path, Compiler.Checked<?> checked) {
    return Findings.of(List.of(path), checked.diagnostics(), checked.skipped(), true);
  }
}
