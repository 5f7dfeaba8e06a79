package dev.doublet.cli;

import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HexFormat;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * The files of one commit. Trees are walked here, so that a link or a repository within the
 * repository is seen for what it is, and blobs are read by their hash.
 */
final class Revision {
  private static final int FOLDER = 0040000;
  private static final int LINK = 0120000;
  private static final int OTHER_REPOSITORY = 0160000;
  private static final int SORT = 0170000;

  private final GitObjects objects;
  private final String name;
  private final String commit;
  private final Map<String, Map<String, Entry>> trees = new HashMap<>();
  private final Map<String, SourceFile> known = new HashMap<>();

  /** What a tree holds under one name. */
  private record Entry(int mode, String id) {
    boolean is(int sort) {
      return (mode & SORT) == sort;
    }
  }

  private Revision(GitObjects objects, String name, String commit) {
    this.objects = objects;
    this.name = name;
    this.commit = commit;
  }

  /** The commit that a branch, a tag or a hash names. */
  static Revision of(GitObjects objects, String name) throws IOException {
    if (name.isBlank() || name.startsWith("-") || !name.chars().allMatch(c -> c > ' ')) {
      throw new FileSystemException(name, null, "no revision can have such a name");
    }
    Optional<GitObjects.GitObject> found = objects.find(name + "^{commit}");
    if (found.isEmpty()) {
      throw new FileSystemException(
          name,
          null,
          "this repository has no such revision"
              + (objects.areShallow()
                  ? "; it is shallow: git fetch --unshallow brings the rest"
                  : ""));
    }
    return new Revision(objects, name, found.get().id());
  }

  /** The commit's hash. */
  String commit() {
    return commit;
  }

  /** True when there is a file, or a link or anything else that is no folder. */
  boolean hasFile(String path) throws IOException {
    return entry(path).filter(e -> !e.is(FOLDER)).isPresent();
  }

  /** True when there is such a folder. */
  boolean hasFolder(String path) throws IOException {
    return path.isEmpty() || entry(path).filter(e -> e.is(FOLDER)).isPresent();
  }

  /**
   * Every file below a folder by its path, links included; other repositories are not looked into.
   */
  List<String> below(String folder) throws IOException {
    List<String> files = new ArrayList<>();
    String id = folder.isEmpty() ? root() : entry(folder).orElseThrow().id();
    gather(folder.isEmpty() ? "" : folder + "/", id, files);
    return files;
  }

  /**
   * Every other repository at or below a place, by its path, with the commit that is taken of it.
   *
   * @param path from the root of the repository; empty for all
   */
  Map<String, String> submodules(String path) throws IOException {
    Map<String, String> found = new TreeMap<>();
    if (path.isEmpty()) {
      gather("", root(), found);
      return found;
    }
    Optional<Entry> entry = entry(path);
    if (entry.filter(e -> e.is(FOLDER)).isPresent()) {
      gather(path + "/", entry.get().id(), found);
    } else {
      entry.filter(e -> e.is(OTHER_REPOSITORY)).ifPresent(e -> found.put(path, e.id()));
    }
    return found;
  }

  private void gather(String prefix, String tree, Map<String, String> submodules)
      throws IOException {
    for (Map.Entry<String, Entry> one : tree(tree).entrySet()) {
      String path = prefix + one.getKey();
      if (one.getValue().is(FOLDER)) {
        gather(path + "/", one.getValue().id(), submodules);
      } else if (one.getValue().is(OTHER_REPOSITORY)) {
        submodules.put(path, one.getValue().id());
      }
    }
  }

  private void gather(String prefix, String tree, List<String> files) throws IOException {
    for (Map.Entry<String, Entry> one : tree(tree).entrySet()) {
      String path = prefix + one.getKey();
      if (one.getValue().is(FOLDER)) {
        gather(path + "/", one.getValue().id(), files);
      } else if (!one.getValue().is(OTHER_REPOSITORY)) {
        files.add(path);
      }
    }
  }

  /**
   * Reads texts of this revision.
   *
   * @param base the folder that paths are seen from; empty for the root
   */
  SourceReader reader(String base) {
    return path -> read(base.isEmpty() ? path : base + "/" + path, path);
  }

  private SourceFile read(String path, String shown) throws SourceReader.Unreadable {
    String place = SourceReader.beside("", path);
    if (shown.startsWith("/") || place.equals("..") || place.startsWith("../")) {
      throw new SourceReader.Unreadable(
          "it lies outside this repository, and nothing outside is read");
    }
    SourceFile file = known.get(place + "\n" + shown);
    if (file == null) {
      file = new SourceFile(shown, text(place));
      known.put(place + "\n" + shown, file);
    }
    return file;
  }

  private String text(String path) throws SourceReader.Unreadable {
    try {
      Entry entry =
          entry(path)
              .orElseThrow(
                  () -> new SourceReader.Unreadable("there is no such file in revision " + name));
      if (entry.is(FOLDER)) {
        throw new SourceReader.Unreadable("this is a folder");
      }
      if (entry.is(LINK)) {
        throw new SourceReader.Unreadable("it is a link, and in a revision none is followed");
      }
      if (entry.is(OTHER_REPOSITORY)) {
        throw new SourceReader.Unreadable(
            "it lies in another repository, of which nothing is read");
      }
      GitObjects.GitObject found =
          objects
              .find(entry.id())
              .orElseThrow(
                  () ->
                      new SourceReader.Unreadable(
                          "it is not in this clone, and nothing is fetched"));
      return Utf8.text(found.bytes());
    } catch (IOException e) {
      throw new SourceReader.Unreadable("git cannot read it: " + Troubles.words(e));
    }
  }

  private Optional<Entry> entry(String path) throws IOException {
    String tree = root();
    String[] parts = path.split("/");
    for (int i = 0; i < parts.length; i++) {
      Entry entry = tree(tree).get(parts[i]);
      if (entry == null || i + 1 < parts.length && !entry.is(FOLDER)) {
        return Optional.empty();
      }
      if (i + 1 == parts.length) {
        return Optional.of(entry);
      }
      tree = entry.id();
    }
    return Optional.empty();
  }

  private String root() {
    return commit + "^{tree}";
  }

  private Map<String, Entry> tree(String id) throws IOException {
    Map<String, Entry> tree = trees.get(id);
    if (tree == null) {
      GitObjects.GitObject found =
          objects
              .find(id)
              .filter(f -> f.type().equals("tree"))
              .orElseThrow(
                  () ->
                      new FileSystemException(
                          name,
                          null,
                          "a folder of it is not in this clone, and nothing is fetched"));
      tree = entries(found);
      trees.put(id, tree);
    }
    return tree;
  }

  /** A tree is a list of: mode in octal digits, blank, name, zero byte, hash. */
  private Map<String, Entry> entries(GitObjects.GitObject found) throws IOException {
    byte[] bytes = found.bytes();
    int hash = found.id().length() / 2;
    Map<String, Entry> entries = new TreeMap<>();
    int at = 0;
    while (at < bytes.length) {
      int blank = next(bytes, at, ' ');
      int zero = next(bytes, blank, '\0');
      int end = zero + 1 + hash;
      if (blank < 0 || zero < 0 || end > bytes.length) {
        throw new FileSystemException(name, null, "a folder of it cannot be read");
      }
      int mode = Integer.parseInt(new String(bytes, at, blank - at, StandardCharsets.US_ASCII), 8);
      String entry = new String(bytes, blank + 1, zero - blank - 1, StandardCharsets.UTF_8);
      Entry made = new Entry(mode, HexFormat.of().formatHex(bytes, zero + 1, end));
      if (entries.put(entry, made) != null) {
        throw new FileSystemException(
            name,
            null,
            "two of its files have names that differ in letters alone that are no UTF-8");
      }
      at = end;
    }
    return entries;
  }

  private static int next(byte[] bytes, int from, char wanted) {
    for (int i = Math.max(from, 0); i < bytes.length; i++) {
      if (bytes[i] == wanted) {
        return i;
      }
    }
    return -1;
  }
}
