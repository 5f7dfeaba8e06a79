package dev.doublet.cli;

import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.AccessDeniedException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.BasicFileAttributes;
import java.util.Collection;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.Map;
import java.util.Set;

/**
 * Reads texts, each once. What they are may be up to a stranger, who writes {@code use
 * "/etc/passwd"} and reads the findings: nothing is read outside the checkouts of what the user
 * named and of where the command runs, and nothing that may never end.
 */
final class Disk implements SourceReader {
  /** As many letters as Linux takes bytes, and few enough to go from folder to folder. */
  private static final int MOST_OF_A_PATH = 4_096;

  private final Path folder;
  private final Set<Path> checkouts = new LinkedHashSet<>();
  private final Map<String, SourceFile> known = new HashMap<>();

  /**
   * A reader for one run.
   *
   * @param folder where the command runs, from which paths are read
   * @param named the files and folders that the user named
   */
  Disk(Path folder, Collection<String> named) throws IOException {
    this.folder = folder;
    checkouts.add(Checkout.of(folder));
    for (String path : named) {
      Path place = folder.resolve(path).toAbsolutePath();
      // A named file may be a link that a stranger laid; it is not followed to its checkout.
      Path start = Files.isDirectory(place) ? place : place.getParent();
      if (start != null && Files.exists(start)) {
        checkouts.add(Checkout.of(start));
      }
    }
  }

  @Override
  public SourceFile read(String path) throws Unreadable {
    SourceFile file = known.get(path);
    if (file == null) {
      file = new SourceFile(path, text(place(path)));
      known.put(path, file);
    }
    return file;
  }

  /**
   * The checkout that a file lies in.
   *
   * @throws FileSystemException when it lies in none of this run
   */
  Path checkout(Path place) throws IOException {
    Path real = real(place);
    return checkouts.stream()
        .filter(real::startsWith)
        .max(Comparator.comparingInt(Path::getNameCount))
        .orElseThrow(
            () ->
                new FileSystemException(
                    place.toString(), null, "it lies outside this checkout, and stays as it is"));
  }

  private Path place(String path) throws Unreadable {
    if (path.length() > MOST_OF_A_PATH) {
      throw new Unreadable("no file here can have such a name");
    }
    try {
      return folder.resolve(path);
    } catch (InvalidPathException e) {
      throw new Unreadable("no file here can have such a name");
    }
  }

  private String text(Path path) throws Unreadable {
    try {
      Path real = real(path);
      if (checkouts.stream().noneMatch(real::startsWith)) {
        throw new Unreadable(
            "it lies outside this checkout, and nothing outside is read",
            "copy the file into this checkout, and give its path there.");
      }
      BasicFileAttributes found = Files.readAttributes(path, BasicFileAttributes.class);
      if (!found.isRegularFile()) {
        throw new Unreadable(
            found.isDirectory() ? "this is a folder" : "this is a pipe or a device, not a file");
      }
      return Utf8.text(read(real));
    } catch (NoSuchFileException e) {
      // A link to an open pipe is there, though what it points at has no path.
      throw new Unreadable(
          Files.exists(path) ? "this is a pipe or a device, not a file" : "there is no such file");
    } catch (AccessDeniedException e) {
      throw new Unreadable("you have no right to read it", "give yourself the right to read it.");
    } catch (IOException e) {
      throw new Unreadable("the disk does not give it");
    }
  }

  /** A place without links; of what is missing, where it would be. */
  private static Path real(Path path) throws IOException {
    Path place = path.toAbsolutePath();
    try {
      return place.toRealPath();
    } catch (NoSuchFileException e) {
      Path above = place.getParent();
      if (above == null || Files.isSymbolicLink(place)) {
        throw e;
      }
      return real(above).resolve(place.getFileName().toString()).normalize();
    }
  }

  private static byte[] read(Path path) throws IOException {
    try (InputStream in = Files.newInputStream(path)) {
      return in.readNBytes(Utf8.MOST_BYTES + 1);
    }
  }
}
