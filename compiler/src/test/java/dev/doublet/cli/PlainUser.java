package dev.doublet.cli;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;

/**
 * Runs of the command line by a user whom files can refuse: whoever runs the tests, or root without
 * the right to pass over what files allow.
 */
final class PlainUser {
  private static final String RIGHTS = "-dac_override,-dac_read_search";

  private final Path folder;
  private final List<String> without = new ArrayList<>();
  private String printed = "";

  /**
   * Skips the test where root's rights cannot be put down.
   *
   * @param shut what allows nobody to read it, or to write it
   */
  PlainUser(Path folder, Path shut) {
    this.folder = folder;
    if (Files.isReadable(shut) && Files.isWritable(shut)) {
      Toolchain.assumeInstalled("setpriv");
      without.addAll(List.of("setpriv", "--bounding-set", RIGHTS, "--inh-caps", RIGHTS));
    }
  }

  /** Runs {@code doublet} in a process of its own, and returns the exit code. */
  int run(String... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(without);
    command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
    command.addAll(List.of("-cp", System.getProperty("java.class.path"), Main.class.getName()));
    command.addAll(List.of(arguments));
    Process process =
        new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    printed = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return process.waitFor();
  }

  /** What the last run printed, errors included. */
  String printed() {
    return printed;
  }
}
