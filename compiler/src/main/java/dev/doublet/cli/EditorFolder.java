package dev.doublet.cli;

import dev.doublet.serve.Folder;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.File;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.nio.file.FileSystemNotFoundException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;

/** A folder on the disk, as an editor has it open. Names are as seen from the first folder. */
final class EditorFolder implements Folder {
  private final Path base;
  private final List<Path> folders = new ArrayList<>();
  private final Map<String, String> asNamed = new HashMap<>();

  /**
   * Opens the folders that the editor names.
   *
   * @param here where the command runs, which counts when it names none
   */
  EditorFolder(Path here, List<String> uris) {
    uris.forEach(uri -> path(uri).filter(Files::isDirectory).ifPresent(folders::add));
    if (folders.isEmpty()) {
      folders.add(here.toAbsolutePath().normalize());
    }
    base = folders.get(0);
  }

  @Override
  public List<String> roots() {
    TreeSet<String> roots = new TreeSet<>();
    for (Path folder : folders) {
      try {
        String name = name(folder);
        roots.addAll(Inputs.find(List.of(name.isEmpty() ? "." : name), base, saved()).files());
      } catch (IOException | UncheckedIOException e) {
        // A folder without rulebooks and layouts, or one that is gone, has nothing to check.
        continue;
      }
    }
    return List.copyOf(roots);
  }

  @Override
  public SourceReader saved() {
    try {
      return new Disk(base, folders.stream().map(Path::toString).toList());
    } catch (IOException e) {
      return EditorFolder::gone;
    }
  }

  private static SourceFile gone(String path) throws SourceReader.Unreadable {
    throw new SourceReader.Unreadable("the folder cannot be read");
  }

  @Override
  public synchronized Optional<String> name(String uri) {
    Optional<String> name = path(uri).map(this::name);
    name.ifPresent(n -> asNamed.put(n, uri));
    return name;
  }

  @Override
  public synchronized String uri(String name) {
    String uri = asNamed.get(name);
    return uri == null ? base.resolve(name).toUri().toString() : uri;
  }

  private String name(Path path) {
    Path seen = path.startsWith(base) ? base.relativize(path) : path;
    return seen.toString().replace(File.separatorChar, '/');
  }

  private static Optional<Path> path(String uri) {
    try {
      URI address = URI.create(uri);
      return "file".equals(address.getScheme())
          ? Optional.of(Path.of(address).toAbsolutePath().normalize())
          : Optional.empty();
    } catch (IllegalArgumentException | FileSystemNotFoundException e) {
      return Optional.empty();
    }
  }
}
