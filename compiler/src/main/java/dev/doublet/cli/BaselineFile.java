package dev.doublet.cli;

import dev.doublet.report.Baseline;
import java.io.File;
import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;

/**
 * A file of a baseline on the disk.
 *
 * @param shown its path as it was given
 * @param path the same, absolute
 * @param folder what the paths of findings are relative to
 */
record BaselineFile(String shown, Path path, Path folder) {

  static BaselineFile of(String shown, Path folder) {
    Path absolute = folder.toAbsolutePath().normalize();
    return new BaselineFile(shown, absolute.resolve(shown).normalize(), absolute);
  }

  /** Names a file from where the baseline lies, so that a run may start anywhere. */
  String name(String file) {
    Path to = folder.resolve(file).normalize();
    return path.getParent()
        .relativize(to)
        .toString()
        .replace(File.separatorChar, '/')
        .replace(" ", "%20");
  }

  Baseline read() throws IOException {
    if (Files.isDirectory(path)) {
      throw refused("this is a folder, not a baseline");
    }
    if (Files.exists(path) && !Files.isRegularFile(path)) {
      throw refused("this is a pipe or a device, not a baseline");
    }
    try {
      return Baseline.read(Files.readString(path)).orElseThrow(this::isNone);
    } catch (CharacterCodingException noText) {
      throw isNone();
    } catch (NoSuchFileException missing) {
      throw new NoSuchFileException(shown);
    }
  }

  /** Writes it whole or not at all, and over nothing but a baseline. */
  void write(Baseline baseline) throws IOException {
    if (Files.exists(path, LinkOption.NOFOLLOW_LINKS)) {
      read();
    }
    if (!Files.isDirectory(path.getParent())) {
      throw refused("there is no folder to write it into");
    }
    Path beside = partBeside();
    try {
      Files.writeString(beside, baseline.text());
      Files.move(beside, path, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    } finally {
      Files.deleteIfExists(beside);
    }
  }

  private Path partBeside() throws IOException {
    try {
      return Files.createTempFile(path.getParent(), ".baseline", ".part");
    } catch (FileSystemException unwritten) {
      throw refused("no file can be written into its folder");
    }
  }

  private FileSystemException isNone() {
    return refused("this is no baseline, or not a whole one: make it with --write-baseline");
  }

  private FileSystemException refused(String reason) {
    return new FileSystemException(shown, null, reason);
  }
}
