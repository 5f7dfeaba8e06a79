package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The firmware example compiles, without a warning, beside the tables that its comment has one
 * build.
 */
class FirmwareExampleTest {
  private static final Path ROOT = Path.of("..");

  @ParameterizedTest
  @ValueSource(strings = {"gcc", "avr-gcc"})
  void it_compiles_without_a_warning(String compiler, @TempDir Path folder) throws Exception {
    assumeTrue(
        isInstalled(compiler), compiler + " is not installed, so the example is not compiled");
    Path tables = folder.toAbsolutePath().resolve("out");
    new Session(ROOT).run("build", "examples/yard/layout.yaml", "--output", tables.toString());
    List<String> command =
        new ArrayList<>(
            List.of(compiler, "-std=c99", "-Os", "-Wall", "-Wextra", "-Wconversion", "-pedantic"));
    command.addAll(List.of("-Werror", "-I" + tables, "-Iexamples/firmware", "-c"));
    command.addAll(List.of("examples/firmware/signals.c", "-o", folder.resolve("o").toString()));
    if (compiler.startsWith("avr")) {
      command.add("-mmcu=atmega328p");
    }
    assertThat(output(command)).isEmpty();
  }

  private static String output(List<String> command) throws IOException {
    Process process =
        new ProcessBuilder(command).directory(ROOT.toFile()).redirectErrorStream(true).start();
    return new String(process.getInputStream().readAllBytes());
  }

  private static boolean isInstalled(String compiler) {
    String path = System.getenv().getOrDefault("PATH", "");
    return List.of(path.split(File.pathSeparator)).stream()
        .anyMatch(f -> Files.isExecutable(Path.of(f, compiler)));
  }
}
