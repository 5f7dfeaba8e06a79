package dev.doublet.fuzz;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.report.TextRendering;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.management.ManagementFactory;
import java.lang.management.ThreadMXBean;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Texts to begin with, and what must hold of any other. */
final class Texts {
  private static final Path PROJECT = Path.of(System.getProperty("project"));
  private static final long MOST_NANOS = 20_000_000_000L;
  private static final ThreadMXBean CLOCK = ManagementFactory.getThreadMXBean();

  private Texts() {}

  /** The project's own files with an ending. */
  static Stream<byte[]> seeds(String ending) throws IOException {
    try (Stream<Path> rulebooks = Files.walk(PROJECT.resolve("rulebooks"));
        Stream<Path> examples = Files.walk(PROJECT.resolve("examples"))) {
      return Stream.concat(rulebooks, examples)
          .filter(p -> p.toString().endsWith(ending))
          .sorted()
          .map(Texts::bytes)
          .toList()
          .stream();
    }
  }

  /** The project's layouts, their rulebooks beside them. */
  static Stream<byte[]> layouts() throws IOException {
    return seeds("layout.yaml")
        .map(b -> new String(b, StandardCharsets.UTF_8).replace("../../rulebooks/", ""))
        .map(t -> t.getBytes(StandardCharsets.UTF_8));
  }

  private static byte[] bytes(Path path) {
    try {
      return Files.readAllBytes(path);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The text that bytes are, as the command line takes them; empty where it refuses them. */
  static Optional<String> of(byte[] bytes) {
    try {
      String text = StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes)).toString();
      return text.indexOf('\0') < 0 ? Optional.of(text) : Optional.empty();
    } catch (CharacterCodingException e) {
      return Optional.empty();
    }
  }

  /** One text among the rulebooks of the project. */
  static SourceReader reader(String name, String text) {
    return path -> {
      if (path.equals(name)) {
        return new SourceFile(name, text);
      }
      Path file = PROJECT.resolve("rulebooks").resolve(path.replace('/', '-').replace('\0', '-'));
      if (!Files.isRegularFile(file)) {
        throw new SourceReader.Unreadable("there is no such file");
      }
      return new SourceFile(path, new String(bytes(file), StandardCharsets.UTF_8));
    };
  }

  /** Draws all that was said, which must be possible; and asks whether it took too long. */
  static void drawn(List<Diagnostic> diagnostics, long since) {
    TextRendering rendering = new TextRendering(true);
    for (Diagnostic diagnostic : diagnostics) {
      if (rendering.draw(diagnostic).isBlank()) {
        throw new AssertionError("nothing is said by " + diagnostic.name());
      }
    }
    long nanos = now() - since;
    if (nanos > MOST_NANOS) {
      throw new AssertionError("reading took " + nanos / 1_000_000 + " ms of processor time");
    }
  }

  /** Processor time of this thread, in nanoseconds. */
  static long now() {
    return CLOCK.getCurrentThreadCpuTime();
  }
}
