package dev.doublet.cli;

import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;

/** Reads texts below a folder, each once. */
final class Disk implements SourceReader {
  /** Far more than any text that people write, and less than any memory. */
  private static final int MOST_BYTES = 16 << 20;

  private final Path folder;
  private final Map<String, SourceFile> known = new HashMap<>();

  Disk(Path folder) {
    this.folder = folder;
  }

  @Override
  public SourceFile read(String path) throws Unreadable {
    SourceFile file = known.get(path);
    if (file == null) {
      file = new SourceFile(path, text(folder.resolve(path)));
      known.put(path, file);
    }
    return file;
  }

  private static String text(Path path) throws Unreadable {
    try (InputStream in = Files.newInputStream(path)) {
      byte[] bytes = in.readNBytes(MOST_BYTES + 1);
      if (bytes.length > MOST_BYTES) {
        throw new Unreadable("it is larger than 16 MiB");
      }
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      if (text.indexOf('\0') >= 0) {
        throw new Unreadable("this is not a text file");
      }
      return text.startsWith("\uFEFF") ? text.substring(1) : text;
    } catch (CharacterCodingException e) {
      throw new Unreadable("this is no text in UTF-8; if it is a text, save it as UTF-8");
    } catch (NoSuchFileException e) {
      throw new Unreadable("there is no such file");
    } catch (IOException e) {
      throw new Unreadable(Files.isDirectory(path) ? "this is a folder" : "it cannot be read");
    }
  }
}
