package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;

/** A git repository that a test makes and throws away. */
final class ScratchRepository {
  private final Path folder;

  private ScratchRepository(Path folder) {
    this.folder = folder;
  }

  /** An empty one; the test is skipped where git is not installed. */
  static ScratchRepository in(Path folder) throws IOException, InterruptedException {
    assumeTrue(isInstalled(), "git is needed");
    Files.createDirectories(folder);
    ScratchRepository made = new ScratchRepository(folder);
    made.git("init", "-q", "-b", "main");
    made.git("config", "user.name", "A. Signaller");
    made.git("config", "user.email", "signaller@example.org");
    made.git("config", "commit.gpgsign", "false");
    return made;
  }

  private static boolean isInstalled() throws InterruptedException {
    try {
      return new ProcessBuilder("git", "--version").start().waitFor() == 0;
    } catch (IOException missing) {
      return false;
    }
  }

  Path folder() {
    return folder;
  }

  /** Runs git, which must succeed, and returns what it prints. */
  String git(String... arguments) throws IOException, InterruptedException {
    List<String> command = new ArrayList<>(List.of("git"));
    command.addAll(List.of(arguments));
    return run(command, Map.of());
  }

  /** Runs any command in the repository, which must succeed, and returns what it prints. */
  String run(List<String> command, Map<String, String> environment)
      throws IOException, InterruptedException {
    Ran ran = attempt(command, environment);
    assertThat(ran.code()).as("%s: %s", command, ran.said()).isZero();
    return ran.said();
  }

  /** What a command printed, and its exit code. */
  record Ran(String said, int code) {}

  /** Runs any command in the repository. */
  Ran attempt(List<String> command, Map<String, String> environment)
      throws IOException, InterruptedException {
    ProcessBuilder builder = new ProcessBuilder(command).directory(folder.toFile());
    builder
        .environment()
        .keySet()
        .removeIf(name -> name.startsWith("GIT_") || name.equals("JAVA_TOOL_OPTIONS"));
    builder.environment().put("GIT_CONFIG_GLOBAL", "/dev/null");
    builder.environment().put("GIT_CONFIG_NOSYSTEM", "1");
    builder.environment().put("GIT_AUTHOR_DATE", "2001-01-01T00:00:00Z");
    builder.environment().put("GIT_COMMITTER_DATE", "2001-01-01T00:00:00Z");
    builder.environment().putAll(environment);
    Process process = builder.redirectErrorStream(true).start();
    process.getOutputStream().close();
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    return new Ran(said, process.waitFor());
  }

  /** Writes a file. */
  void write(String path, String text) throws IOException {
    Path file = folder.resolve(path);
    Files.createDirectories(file.getParent());
    Files.writeString(file, text);
  }

  /** Commits everything. */
  void commit(String subject) throws IOException, InterruptedException {
    git("add", "-A");
    git("commit", "-q", "-m", subject);
  }
}
