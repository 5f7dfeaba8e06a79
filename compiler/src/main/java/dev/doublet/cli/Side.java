package dev.doublet.cli;

import dev.doublet.source.SourceReader;
import java.io.File;
import java.io.IOException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/**
 * One side of a comparison. Its files are named as seen from the folder that is compared, so that
 * both sides name them alike.
 *
 * @param files rulebooks and layouts, sorted
 * @param reader reads them, and what they use
 * @param single true for a file that was named, which is compared with whatever it is held against
 * @param submodules other repositories within, of which nothing is read, with the commit of each
 */
record Side(
    List<String> files, SourceReader reader, boolean single, Map<String, String> submodules) {
  /** What git gives for a file that is not there. */
  private static final String NOTHING = "/dev/null";

  /** A file or folder of the disk. */
  static Side ofDisk(String path, Path folder) throws IOException {
    if (path.equals(NOTHING)) {
      return none();
    }
    Path place = folder.resolve(path);
    if (!Files.exists(place)) {
      throw new NoSuchFileException(path);
    }
    if (!Files.isDirectory(place)) {
      Path parent = place.toAbsolutePath().getParent();
      Disk disk = new Disk(parent, List.of());
      return new Side(List.of(place.getFileName().toString()), disk, true, Map.of());
    }
    Disk disk = new Disk(place, List.of());
    TreeSet<String> files = new TreeSet<>();
    try (Stream<Path> walk = Files.walk(place)) {
      for (Path found : walk.filter(Files::isRegularFile).sorted().toList()) {
        String name = place.relativize(found).toString().replace(File.separatorChar, '/');
        if (Inputs.isOneOfFolder(name, disk)) {
          files.add(name);
        }
      }
    }
    return new Side(List.copyOf(files), disk, false, Map.of());
  }

  /** A file that is not there, held against one that is. */
  static Side none() {
    return new Side(
        List.of(),
        path -> {
          throw new SourceReader.Unreadable("there is no such file");
        },
        true,
        Map.of());
  }

  /**
   * A file or folder of a revision.
   *
   * @param path from the root of the repository
   */
  static Side ofRevision(Revision revision, String name, String path) throws IOException {
    if (revision.hasFile(path)) {
      int slash = path.lastIndexOf('/');
      String base = slash < 0 ? "" : path.substring(0, slash);
      return new Side(List.of(path.substring(slash + 1)), revision.reader(base), true, Map.of());
    }
    if (!revision.hasFolder(path)) {
      throw new NoSuchFileException(name);
    }
    return new Side(
        inside(revision, path, path),
        revision.reader(path),
        false,
        submodules(revision, path, List.of(path)));
  }

  /**
   * Files and folders of a revision that need not be there.
   *
   * @param base the folder that names are seen from, from the root of the repository
   * @param paths from the root of the repository
   */
  static Side ofRevision(Revision revision, String base, List<String> paths) throws IOException {
    TreeSet<String> files = new TreeSet<>();
    for (String path : paths) {
      if (revision.hasFile(path) && revision.submodules(path).isEmpty()) {
        files.add(seen(base, path));
      } else if (revision.hasFolder(path)) {
        files.addAll(inside(revision, base, path));
      }
    }
    return new Side(
        List.copyOf(files), revision.reader(base), false, submodules(revision, base, paths));
  }

  private static Map<String, String> submodules(Revision revision, String base, List<String> paths)
      throws IOException {
    Map<String, String> submodules = new TreeMap<>();
    for (String path : paths) {
      revision.submodules(path).forEach((at, commit) -> submodules.put(seen(base, at), commit));
    }
    return submodules;
  }

  private static List<String> inside(Revision revision, String from, String folder)
      throws IOException {
    SourceReader reader = revision.reader(from);
    List<String> files = new ArrayList<>();
    for (String path : revision.below(folder)) {
      String name = seen(from, path);
      if (Inputs.isOneOfFolder(name, reader)) {
        files.add(name);
      }
    }
    return files;
  }

  private static String seen(String base, String path) {
    if (base.isEmpty()) {
      return path;
    }
    if (path.startsWith(base + "/")) {
      return path.substring(base.length() + 1);
    }
    String up = "../".repeat(base.split("/").length);
    return up + path;
  }

  /** Complains where there is nothing to compare. */
  static void refuseNothing(Side old, Side now, String what) throws FileSystemException {
    boolean nothing = old.files().isEmpty() && now.files().isEmpty();
    if (nothing && old.submodules().equals(now.submodules())) {
      throw new FileSystemException(
          what,
          null,
          "neither side holds a rulebook (.aspects), or a layout whose name ends in layout.yaml");
    }
  }
}
