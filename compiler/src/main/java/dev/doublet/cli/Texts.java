package dev.doublet.cli;

import dev.doublet.source.SourceFile;
import java.io.File;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.FileChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.PosixFileAttributeView;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * Writes texts back to where they were read. Each file is replaced at one instant, and none before
 * all are written beside their places; no link is followed, nothing outside the checkouts is
 * touched, and a file that somebody changed meanwhile is left to them.
 */
final class Texts {
  private static final String BYTE_ORDER_MARK = "\uFEFF";

  private final Path folder;
  private final Disk disk;

  /**
   * Of one run.
   *
   * @param folder where the command runs
   * @param disk what read the texts
   */
  Texts(Path folder, Disk disk) {
    this.folder = folder;
    this.disk = disk;
  }

  /**
   * Writes texts anew.
   *
   * @param changed each as it was read, and as it shall be
   */
  void write(Map<SourceFile, SourceFile> changed) throws IOException {
    Map<Path, Path> written = new LinkedHashMap<>();
    try {
      for (Map.Entry<SourceFile, SourceFile> text : changed.entrySet()) {
        Path place = folder.resolve(text.getKey().name());
        String mark = mark(text.getKey());
        Path beside = place.resolveSibling(".doublet-" + chance());
        written.put(beside, place);
        write(beside, mark + text.getValue().text());
        keepRights(place, beside);
      }
      for (Map.Entry<Path, Path> file : List.copyOf(written.entrySet())) {
        Files.move(
            file.getKey(),
            file.getValue(),
            StandardCopyOption.ATOMIC_MOVE,
            StandardCopyOption.REPLACE_EXISTING);
        written.remove(file.getKey());
      }
    } finally {
      for (Path beside : written.keySet()) {
        Files.deleteIfExists(beside);
      }
    }
  }

  /**
   * The mark that a file begins with and no text does; may be empty.
   *
   * @throws IOException where the file must not be written, or is no longer what was read
   */
  String mark(SourceFile read) throws IOException {
    Path place = folder.resolve(read.name());
    Path checkout = disk.checkout(place);
    for (Path part = place.toAbsolutePath(); part.getParent() != null; part = part.getParent()) {
      if (Files.isSymbolicLink(part) && part.getParent().toRealPath().startsWith(checkout)) {
        throw refused(read, "this is a link, or lies behind one; name the file itself");
      }
    }
    String now = new String(Files.readAllBytes(place), StandardCharsets.UTF_8);
    String mark = now.startsWith(BYTE_ORDER_MARK) ? BYTE_ORDER_MARK : "";
    if (!now.equals(mark + read.text())) {
      throw refused(read, "somebody changed it meanwhile; nothing was written");
    }
    return mark;
  }

  /** What git calls a file: its path from the top of its checkout. */
  String path(SourceFile read) throws IOException {
    Path place = folder.resolve(read.name());
    Path inside = disk.checkout(place).relativize(place.toRealPath());
    return inside.toString().replace(File.separatorChar, '/');
  }

  private static FileSystemException refused(SourceFile file, String why) {
    return new FileSystemException(file.name(), null, why);
  }

  private static String chance() {
    byte[] chance = new byte[8];
    new SecureRandom().nextBytes(chance);
    return HexFormat.of().formatHex(chance);
  }

  private static void write(Path path, String text) throws IOException {
    try (FileChannel file =
        FileChannel.open(
            path,
            StandardOpenOption.CREATE_NEW,
            StandardOpenOption.WRITE,
            LinkOption.NOFOLLOW_LINKS)) {
      ByteBuffer left = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
      while (left.hasRemaining()) {
        file.write(left);
      }
      file.force(true);
    }
  }

  /** Who may read and write it stays as it was, where the machine knows such rights. */
  private static void keepRights(Path from, Path to) throws IOException {
    PosixFileAttributeView rights = Files.getFileAttributeView(from, PosixFileAttributeView.class);
    PosixFileAttributeView ofCopy = Files.getFileAttributeView(to, PosixFileAttributeView.class);
    if (rights != null && ofCopy != null) {
      ofCopy.setPermissions(rights.readAttributes().permissions());
    }
  }
}
