package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;

/** Programs in C that tests compile and run; a test is skipped where what it needs is missing. */
final class CompiledC {
  static final Path FIRMWARE = Path.of("../examples/firmware").toAbsolutePath().normalize();
  private static final List<String> STRICT =
      List.of("-std=c99", "-O1", "-g", "-Wall", "-Wextra", "-Wconversion", "-pedantic", "-Werror");

  private CompiledC() {}

  static void assumeInstalled(String program, String what) {
    String path = Objects.requireNonNullElse(System.getenv("PATH"), "") + ":/usr/sbin";
    boolean found =
        List.of(path.split(File.pathSeparator)).stream()
            .anyMatch(f -> Files.isExecutable(Path.of(f, program)));
    assumeTrue(found, program + " is not installed, so " + what);
  }

  /** A source of the tests, put into a folder. */
  static String source(Path folder, String name) throws IOException {
    try (InputStream in = CompiledC.class.getResourceAsStream(name)) {
      Path file = folder.resolve(name);
      Files.write(file, Objects.requireNonNull(in).readAllBytes());
      return file.toString();
    }
  }

  /** Compiles without a warning, with checks of memory and arithmetic. */
  static Path program(Path folder, String name, List<String> arguments) throws Exception {
    assumeInstalled("gcc", "the firmware is not compiled");
    Path program = folder.resolve(name);
    List<String> command = new ArrayList<>(List.of("gcc"));
    command.addAll(STRICT);
    command.addAll(List.of("-fsanitize=address,undefined", "-fno-sanitize-recover=all"));
    command.add("-I" + FIRMWARE);
    command.addAll(arguments);
    command.addAll(List.of("-o", program.toString()));
    assertThat(run(command, "")).isEmpty();
    return program;
  }

  /**
   * Lets a fuzzer make up inputs of at most 400 bytes, and gives its log. It keeps no watch over
   * memory: what this Java has taken at most would count as the fuzzer's own.
   */
  static String fuzzed(Path fuzzer, int runs) throws Exception {
    return run(
        List.of(
            fuzzer.toString(),
            "-runs=" + runs,
            "-seed=1",
            "-max_len=400",
            "-use_value_profile=1",
            "-rss_limit_mb=0",
            "-artifact_prefix=" + fuzzer.getParent() + "/"),
        "");
  }

  /** Runs a command that must succeed, and gives what it prints. */
  static String run(List<String> command, String input) throws Exception {
    Path file = Files.createTempFile("input", ".txt");
    try {
      Files.writeString(file, input);
      Process process =
          new ProcessBuilder(command)
              .directory(FIRMWARE.toFile())
              .redirectInput(file.toFile())
              .redirectErrorStream(true)
              .start();
      String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
      assertThat(process.waitFor()).as(output).isZero();
      return output;
    } finally {
      Files.delete(file);
    }
  }
}
