package dev.doublet.cli;

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
import java.security.SecureRandom;
import java.util.HexFormat;
import java.util.Map;

/**
 * Makes a folder with files in it, at one instant: it is written under a name by chance, and then
 * given its own. Nothing that is there is touched.
 */
final class NewFolder {
  private NewFolder() {}

  /**
   * Makes a folder.
   *
   * @param run where the command runs
   * @param given the folder as the user wrote it; the one that it lies in is there
   * @param texts what it is to hold, by the names of files
   * @throws IOException when that cannot be; nothing is there then that was not before
   */
  static void write(Path run, String given, Map<String, String> texts) throws IOException {
    Path folder = run.resolve(given);
    Path above = folder.toAbsolutePath().getParent();
    if (above == null || Files.exists(folder, LinkOption.NOFOLLOW_LINKS)) {
      throw new FileSystemException(
          given, null, "this is there already, and stays as it is; name a folder that is not");
    }
    if (!Files.isDirectory(above)) {
      throw new FileSystemException(given, null, "there is no folder to make it in");
    }
    OutputFolder.refuseLinks(run, folder, "this is a link; name the folder that it leads to");
    byte[] chance = new byte[8];
    new SecureRandom().nextBytes(chance);
    Path beside = above.resolve(".doublet-" + HexFormat.of().formatHex(chance));
    Files.createDirectory(beside);
    try {
      for (Map.Entry<String, String> text : texts.entrySet()) {
        write(beside.resolve(text.getKey()), text.getValue());
      }
      Files.move(beside, folder, StandardCopyOption.ATOMIC_MOVE);
    } catch (IOException e) {
      for (String name : texts.keySet()) {
        Files.deleteIfExists(beside.resolve(name));
      }
      Files.deleteIfExists(beside);
      throw e;
    }
  }

  private static void write(Path path, String text) throws IOException {
    try (FileChannel file =
        FileChannel.open(path, StandardOpenOption.CREATE_NEW, StandardOpenOption.WRITE)) {
      ByteBuffer left = ByteBuffer.wrap(text.getBytes(StandardCharsets.UTF_8));
      while (left.hasRemaining()) {
        file.write(left);
      }
      file.force(true);
    }
  }
}
