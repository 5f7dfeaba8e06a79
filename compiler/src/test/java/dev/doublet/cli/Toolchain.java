package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;

/** Compilers of C and the programs that they make, run in the project's root. */
final class Toolchain {
  static final Path ROOT = Path.of("..");
  static final List<String> STRICT =
      List.of("-std=c99", "-Wall", "-Wextra", "-Wconversion", "-pedantic", "-Werror");

  private Toolchain() {}

  /** Skips the test when a program is not on the path. */
  static void assumeInstalled(String program) {
    String path = System.getenv().getOrDefault("PATH", "");
    assumeTrue(
        List.of(path.split(File.pathSeparator)).stream()
            .anyMatch(f -> Files.isExecutable(Path.of(f, program))),
        program + " is not installed");
  }

  /** What a program prints, warnings and errors included. */
  static String output(List<String> command) throws IOException {
    return output(command, "");
  }

  static String output(List<String> command, String input) throws IOException {
    Path typed = Files.createTempFile("typed", ".txt");
    try {
      Files.writeString(typed, input);
      Process process =
          new ProcessBuilder(command)
              .directory(ROOT.toFile())
              .redirectErrorStream(true)
              .redirectInput(typed.toFile())
              .start();
      return new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    } finally {
      Files.delete(typed);
    }
  }

  /** Builds the tables of a layout. */
  static void build(String layout, Path out) {
    Session session = new Session(ROOT);
    assertThat(session.run("build", layout, "--output", out.toString())).isZero();
  }

  /** A file beside the tests, as a file that a compiler finds. */
  static Path resource(String name, Path folder) throws IOException {
    Path file = folder.resolve(name);
    try (InputStream in = Toolchain.class.getResourceAsStream(name)) {
      Files.write(file, Objects.requireNonNull(in).readAllBytes());
    }
    return file;
  }
}
