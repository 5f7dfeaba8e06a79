package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Output folders that a stranger prepared, that a killed run left, or that two runs share. */
class OutputFolderTest {
  private static final String PRECIOUS = "#!/bin/sh\necho precious\n";
  private static final String WRITTEN = ".doublet-0123456789abcdef";

  @TempDir private Path folder;
  private Path out;
  private Path script;

  @BeforeEach
  void layOutAYard() throws IOException {
    Yard.in(folder);
    out = Files.createDirectory(folder.resolve("out"));
    script = Files.writeString(folder.resolve("script"), PRECIOUS);
  }

  @ParameterizedTest
  @ValueSource(strings = {"west.bin", "west.h", "doublet_reader.h"})
  void a_link_in_a_files_place_is_neither_followed_nor_replaced(String name) throws IOException {
    Files.createSymbolicLink(out.resolve(name), script);
    assertRefused("out/" + name + ": Doublet did not make this, so it is not replaced");
    assertThat(out.resolve(name)).isSymbolicLink();
  }

  @Test
  void a_link_to_what_is_not_there_makes_nothing_there() throws IOException {
    Files.createSymbolicLink(out.resolve("west.h"), folder.resolve("new"));
    assertRefused("out/west.h: Doublet did not make this, so it is not replaced");
    assertThat(folder.resolve("new")).doesNotExist();
  }

  @Test
  void links_beside_the_files_are_left_alone() throws IOException {
    for (String name : List.of("west.h.part", "west.bin.part", "west.h.tmp", WRITTEN)) {
      Files.createSymbolicLink(out.resolve(name), script);
    }
    assertThat(build()).isZero();
    assertThat(script).hasContent(PRECIOUS);
    assertThat(out.resolve("west.h.part")).isSymbolicLink();
  }

  @Test
  void a_link_in_the_folders_place_or_above_it_is_not_followed() throws IOException {
    Path elsewhere = Files.createDirectories(folder.resolve("elsewhere/deeper"));
    Files.delete(out);
    Files.createSymbolicLink(out, elsewhere.getParent());
    for (String given :
        List.of("out", "out/deeper", "out/new", "./out", "out/../out/deeper", "" + out)) {
      Session session = new Session(folder);
      assertThat(session.run("build", "layout.yaml", "--output", given)).as(given).isEqualTo(2);
      assertThat(session.err())
          .contains("out: this is a link; give the folder itself as --output\n")
          .hasLineCount(1);
    }
    assertThat(files(elsewhere.getParent())).containsOnlyKeys("deeper");
    assertThat(files(elsewhere)).isEmpty();
  }

  @Test
  void links_above_the_checkout_are_the_users_own() throws IOException {
    Path link = Files.createSymbolicLink(folder.resolve("link"), folder);
    Path inner = Files.createDirectories(folder.resolve("inner"));
    Yard.in(inner);
    assertThat(new Session(inner).run("build", "layout.yaml", "--output", link + "/inner/out"))
        .isZero();
    assertThat(inner.resolve("out/west.bin")).exists();
  }

  @ParameterizedTest
  @ValueSource(strings = {"west.bin", "west.h", "doublet_reader.h"})
  void a_file_of_somebody_elses_is_not_replaced(String name) throws IOException {
    Files.writeString(out.resolve(name), PRECIOUS);
    assertRefused("out/" + name + ": Doublet did not make this, so it is not replaced");
    assertThat(out.resolve(name)).hasContent(PRECIOUS);
  }

  @Test
  void wiring_replaces_what_it_wrote_and_no_notes_of_somebodys() throws IOException {
    Session session = new Session(folder);
    for (String format : List.of("markdown", "csv")) {
      for (int i = 0; i < 2; i++) {
        assertThat(session.run("wiring", "layout.yaml", "--format", format, "--output", "out"))
            .isZero();
      }
    }
    Files.writeString(out.resolve("west.wiring.md"), "Bring a lamp.\n");
    assertThat(session.run("wiring", "layout.yaml", "--output", "out")).isEqualTo(2);
    assertThat(out.resolve("west.wiring.md")).hasContent("Bring a lamp.\n");
  }

  @Test
  void a_folder_in_a_files_place_leaves_no_half_of_a_set() throws IOException {
    assertThat(build()).isZero();
    Files.delete(out.resolve("west.h"));
    Files.createDirectory(out.resolve("west.h"));
    Map<String, String> before = files(out);
    Yard.renamed(folder);
    assertRefused("out/west.h: Doublet did not make this, so it is not replaced");
    assertThat(files(out)).isEqualTo(before);
  }

  @Test
  void a_set_that_was_cut_short_is_refused_and_the_next_build_finishes_it() throws IOException {
    assertThat(build()).isZero();
    Map<String, String> before = files(out);
    Yard.renamed(folder);
    assertThat(new Session(folder).run("build", "layout.yaml", "--output", "new")).isZero();
    Map<String, String> after = files(folder.resolve("new"));

    // As if killed between two renames: the header is new, and the table waits.
    replace("new/west.h", "out/west.h");
    replace("new/west.bin", "out/" + WRITTEN);
    Files.writeString(
        out.resolve(".doublet-build"),
        "doublet build 1\n.doublet-00000000000000aa west.h\n" + WRITTEN + " west.bin\nwhole\n");
    Session session = new Session(folder);
    assertThat(session.run("inspect", "out/west.bin")).isEqualTo(1);
    assertThat(session.err())
        .isEqualTo(
            "doublet: out/west.bin is refused: west.h beside it holds another table; a build was"
                + " cut short, or one of the two was copied alone: build again\n");
    Journal.open(out).close();
    assertThat(files(out)).isEqualTo(after).isNotEqualTo(before);
    assertThat(session.run("inspect", "out/west.bin")).isZero();
  }

  @Test
  void what_was_not_yet_whole_is_undone() throws IOException {
    assertThat(build()).isZero();
    Map<String, String> before = files(out);
    Files.writeString(out.resolve(WRITTEN), "DBL");
    Files.writeString(
        out.resolve(".doublet-build"), "doublet build 1\n" + WRITTEN + " west.bin\nwho");
    Journal.open(out).close();
    assertThat(files(out)).isEqualTo(before);
  }

  @Test
  void a_journal_that_a_stranger_laid_moves_and_replaces_nothing_of_others() throws IOException {
    Files.writeString(out.resolve("notes.h"), PRECIOUS);
    Files.writeString(out.resolve("run.sh"), PRECIOUS);
    Files.writeString(out.resolve(WRITTEN), "Made by the Doublet compiler");
    for (String place :
        List.of("notes.h", "run.sh", "../script", "new.sh", "../new.h", "/tmp/x.h", "..", ".")) {
      Files.writeString(out.resolve(WRITTEN), "Made by the Doublet compiler");
      Files.writeString(
          out.resolve(".doublet-build"),
          "doublet build 1\n" + WRITTEN + " " + place + "\n../script west.h\nwhole\n");
      Journal.open(out).close();
    }
    Files.deleteIfExists(out.resolve(WRITTEN));
    assertThat(files(out)).isEqualTo(Map.of("notes.h", PRECIOUS, "run.sh", PRECIOUS));
    assertThat(script).hasContent(PRECIOUS);
    assertThat(folder.resolve("new.h")).doesNotExist();
  }

  @Test
  void a_journal_that_is_none_is_left_alone() throws IOException {
    Path journal = out.resolve(".doublet-build");
    Files.writeString(journal, PRECIOUS);
    assertRefused("out/.doublet-build: Doublet did not make this; move it away");
    assertThat(journal).hasContent(PRECIOUS);
    Files.delete(journal);
    Files.createSymbolicLink(journal, script);
    assertRefused("out/.doublet-build: Doublet did not make this; move it away");
    assertThat(script).hasContent(PRECIOUS);
  }

  @Test
  void builds_at_once_come_one_after_another() throws Exception {
    Path other = Files.createDirectory(folder.resolve("other"));
    Yard.in(other);
    Yard.renamed(other);
    List<Callable<Integer>> builds = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      String layout = i % 2 == 0 ? "layout.yaml" : "other/layout.yaml";
      builds.add(() -> new Session(folder).run("build", layout, "--output", "out"));
    }
    ExecutorService threads = Executors.newFixedThreadPool(6);
    try {
      for (Future<Integer> build : threads.invokeAll(builds)) {
        assertThat(build.get()).isZero();
      }
    } finally {
      threads.shutdown();
    }
    assertThat(files(out)).containsOnlyKeys("doublet_reader.h", "west.bin", "west.h");
    assertThat(new Session(folder).run("inspect", "out/west.bin")).isZero();
  }

  private int build() {
    return new Session(folder).run("build", "layout.yaml", "--output", "out");
  }

  private void assertRefused(String reason) throws IOException {
    Map<String, String> before = files(out);
    Session session = new Session(folder);
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isEqualTo(2);
    assertThat(session.err()).isEqualTo("doublet: " + folder + "/" + reason + "\n");
    assertThat(files(out)).isEqualTo(before);
    assertThat(script).hasContent(PRECIOUS);
  }

  private void replace(String from, String to) throws IOException {
    Files.copy(folder.resolve(from), folder.resolve(to), StandardCopyOption.REPLACE_EXISTING);
  }

  /** All that lies in a folder, with what is in it; links and folders have a word instead. */
  static Map<String, String> files(Path folder) throws IOException {
    Map<String, String> found = new TreeMap<>();
    try (Stream<Path> all = Files.list(folder)) {
      for (Path file : all.toList()) {
        boolean plain = Files.isRegularFile(file, LinkOption.NOFOLLOW_LINKS);
        found.put(
            file.getFileName().toString(),
            plain ? Files.readString(file, java.nio.charset.StandardCharsets.ISO_8859_1) : "-");
      }
    }
    return found;
  }
}
