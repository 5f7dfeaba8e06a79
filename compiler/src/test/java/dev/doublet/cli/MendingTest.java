package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;

/** {@code check --fix}, run as a builder would. */
class MendingTest {
  private static final String MISSPELT_BOOK =
      Yard.BOOK.replace("show yellow }", "shwo yelow }  # by night too");
  private static final String MENDED_BOOK =
      Yard.BOOK.replace("show yellow }", "show yellow }  # by night too");
  private static final String MISSPELT_LAYOUT =
      "\uFEFF# of the club\r\n"
          + Yard.LAYOUT
              .replace("\n", "\r\n")
              .replace("ram:", "ramm:")
              .replace("[searchlight]", "[serchlight]");

  @TempDir private Path folder;

  private Session misspelt() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(folder.resolve("book.aspects"), MISSPELT_BOOK);
    Files.writeString(folder.resolve("layout.yaml"), MISSPELT_LAYOUT);
    return session;
  }

  @Test
  void what_is_misspelt_is_mended_in_every_file_and_told() throws IOException {
    Session session = misspelt();
    assertThat(session.run("check", "--fix", "layout.yaml")).isZero();
    assertThat(session.out())
        .contains(
            "book.aspects:7:70  mended: \"shwo\" is not a word of the language",
            "mended: no colour or figure is called \"yelow\" (write yellow)",
            "layout.yaml:8:5  mended: a controller has no key \"ramm\" (write ram)",
            "mended: no head is called \"serchlight\" (write searchlight)")
        .endsWith("\n\n1 file checked: nothing found.\n");
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(MENDED_BOOK);
    assertThat(Files.readString(folder.resolve("layout.yaml")))
        .isEqualTo(MISSPELT_LAYOUT.replace("ramm", "ram").replace("[ser", "[sear"));
    assertThat(session.run("check", "--fix", "layout.yaml")).isZero();
    assertThat(session.out()).isEqualTo("1 file checked: nothing found.\n");
    assertThat(left()).containsExactlyInAnyOrder("book.aspects", "layout.yaml");
  }

  /** Where a folder is not parted by it, a backslash is a letter of a name. */
  @Test
  @DisabledOnOs(OS.WINDOWS)
  void a_name_with_a_backslash_is_read_and_mended() throws IOException {
    Session session = misspelt();
    Files.move(folder.resolve("book.aspects"), folder.resolve("old\\book.aspects"));
    Files.delete(folder.resolve("layout.yaml"));
    assertThat(session.run("check", "--fix", ".")).isZero();
    assertThat(Files.readString(folder.resolve("old\\book.aspects"))).isEqualTo(MENDED_BOOK);
  }

  @Test
  void what_cannot_be_mended_is_told_and_sets_the_exit_code() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("layout.yaml"), Yard.LAYOUT.replace("ram:", "raam:").replace("W2", "W1"));
    assertThat(session.run("check", "--fix", ".")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("mended: ", "[duplicate-name]").doesNotContain("raam:");
    assertThat(Files.readString(folder.resolve("layout.yaml")))
        .isEqualTo(Yard.LAYOUT.replace("W2", "W1"));
  }

  @Test
  void unused_names_go_only_where_notes_are_asked_for() throws IOException {
    Session session = Yard.in(folder);
    String book = Yard.BOOK.replace("normal 60 }", "normal 60\n  slow 15\n}");
    Files.writeString(folder.resolve("book.aspects"), book);
    assertThat(session.run("check", "--fix", "book.aspects")).isZero();
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(book);
    assertThat(session.run("check", "--fix", "--notes", "book.aspects")).isZero();
    assertThat(Files.readString(folder.resolve("book.aspects")))
        .isEqualTo(book.replace("  slow 15\n", ""));
  }

  @Test
  void a_dry_run_prints_a_patch_that_git_takes_and_changes_nothing() throws Exception {
    assumeTrue(Files.exists(Path.of("/usr/bin/git")), "git is needed");
    Session session = misspelt();
    assertThat(session.run("check", "--fix", "--dry-run", "layout.yaml")).isZero();
    String patch = session.out();
    assertThat(Files.readString(folder.resolve("layout.yaml"))).isEqualTo(MISSPELT_LAYOUT);
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(MISSPELT_BOOK);
    git(folder, patch, "apply", "--check", "-");
    git(folder, patch, "apply", "-");
    assertThat(session.run("check", "--fix", "layout.yaml")).isZero();
    assertThat(session.out()).isEqualTo("1 file checked: nothing found.\n");
  }

  @Test
  void a_dry_run_says_beside_the_patch_what_is_left() throws Exception {
    Yard.in(folder);
    Session session = new Session(folder);
    Files.writeString(
        folder.resolve("layout.yaml"),
        Yard.LAYOUT.replace("ram:", "rram:").replace("flash:", "flash: much #"));
    assertThat(session.run("check", "--fix", "--dry-run", "layout.yaml")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).startsWith("diff --git ").doesNotContain("[not-a-number]");
    assertThat(session.err()).contains("[not-a-number]").contains("1 file checked: 1 error");
  }

  @Test
  void a_patch_is_applied_at_the_top_of_a_checkout_wherever_it_was_made() throws Exception {
    assumeTrue(Files.exists(Path.of("/usr/bin/git")), "git is needed");
    Path inside = folder.resolve("layouts/coal pit");
    Yard.in(inside);
    git(folder, "", "init", "-q");
    String book = Yard.BOOK.replace("show yellow", "shwo yellow");
    Files.writeString(folder.resolve("book.aspects"), book);
    Files.delete(inside.resolve("book.aspects"));
    Files.writeString(
        inside.resolve("layout.yaml"),
        Yard.LAYOUT.replace("book.aspects", "../../book.aspects").replace("ram:", "rram:"));
    Session session = new Session(inside);
    assertThat(session.run("check", "--fix", "--dry-run", "layout.yaml")).isZero();
    git(folder, session.out(), "apply", "-");
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(Yard.BOOK);
    assertThat(session.run("check", "layout.yaml")).isZero();
  }

  @Test
  void a_line_that_is_added_ends_as_those_around_it() throws IOException {
    Session session = Yard.in(folder);
    String book =
        Yard.BOOK
            .replace("\"Clear\"    { number 2  allows", "\"Clear\" {\n  number 2\n  allows")
            .replace("\n", "\r\n");
    Files.writeString(folder.resolve("book.aspects"), book.replace("  number 2\r\n", ""));
    assertThat(session.run("check", "--fix", "layout.yaml")).as(session.out()).isZero();
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(book);
  }

  @Test
  void a_link_is_neither_followed_nor_replaced() throws IOException {
    Session session = misspelt();
    Path elsewhere = Files.createDirectory(folder.resolve("elsewhere"));
    Files.move(folder.resolve("book.aspects"), elsewhere.resolve("book.aspects"));
    Files.createSymbolicLink(folder.resolve("book.aspects"), elsewhere.resolve("book.aspects"));
    assertThat(session.run("check", "--fix", "layout.yaml")).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err())
        .isEqualTo(
            "doublet: book.aspects: this is a link, or lies behind one; name the file itself\n");
    assertThat(Files.readString(elsewhere.resolve("book.aspects"))).isEqualTo(MISSPELT_BOOK);
    assertThat(Files.readString(folder.resolve("layout.yaml"))).isEqualTo(MISSPELT_LAYOUT);
    assertThat(left()).containsExactlyInAnyOrder("book.aspects", "layout.yaml", "elsewhere");
  }

  @Test
  void rights_of_a_file_stay() throws IOException {
    Session session = misspelt();
    Path layout = folder.resolve("layout.yaml");
    assumeTrue(Files.getFileStore(layout).supportsFileAttributeView("posix"), "needs such rights");
    Files.setPosixFilePermissions(layout, PosixFilePermissions.fromString("rw-r-----"));
    assertThat(session.run("check", "--fix", "layout.yaml")).isZero();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(layout)))
        .isEqualTo("rw-r-----");
  }

  @Test
  void options_that_make_no_sense_together_are_refused() throws IOException {
    Session session = misspelt();
    assertThat(session.run("check", "--dry-run", ".")).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err()).contains("--dry-run goes with --fix");
    assertThat(session.run("check", "--fix", "--dry-run", "--as", "json", ".")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: --dry-run has a form of its own, and takes no --as\n");
    assertThat(session.run("check", "--write-baseline", "b", "--as", "json", ".")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: --write-baseline has a form of its own, and takes no --as\n");
    assertThat(session.run("check", "--fix", "--write-baseline", "b.json", "."))
        .isEqualTo(Main.COULD_NOT_RUN);
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(MISSPELT_BOOK);
  }

  private Stream<String> left() throws IOException {
    return Files.list(folder).map(p -> p.getFileName().toString());
  }

  private static void git(Path folder, String input, String... arguments) throws Exception {
    String[] command = Stream.concat(Stream.of("git"), Stream.of(arguments)).toArray(String[]::new);
    Process process =
        new ProcessBuilder(command).directory(folder.toFile()).redirectErrorStream(true).start();
    try (var out = process.getOutputStream()) {
      out.write(input.getBytes(StandardCharsets.UTF_8));
    }
    String said = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    assertThat(process.exitValue()).as(said).isZero();
  }
}
