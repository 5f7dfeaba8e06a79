package dev.doublet.cli;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import java.io.File;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * The files that a run reads.
 *
 * @param files with forward slashes, sorted, each once
 */
record Inputs(List<String> files) {
  private static final String ASPECTS = ".aspects";
  private static final String NOTHING =
      "no rulebook (.aspects), and no layout whose name ends in layout.yaml";

  /** Takes files as they are, and from folders every rulebook and every layout. */
  static Inputs find(List<String> paths, Path folder, SourceReader reader) throws IOException {
    return search(paths, folder, name -> isOneOfFolder(name, reader));
  }

  /** Takes files as they are, and from folders every text in one of the two languages. */
  static Inputs texts(List<String> paths, Path folder) throws IOException {
    return search(paths, folder, name -> isLayoutInFolder(name) || name.endsWith(ASPECTS));
  }

  private static Inputs search(List<String> paths, Path folder, Predicate<String> fits)
      throws IOException {
    TreeSet<String> files = new TreeSet<>();
    for (String path : paths) {
      Path asGiven = folder.getFileSystem().getPath(path);
      Path given = folder.resolve(asGiven);
      if (Files.isDirectory(given)) {
        List<String> inside = new ArrayList<>();
        try (Stream<Path> walk = Files.walk(given)) {
          for (Path found : walk.filter(Files::isRegularFile).sorted().toList()) {
            String name = slashes(asGiven.resolve(given.relativize(found).toString()));
            if (fits.test(name)) {
              inside.add(name);
            }
          }
        }
        if (inside.isEmpty()) {
          throw new FileSystemException(path, null, "this folder holds " + NOTHING);
        }
        files.addAll(inside);
      } else if (Files.exists(given)) {
        files.add(slashes(asGiven));
      } else {
        throw new NoSuchFileException(path);
      }
    }
    return new Inputs(List.copyOf(files));
  }

  /** The layout that is named, or the only one in the folder that is. */
  static String layout(String path, Path folder, SourceReader reader) throws IOException {
    List<String> found = find(List.of(path), folder, reader).files();
    List<String> layouts = found.stream().filter(LayoutResolver::isLayout).toList();
    return only(path, found, layouts, "layout (.yaml)");
  }

  /** The rulebook that is named, or the only one in the folder that is. */
  static String rulebook(String path, Path folder, SourceReader reader) throws IOException {
    List<String> found = find(List.of(path), folder, reader).files();
    List<String> books = found.stream().filter(f -> !LayoutResolver.isLayout(f)).toList();
    List<String> tests = books.stream().filter(f -> isTest(f, reader)).toList();
    return only(
        path,
        found,
        books.size() == 1 ? books : books.stream().filter(f -> !tests.contains(f)).toList(),
        "rulebook (.aspects)");
  }

  private static String only(String path, List<String> found, List<String> fit, String wanted)
      throws IOException {
    if (fit.size() == 1) {
      return fit.get(0);
    }
    String reason =
        fit.isEmpty()
            ? found.equals(List.of(path)) ? "this is no " + wanted : "this holds no " + wanted
            : "this folder holds several; name one of them: " + String.join(", ", fit);
    throw new FileSystemException(path, null, reason);
  }

  /** True for what is taken from a folder: rulebooks, and files named as layouts are. */
  static boolean isOneOfFolder(String path, SourceReader reader) {
    return isLayoutInFolder(path) || isRulebook(path, reader);
  }

  /** True for what is named as a text in one of the two languages. */
  static boolean isText(String path) {
    return LayoutResolver.isLayout(path) || path.endsWith(ASPECTS);
  }

  private static boolean isLayoutInFolder(String path) {
    return path.endsWith("layout.yaml") || path.endsWith("layout.yml");
  }

  /**
   * Files that other rulebooks use have no rulebook line, and are read with those. One that does
   * not follow the grammar is never passed over: its rulebook line may be what is misspelt. Neither
   * is one that declares nothing, of which no other has any use; and the tests of a book are read
   * with it.
   */
  private static boolean isRulebook(String path, SourceReader reader) {
    if (!path.endsWith(ASPECTS)) {
      return false;
    }
    try {
      SourceFile file = reader.read(path);
      Outcome<Tree> parsed = AspectsSyntax.parse(file);
      return parsed.hasErrors()
          || parsed.value().stream().allMatch(t -> t.declarations().isEmpty() || t.isTest())
          || parsed.value().stream()
              .flatMap(t -> t.declarations().stream())
              .anyMatch(d -> d instanceof Tree.BookLine);
    } catch (SourceReader.Unreadable e) {
      return true;
    }
  }

  private static boolean isTest(String path, SourceReader reader) {
    try {
      return AspectsSyntax.parse(reader.read(path)).value().stream().anyMatch(Tree::isTest);
    } catch (SourceReader.Unreadable e) {
      return false;
    }
  }

  private static String slashes(Path path) {
    return path.normalize().toString().replace(File.separatorChar, '/');
  }
}
