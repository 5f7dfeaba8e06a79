package dev.doublet.editor;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
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
 * @param read runs its checks
 * @param names where its names are written
 * @param book the rulebook, or that of the layout; empty when it could not be read at all
 * @param layout the layout; empty for a rulebook, and when it could not be read at all
 */
public record Root(
    String path,
    Map<String, SourceFile> files,
    Set<String> missing,
    List<Diagnostic> findings,
    Compiler.Read<?> read,
    Mentions names,
    Optional<Rulebook> book,
    Optional<LayoutFacts> layout) {

  /** Copies the lists, and takes each aspect of many numbers for what it is declared as. */
  public Root {
    Mentions written = names;
    names = book.map(b -> written.with(name -> declared(b, name))).orElse(names);
    missing = Set.copyOf(missing);
    findings = List.copyOf(findings);
  }

  /** Reads it and runs the checks that an editor can wait for. */
  public static Root quick(String path, SourceReader reader) {
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
      Compiler.Read<LayoutFacts> read = Compiler.readLayout(path, noting, CheckOptions.FINDINGS);
      Compiler.Checked<LayoutFacts> checked = read.checked(true);
      Optional<Rulebook> book = checked.value().map(facts -> facts.layout().rulebook());
      Mentions names = checked.value().map(f -> f.layout().mentions()).orElse(Mentions.NONE);
      return new Root(path, files, missing, findings(checked), read, names, book, checked.value());
    }
    Compiler.Read<Rulebook> read = Compiler.readRulebook(path, noting, CheckOptions.FINDINGS);
    Compiler.Checked<Rulebook> checked = read.checked(true);
    Mentions names = checked.value().map(Rulebook::mentions).orElse(Mentions.NONE);
    return new Root(
        path, files, missing, findings(checked), read, names, checked.value(), Optional.empty());
  }

  private static Mention declared(Rulebook book, Mention name) {
    return name.kind() == Mention.Kind.ASPECT
        ? new Mention(name.kind(), book.declared(name.name()), name.span(), name.declares())
        : name;
  }

  /** The same after all checks: its findings are those of the command line. */
  public Root whole() {
    return new Root(path, files, missing, findings(read.checked(false)), read, names, book, layout);
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
