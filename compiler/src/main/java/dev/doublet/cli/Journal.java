package dev.doublet.cli;

import java.io.Closeable;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.channels.FileChannel;
import java.nio.channels.OverlappingFileLockException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.BasicFileAttributes;
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * Several files cannot change place at one instant, so what a run is about to do is written down
 * first, and a run that was killed is finished, or undone, by the next. The journal also keeps
 * other runs out of the folder, and is gone when its run is.
 *
 * <p>It is a text: a first line; for each file a name by chance and the name that it is to have;
 * and a last line once all of them are written whole. It may have been laid there by a stranger, so
 * it moves nothing but files with such names, within the folder, and replaces nothing that Doublet
 * did not make.
 */
final class Journal implements Closeable {
  private static final String NAME = ".doublet-build";
  private static final String FIRST_LINE = "doublet build 1\n";
  private static final String LAST_LINE = "whole\n";
  private static final Pattern FILE =
      Pattern.compile("(\\.doublet-[0-9a-f]{16}) ([^/\\\\\\n]+)\\n");

  /** Another run is waited for as long as a slow disk may need: a minute. */
  private static final int TRIES = 1200;

  private static final int MILLISECONDS_A_TRY = 50;
  private static final int MOST_BYTES = 1 << 20;

  private final Path folder;
  private final FileChannel channel;
  private boolean finished = true;

  private Journal(Path folder, FileChannel channel) {
    this.folder = folder;
    this.channel = channel;
  }

  /** Waits for other runs, and puts right what one that was killed left behind. */
  static Journal open(Path folder) throws IOException {
    Path path = folder.resolve(NAME);
    for (int i = 0; i < TRIES; i++) {
      Object before = identity(path);
      if (before == null) {
        create(path);
        continue;
      }
      FileChannel channel = reach(path);
      if (channel != null) {
        // Whoever held it may have deleted it meanwhile, and somebody else made another.
        if (isLocked(channel) && before.equals(identity(path))) {
          return recovered(new Journal(folder, channel));
        }
        channel.close();
      }
      pause();
    }
    throw new FileSystemException(
        path.toString(), null, "another build has kept this folder for a minute; end it first");
  }

  /** Writes files under names by chance, and then gives each its own. */
  void write(List<Product> products) throws IOException {
    Map<Path, Product> files = new LinkedHashMap<>();
    StringBuilder plan = new StringBuilder(FIRST_LINE);
    SecureRandom random = new SecureRandom();
    for (Product product : products) {
      byte[] chance = new byte[8];
      random.nextBytes(chance);
      String name = ".doublet-" + HexFormat.of().formatHex(chance);
      files.put(folder.resolve(name), product);
      plan.append(name).append(' ').append(product.name()).append('\n');
    }
    append(plan.toString());
    try {
      for (Map.Entry<Path, Product> file : files.entrySet()) {
        create(file.getKey(), file.getValue().bytes());
      }
      append(LAST_LINE);
    } catch (IOException e) {
      for (Path file : files.keySet()) {
        Files.deleteIfExists(file);
      }
      throw e;
    }
    finished = false;
    for (Map.Entry<Path, Product> file : files.entrySet()) {
      rename(file.getKey(), folder.resolve(file.getValue().name()));
    }
    finished = true;
  }

  /** Lets the next run in. A journal of files that could not all be renamed stays. */
  @Override
  public void close() throws IOException {
    try (channel) {
      if (finished) {
        Files.deleteIfExists(folder.resolve(NAME));
      }
    }
  }

  private static Journal recovered(Journal journal) throws IOException {
    try {
      journal.recover();
      return journal;
    } catch (IOException e) {
      journal.channel.close();
      throw e;
    }
  }

  private void recover() throws IOException {
    byte[] bytes = Channels.newInputStream(channel).readNBytes(MOST_BYTES);
    String text = new String(bytes, StandardCharsets.UTF_8);
    if (!text.startsWith(FIRST_LINE) && !FIRST_LINE.startsWith(text)) {
      throw new FileSystemException(
          folder.resolve(NAME).toString(), null, "Doublet did not make this; move it away");
    }
    boolean whole = text.endsWith("\n" + LAST_LINE);
    for (Matcher file = FILE.matcher(text); file.find(); ) {
      Path written = folder.resolve(file.group(1));
      Path place = folder.resolve(file.group(2));
      if (Files.isRegularFile(written, LinkOption.NOFOLLOW_LINKS)) {
        boolean free = !Files.exists(place, LinkOption.NOFOLLOW_LINKS) || Product.isMade(place);
        if (whole && free && Product.isMade(written, file.group(2))) {
          rename(written, place);
        } else {
          Files.delete(written);
        }
      }
    }
    channel.truncate(0);
  }

  private static void rename(Path from, Path to) throws IOException {
    Files.move(from, to, StandardCopyOption.ATOMIC_MOVE, StandardCopyOption.REPLACE_EXISTING);
  }

  private static void create(Path path) throws IOException {
    try {
      Files.createFile(path);
    } catch (FileAlreadyExistsException e) {
      // Another run was first.
    }
  }

  private static void create(Path path, byte[] bytes) throws IOException {
    try (FileChannel file =
        FileChannel.open(
            path,
            StandardOpenOption.CREATE_NEW,
            StandardOpenOption.WRITE,
            LinkOption.NOFOLLOW_LINKS)) {
      write(file, bytes);
    }
  }

  private void append(String text) throws IOException {
    write(channel, text.getBytes(StandardCharsets.UTF_8));
  }

  private static void write(FileChannel channel, byte[] bytes) throws IOException {
    ByteBuffer left = ByteBuffer.wrap(bytes);
    while (left.hasRemaining()) {
      channel.write(left);
    }
    channel.force(true);
  }

  /** What tells a file from another that has its name later; null when there is none. */
  private static Object identity(Path path) throws IOException {
    try {
      BasicFileAttributes found =
          Files.readAttributes(path, BasicFileAttributes.class, LinkOption.NOFOLLOW_LINKS);
      if (!found.isRegularFile()) {
        throw new FileSystemException(
            path.toString(), null, "Doublet did not make this; move it away");
      }
      return found.fileKey() == null ? found.creationTime() : found.fileKey();
    } catch (NoSuchFileException e) {
      return null;
    }
  }

  private static FileChannel reach(Path path) throws IOException {
    try {
      return FileChannel.open(
          path, StandardOpenOption.READ, StandardOpenOption.WRITE, LinkOption.NOFOLLOW_LINKS);
    } catch (NoSuchFileException e) {
      return null;
    }
  }

  private static boolean isLocked(FileChannel channel) throws IOException {
    try {
      return channel.tryLock() != null;
    } catch (OverlappingFileLockException e) {
      return false;
    }
  }

  private static void pause() throws IOException {
    try {
      Thread.sleep(MILLISECONDS_A_TRY);
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IOException("interrupted while another build was writing");
    }
  }
}
