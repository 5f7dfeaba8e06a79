package dev.doublet.cli;

import dev.doublet.source.SourceReader;
import java.io.File;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What is compared: two files or folders, of the disk or of a revision ({@code REF:path}, from the
 * root of the repository, or from here after {@code ./}), or two revisions ({@code A..B}, or {@code
 * A...B} for what B did since it left A) and files and folders in both.
 *
 * @param gitOrNull what reads revisions until both sides are read
 */
record Sides(Side before, Side after, GitObjects gitOrNull) implements AutoCloseable {
  private static final Pattern RANGE = Pattern.compile("(.*?[^./:])(\\.\\.\\.?)([^./:].*)?");

  static Sides of(List<String> arguments, Path folder) throws IOException {
    Path checkout = Checkout.of(folder);
    String first = arguments.get(0);
    Matcher range = RANGE.matcher(first);
    boolean isRange = range.matches() && !exists(folder, first) && !first.contains(":");
    boolean asksGit = isRange || arguments.stream().anyMatch(a -> inRevision(a, folder));
    if (!asksGit) {
      return two(arguments, folder, null, "");
    }
    String here = here(checkout, folder);
    GitObjects objects = GitObjects.open(checkout);
    try {
      return isRange
          ? range(objects, range, arguments.subList(1, arguments.size()), here)
          : two(arguments, folder, objects, here);
    } catch (IOException | RuntimeException e) {
      objects.close();
      throw e;
    }
  }

  @Override
  public void close() {
    if (gitOrNull != null) {
      gitOrNull.close();
    }
  }

  private static Sides range(GitObjects objects, Matcher range, List<String> paths, String here)
      throws IOException {
    Revision before = Revision.of(objects, range.group(1));
    Revision after = Revision.of(objects, range.group(3) == null ? "HEAD" : range.group(3));
    if (range.group(2).equals("...")) {
      String base =
          objects
              .mergeBase(before.commit(), after.commit())
              .orElseThrow(
                  () ->
                      new FileSystemException(
                          range.group(),
                          null,
                          "the two have no commit in common here; a shallow clone may lack it"));
      before = Revision.of(objects, base);
    }
    String base = paths.isEmpty() ? "" : here;
    List<String> asked = new ArrayList<>();
    for (String path : paths) {
      asked.add(inTree(here, path));
    }
    if (paths.isEmpty()) {
      asked.add("");
    }
    for (int i = 0; i < asked.size(); i++) {
      String path = asked.get(i);
      boolean there =
          before.hasFile(path)
              || before.hasFolder(path)
              || after.hasFile(path)
              || after.hasFolder(path);
      if (!there) {
        throw new FileSystemException(paths.get(i), null, "neither revision has such a file");
      }
    }
    Side old = Side.ofRevision(before, base, asked);
    Side now = Side.ofRevision(after, base, asked);
    Side.refuseNothing(old, now, range.group());
    return new Sides(old, now, objects);
  }

  private static Sides two(
      List<String> arguments, Path folder, GitObjects objectsOrNull, String here)
      throws IOException {
    if (arguments.size() > 2) {
      throw new FileSystemException(
          arguments.get(2),
          null,
          "this is a third, and two are compared; for several files name two folders, or two revisions (A..B)");
    }
    if (arguments.size() < 2) {
      throw new FileSystemException(
          arguments.get(0),
          null,
          "say what it is held against, or name two revisions of this repository (A..B)");
    }
    if (arguments.stream().noneMatch(a -> inRevision(a, folder) || exists(folder, a))) {
      throw new FileSystemException(
          arguments.get(0), null, "there is no such file; two revisions in git are named A..B");
    }
    Side old = one(arguments.get(0), folder, objectsOrNull, here);
    Side now = one(arguments.get(1), folder, objectsOrNull, here);
    if (old.single() != now.single()) {
      throw new FileSystemException(
          arguments.get(old.single() ? 1 : 0), null, "a folder is compared with a folder");
    }
    Side.refuseNothing(old, now, arguments.get(1));
    return new Sides(old, now, objectsOrNull);
  }

  private static Side one(String argument, Path folder, GitObjects objectsOrNull, String here)
      throws IOException {
    if (!inRevision(argument, folder)) {
      return Side.ofDisk(argument, folder);
    }
    int colon = argument.indexOf(':');
    Revision revision = Revision.of(objectsOrNull, argument.substring(0, colon));
    String path = argument.substring(colon + 1);
    boolean fromHere = path.startsWith("./") || path.startsWith("../");
    return Side.ofRevision(revision, argument, inTree(fromHere ? here : "", path));
  }

  private static boolean inRevision(String argument, Path folder) {
    return argument.indexOf(':') > 0 && !exists(folder, argument);
  }

  private static boolean exists(Path folder, String path) {
    return Files.exists(folder.resolve(path));
  }

  /** The folder where the command runs, from the root of the checkout; empty for the root. */
  private static String here(Path checkout, Path folder) throws IOException {
    Path real = folder.toAbsolutePath().toRealPath();
    return checkout.relativize(real).toString().replace(File.separatorChar, '/');
  }

  private static String inTree(String here, String path) throws FileSystemException {
    String whole = SourceReader.beside("", here.isEmpty() ? path : here + "/" + path);
    if (path.startsWith("/") || whole.equals("..") || whole.startsWith("../")) {
      throw new FileSystemException(path, null, "it lies outside this repository");
    }
    return whole.equals(".") ? "" : whole;
  }
}
