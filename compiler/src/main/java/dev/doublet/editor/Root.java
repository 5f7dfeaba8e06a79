package dev.doublet.editor;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.Asked;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Mention;
import dev.doublet.source.Mentions;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * A rulebook or layout, read with the files it uses.
 *
 * @param path its own file
 * @param files every text that was read, by name
 * @param missing the names of files that it uses and that could not be read
 * @param findings errors and warnings, by file and place
 * @param names where its names are written
 * @param book the rulebook, or that of the layout; empty when it could not be read at all
 * @param layout the layout; empty for a rulebook, and when it could not be read at all
 */
public record Root(
    String path,
    Map<String, SourceFile> files,
    Set<String> missing,
    List<Diagnostic> findings,
    Mentions names,
    Optional<Rulebook> book,
    Optional<LayoutFacts> layout) {

  /** Copies the lists. */
  public Root {
    missing = Set.copyOf(missing);
    findings = List.copyOf(findings);
  }

  /** Reads it and runs all checks: these are the findings of the command line. */
  public static Root whole(String path, SourceReader reader) {
    return read(path, reader, Asked.FINDINGS);
  }

  /** Reads it and runs the checks that an editor can wait for. */
  public static Root quick(String path, SourceReader reader) {
    return read(path, reader, Asked.QUICKLY);
  }

  private static Root read(String path, SourceReader reader, Asked asked) {
    Map<String, SourceFile> files = new TreeMap<>();
    Set<String> missing = new TreeSet<>();
    SourceReader noting =
        name -> {
          try {
            SourceFile file = reader.read(name);
            files.put(file.name(), file);
            return file;
          } catch (SourceReader.Unreadable e) {
            missing.add(name);
            throw e;
          }
        };
    if (LayoutResolver.isLayout(path)) {
      Compiler.Checked<LayoutFacts> checked = Compiler.checkLayout(path, noting, asked);
      Optional<Rulebook> book = checked.value().map(facts -> facts.layout().rulebook());
      Mentions names = checked.value().map(f -> f.layout().mentions()).orElse(Mentions.NONE);
      return new Root(path, files, missing, findings(checked), names, book, checked.value());
    }
    Compiler.Checked<Rulebook> checked = Compiler.checkRulebook(path, noting, asked);
    Mentions names = checked.value().map(Rulebook::mentions).orElse(Mentions.NONE);
    return new Root(
        path, files, missing, findings(checked), names, checked.value(), Optional.empty());
  }

  private static List<Diagnostic> findings(Compiler.Checked<?> checked) {
    return checked.diagnostics().stream().filter(Diagnostic::isFinding).toList();
  }

  /** The name at a place. */
  public Optional<Mention> nameAt(SourceFile file, int offset) {
    return names.at(file, offset);
  }

  /** Where that name is given its meaning. */
  public List<Mention> declarations(Mention name) {
    return names.of(name).stream().filter(Mention::declares).toList();
  }
}
