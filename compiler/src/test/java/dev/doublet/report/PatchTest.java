package dev.doublet.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What is printed as a patch is one to git itself. */
class PatchTest {
  private static final String[] ENDS = {"\n", "\n", "\n", "\r\n", "\r", "\n\n"};

  @TempDir private Path folder;

  @BeforeAll
  static void gitIsThere() throws Exception {
    assumeTrue(run(Path.of("."), "", "git", "--version") == 0, "git is needed");
  }

  @Test
  void no_change_is_no_patch() {
    assertThat(Patch.of("a", "one\n", "one\n")).isEmpty();
  }

  @Test
  void a_patch_reads_as_the_format_has_it() {
    String before = "1\n2\n3\n4\n5\n6\n7\n8\n9\n10\n11\n12\n13\n14\n15";
    assertThat(Patch.of("yard/layout.yaml", before, before.replace("2\n", "two\n") + "\n"))
        .isEqualTo(
            """
            diff --git a/yard/layout.yaml b/yard/layout.yaml
            --- a/yard/layout.yaml
            +++ b/yard/layout.yaml
            @@ -1,5 +1,5 @@
             1
            -2
            +two
             3
             4
             5
            @@ -9,7 +9,7 @@
             9
             10
             11
            -12
            +1two
             13
             14
            -15
            \\ No newline at end of file
            +15
            """);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "layout.yaml",
        "a/b c/layout.yaml",
        "Ä 1/Ö.aspects",
        "tab\there",
        "quote\"s",
        "back\\slash",
        "- dashes --- +++"
      })
  void git_applies_it_whatever_a_file_is_called(String path) throws Exception {
    applies(path, "one\ntwo\n", "one\n2\n");
  }

  @Test
  void git_applies_what_random_edits_make_of_random_texts() throws Exception {
    Random random = new Random(20260101);
    for (int i = 0; i < 60; i++) {
      List<String> lines = new ArrayList<>();
      for (int n = random.nextInt(40); n > 0; n--) {
        lines.add("line " + random.nextInt(6) + ENDS[random.nextInt(ENDS.length)]);
      }
      String before = String.join("", lines) + (random.nextBoolean() ? "" : "end");
      for (int n = random.nextInt(6) + 1; n > 0; n--) {
        int at = random.nextInt(lines.size() + 1);
        if (random.nextBoolean() || at == lines.size()) {
          lines.add(at, "new " + n + "\n");
        } else {
          lines.remove(at);
        }
      }
      String after = String.join("", lines) + (random.nextInt(4) > 0 ? "" : "end");
      // An empty file is one that git takes for deleted or new.
      if (!before.isEmpty() && !after.isEmpty() && !before.equals(after)) {
        applies("text " + i, before, after);
      }
    }
  }

  private void applies(String path, String before, String after) throws Exception {
    Path file = folder.resolve(path);
    Files.createDirectories(file.getParent());
    Files.writeString(file, before);
    assertThat(run(folder, Patch.of(path, before, after), "git", "apply", "-")).as(path).isZero();
    assertThat(Files.readString(file)).isEqualTo(after);
  }

  private static int run(Path folder, String input, String... command) throws Exception {
    try {
      Path errors = Files.createTempFile("git", ".txt");
      Process process =
          new ProcessBuilder(command)
              .directory(folder.toFile())
              .redirectErrorStream(true)
              .redirectOutput(errors.toFile())
              .start();
      try (var out = process.getOutputStream()) {
        out.write(input.getBytes(java.nio.charset.StandardCharsets.UTF_8));
      }
      assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
      if (process.exitValue() != 0) {
        System.err.println(Files.readString(errors));
      }
      Files.delete(errors);
      return process.exitValue();
    } catch (IOException e) {
      return -1;
    }
  }
}
