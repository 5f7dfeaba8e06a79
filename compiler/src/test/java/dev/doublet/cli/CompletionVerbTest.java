package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The script of {@code completion}, run by the shell that it is for. */
class CompletionVerbTest {
  @TempDir Path folder;

  @BeforeEach
  void write_the_script() throws IOException {
    Session session = new Session(folder);
    assertThat(session.run("completion", "bash")).isZero();
    Files.writeString(folder.resolve("script"), session.out());
  }

  @Test
  void verbs_are_completed() throws Exception {
    assertThat(completed("ch")).containsExactlyInAnyOrder("check", "chart");
    assertThat(completed("")).contains("new", "check", "build", "diff", "serve", "completion");
  }

  @Test
  void options_of_a_verb_are_completed() throws Exception {
    assertThat(completed("build", "--o")).containsExactly("--output");
    assertThat(completed("new", "--")).contains("--heads", "--signals", "--board", "--bus");
    assertThat(completed("new", "--bus", "")).containsExactly("dcc", "mqtt");
    assertThat(completed("check", "--st")).containsExactly("--strict");
  }

  @Test
  void another_shell_is_told_which_there_is() {
    Session session = new Session(folder);
    assertThat(session.run("completion", "tin-can")).isEqualTo(2);
    assertThat(session.err()).contains("bash").doesNotContain("Exception");
    assertThat(session.run("completion")).isEqualTo(2);
  }

  /**
   * What bash proposes where the last word is being written; it allows compopt on a terminal only.
   */
  private List<String> completed(String... words) throws Exception {
    assumeTrue(Files.isExecutable(Path.of("/bin/bash")), "there is no bash here");
    String line = "source ./script; compopt() { :; }; COMP_WORDS=(doublet \"$@\"); COMP_CWORD=$#";
    String ask = "; _complete_doublet; printf '%s\\n' \"${COMPREPLY[@]}\"";
    List<String> command = new java.util.ArrayList<>(List.of("/bin/bash", "-c", line + ask, "-"));
    command.addAll(List.of(words));
    Process bash =
        new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    String out = new String(bash.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    bash.waitFor();
    return out.lines().map(String::strip).toList();
  }
}
