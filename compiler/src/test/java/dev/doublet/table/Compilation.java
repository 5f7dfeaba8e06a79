package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Objects;

/** Runs the C compiler on the reader; tests that need one are skipped where there is none. */
final class Compilation {
  private final Path folder;

  /** Puts the reader and the host program into a folder. */
  Compilation(Path folder) throws IOException {
    this.folder = folder;
    place("/dev/doublet/doublet_reader.h", "doublet_reader.h");
    place("/dev/doublet/table/host.c", "host.c");
    place("/dev/doublet/table/every.c", "every.c");
    place("/dev/doublet/table/sketch.c", "sketch.c");
    place("/dev/doublet/table/glow.c", "glow.c");
    place("/dev/doublet/table/steps.c", "steps.c");
    place("/dev/doublet/table/quiet.c", "quiet.c");
  }

  static void assumeCompiler(String name) {
    boolean found =
        Arrays.stream(Objects.requireNonNullElse(System.getenv("PATH"), "").split(":"))
            .anyMatch(f -> Files.isExecutable(Path.of(f, name)));
    assumeTrue(found, name + " is not installed, so the reader in C is not tested with it here");
  }

  private void place(String resource, String name) throws IOException {
    try (InputStream in = Compilation.class.getResourceAsStream(resource)) {
      Files.write(folder.resolve(name), Objects.requireNonNull(in).readAllBytes());
    }
  }

  Path write(String name, String text) throws IOException {
    return Files.writeString(folder.resolve(name), text, StandardCharsets.UTF_8);
  }

  /** The host program, as fast as it can be. */
  Process quickHost() throws IOException, InterruptedException {
    compile("gcc", "-std=c99", "-O2", "-o", "quick", "host.c");
    return run("quick");
  }

  /** The host program whose lamps fade, with checks of memory and arithmetic. */
  Process fadingHost() throws IOException, InterruptedException {
    return checkedHost("fading", "-DDOUBLET_FADES");
  }

  /** The host program, with checks of memory and arithmetic where the compiler has them. */
  Process checkedHost() throws IOException, InterruptedException {
    return checkedHost("checked", "-DDOUBLET_WORDS");
  }

  private Process checkedHost(String name, String define) throws IOException, InterruptedException {
    List<String> plain = List.of("gcc", "-std=c99", "-O1", define, "-o", name, "host.c");
    List<String> checks = new ArrayList<>(plain);
    checks.addAll(1, List.of("-fsanitize=address,undefined", "-fno-sanitize-recover=all"));
    if (start(checks).waitFor() != 0) {
      compile(plain.toArray(new String[0]));
    }
    return run(name);
  }

  private Process run(String program) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(folder.resolve(program).toString());
    builder.environment().put("ASAN_OPTIONS", "detect_leaks=0");
    return builder.redirectError(folder.resolve("errors").toFile()).start();
  }

  String errors() throws IOException {
    return Files.readString(folder.resolve("errors"));
  }

  private Process start(List<String> command) throws IOException {
    Path output = folder.resolve("output");
    return new ProcessBuilder(command)
        .directory(folder.toFile())
        .redirectErrorStream(true)
        .redirectOutput(output.toFile())
        .start();
  }

  /** Runs a command that must succeed, and gives what it prints. */
  String compile(String... command) throws IOException, InterruptedException {
    int exit = start(List.of(command)).waitFor();
    String output = Files.readString(folder.resolve("output"));
    assertThat(exit).as(output).isZero();
    return output;
  }
}
