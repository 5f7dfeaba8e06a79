package dev.doublet.cli;

import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Reads texts, each once, and tells whether any has changed since, or whether one that was missing
 * is there. Times and sizes are compared, again and again: what announces changes does not do so on
 * every file system, and how programs save differs.
 */
final class FileWatch implements SourceReader {
  private final Path folder;
  private final SourceReader disk;
  private final Map<String, String> stamps = new TreeMap<>();

  private FileWatch(Path folder, SourceReader disk) {
    this.folder = folder;
    this.disk = disk;
  }

  /** A reader for one run over the files of a layout. */
  static FileWatch of(Path folder, String layout) throws IOException {
    return new FileWatch(folder, new Disk(folder, List.of(layout)));
  }

  @Override
  public SourceFile read(String path) throws Unreadable {
    stamps.put(path, stamp(path));
    return disk.read(path);
  }

  /** True when a text would not be read as it was. */
  boolean isChanged() {
    return stamps.entrySet().stream().anyMatch(e -> !e.getValue().equals(stamp(e.getKey())));
  }

  private String stamp(String path) {
    try {
      BasicFileAttributes file =
          Files.readAttributes(folder.resolve(path), BasicFileAttributes.class);
      return file.lastModifiedTime() + " " + file.size() + " " + file.fileKey();
    } catch (IOException | InvalidPathException missing) {
      return "";
    }
  }
}
