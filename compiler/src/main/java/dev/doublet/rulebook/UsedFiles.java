package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashSet;
import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Stream;

/** Reads a file and all files it uses, each once. */
final class UsedFiles {
  private final SourceReader reader;
  private final List<Diagnostic> mistakes = new ArrayList<>();
  private final Map<String, Tree> trees = new LinkedHashMap<>();

  /**
   * Paths of broken declarations: nothing is said of them, and what they name is read if it can.
   */
  private final Set<Word> guessed = new HashSet<>();

  /** The files on the way from the root to the one being read, the latest first. */
  private final Deque<Visit> path = new ArrayDeque<>();

  private UsedFiles(SourceReader reader) {
    this.reader = reader;
  }

  /** Reads a file and all it uses. */
  static UsedFiles read(String root, SourceReader reader) {
    UsedFiles files = new UsedFiles(reader);
    String name = SourceReader.beside("", root);
    try {
      files.visit(name, reader.read(name), null);
    } catch (SourceReader.Unreadable reason) {
      SourceFile none = new SourceFile(name, "");
      files.trees.put(name, AspectsSyntax.nothing(none));
      files.mistakes.add(
          missing(none.span(0, 0), name, reason)
              .help(reason.remedy("give the path of an .aspects file.")));
    }
    files.visitAll();
    return files;
  }

  /** Each file as read, the root first; of one that cannot be read, that it may say anything. */
  List<Tree> trees() {
    return List.copyOf(trees.values());
  }

  /** What is wrong with them so far. */
  List<Diagnostic> mistakes() {
    return List.copyOf(mistakes);
  }

  private void visitAll() {
    while (!path.isEmpty()) {
      Visit visit = path.peek();
      if (!visit.uses().hasNext()) {
        path.pop();
        continue;
      }
      Word use = visit.uses().next();
      String target = SourceReader.beside(visit.name(), use.text());
      if (path.stream().anyMatch(v -> v.name().equals(target))) {
        mistakes.add(cycle(target, use));
      } else if (!trees.containsKey(target)) {
        try {
          visit(target, reader.read(target), use);
        } catch (SourceReader.Unreadable reason) {
          trees.put(target, AspectsSyntax.nothing(new SourceFile(target, "")));
          if (guessed.contains(use)) {
            continue;
          }
          mistakes.add(
              missing(use.span(), target, reason)
                  .because("a rulebook is whole only with every file it uses.")
                  .help(
                      use.text().contains("\\")
                          ? "write the path with forward slashes."
                          : reason.remedy(
                              "mend the path: it is read from the folder of this file.")));
        }
      }
    }
  }

  private void visit(String name, SourceFile file, Word use) {
    Outcome<Tree> parsed = AspectsSyntax.parse(file);
    mistakes.addAll(parsed.diagnostics());
    Tree tree = parsed.value().orElseThrow();
    trees.put(name, tree);
    path.push(new Visit(name, use, uses(tree).iterator()));
  }

  private List<Word> uses(Tree tree) {
    List<Word> uses = new ArrayList<>(paths(tree.declarations().stream()));
    for (Word path : paths(tree.broken().stream().flatMap(b -> b.mended().stream()))) {
      if (!path.text().isBlank()) {
        guessed.add(path);
        uses.add(path);
      }
    }
    return uses;
  }

  private static List<Word> paths(Stream<Tree.Declaration> declarations) {
    return declarations.filter(Tree.Use.class::isInstance).map(d -> ((Tree.Use) d).path()).toList();
  }

  private static Diagnostic missing(Span span, String name, SourceReader.Unreadable reason) {
    return Diagnostic.error(
        reason.finding(),
        Tier.SYNTAX,
        span,
        "{file} cannot be read: {reason}",
        Datum.of("file", name),
        Datum.of("reason", reason.getMessage()));
  }

  private Diagnostic cycle(String target, Word last) {
    List<Visit> round = new ArrayList<>();
    for (Visit visit : path) {
      round.add(0, visit);
      if (visit.name().equals(target)) {
        break;
      }
    }
    List<String> circle = new ArrayList<>(round.stream().map(Visit::name).toList());
    circle.add(target);
    Diagnostic diagnostic =
        Diagnostic.error(
            "use-cycle",
            Tier.SYNTAX,
            last.span(),
            round.size() == 1 ? "{file} uses itself" : "files use each other in a circle: {circle}",
            Datum.of("file", target),
            Datum.chain("circle", "uses", circle));
    for (Visit visit : round.subList(1, round.size())) {
      diagnostic =
          diagnostic.related(visit.use().span(), "uses {file}", Datum.of("file", visit.name()));
    }
    return diagnostic
        .because("files build on one another, and in a circle none could stand first.")
        .help("move what both need into a file that uses neither.");
  }

  /**
   * A file being read.
   *
   * @param use where it is used; null for the root
   * @param uses the files it uses that are still to be read
   */
  private record Visit(String name, Word use, Iterator<Word> uses) {}
}
