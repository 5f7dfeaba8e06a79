package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** What a run reads of a stranger's files, and what it leaves alone. */
class DiskTest {
  private static final String OUTSIDE = "lies outside this checkout, and nothing outside is read";

  @TempDir private Path top;
  private Path checkout;
  private Session session;

  @BeforeEach
  void layOutACheckout() throws IOException {
    Files.writeString(top.resolve("secret"), "token 5eCr3t\n");
    Files.writeString(top.resolve("secret.aspects"), Yard.BOOK.replace("\"Stop\"", "\"5eCr3t\""));
    checkout = top.resolve("checkout");
    session = Yard.in(checkout);
    Files.createDirectory(checkout.resolve(".git"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "../secret",
        "../secret.aspects",
        "a/../../secret",
        "ABSOLUTE",
        "../nothing",
        "link"
      })
  void nothing_is_quoted_or_used_from_outside_the_checkout(String path) throws IOException {
    String given = path.equals("ABSOLUTE") ? top.resolve("secret").toString() : path;
    Files.createSymbolicLink(checkout.resolve("link"), top.resolve("secret.aspects"));
    Files.writeString(checkout.resolve("book.aspects"), Yard.BOOK + "use \"" + given + "\"\n");
    assertThat(session.run("check", "book.aspects")).isEqualTo(1);
    assertThat(session.out())
        .contains("cannot be read: it " + OUTSIDE)
        .contains("Do: copy the file into this checkout, and give its path there.")
        .contains("1 error.")
        .doesNotContain("5eCr3t");

    Files.writeString(checkout.resolve("layout.yaml"), Yard.LAYOUT.replace("book.aspects", given));
    for (String verb : List.of("check", "answers", "wiring")) {
      assertThat(session.run(verb, "layout.yaml")).isEqualTo(1);
      assertThat(session.out()).contains(OUTSIDE).doesNotContain("5eCr3t");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"link.aspects", "."})
  void a_link_that_leads_outside_is_not_followed_when_it_is_named_either(String named)
      throws IOException {
    Files.createSymbolicLink(checkout.resolve("link.aspects"), top.resolve("secret"));
    assertThat(session.run("check", named)).isEqualTo(1);
    assertThat(session.out()).contains(OUTSIDE).doesNotContain("5eCr3t");
  }

  @Test
  void a_rulebook_elsewhere_in_the_checkout_is_read_from_any_folder_of_it() throws IOException {
    Path deep = Files.createDirectories(checkout.resolve("layouts/yard"));
    Files.writeString(
        deep.resolve("layout.yaml"), Yard.LAYOUT.replace("book.aspects", "../../book.aspects"));
    assertThat(new Session(deep).run("check", "layout.yaml")).isZero();
    assertThat(new Session(top).run("check", "checkout/layouts/yard/layout.yaml")).isZero();
    assertThat(new Session(deep).run("check", "../..")).isZero();
  }

  @Test
  void without_git_a_run_reads_below_its_folder_and_below_what_is_named() throws IOException {
    Files.delete(checkout.resolve(".git"));
    Path deep = Files.createDirectories(checkout.resolve("yard"));
    Files.writeString(
        deep.resolve("layout.yaml"), Yard.LAYOUT.replace("book.aspects", "../book.aspects"));
    assertThat(new Session(checkout).run("check", "yard/layout.yaml")).isZero();
    Session elsewhere = new Session(deep);
    assertThat(elsewhere.run("check", "layout.yaml")).isEqualTo(1);
    assertThat(elsewhere.out()).contains(OUTSIDE);
    assertThat(elsewhere.run("check", "..")).isZero();
  }

  @Test
  void without_git_nothing_is_read_beside_a_folder_that_is_named() throws IOException {
    Files.delete(checkout.resolve(".git"));
    Files.writeString(
        checkout.resolve("layout.yaml"), Yard.LAYOUT.replace("book.aspects", "../secret.aspects"));
    Session elsewhere = new Session(Files.createDirectories(top.resolve("elsewhere")));
    assertThat(elsewhere.run("check", "../checkout")).isEqualTo(1);
    assertThat(elsewhere.out()).contains(OUTSIDE).doesNotContain("5eCr3t");
  }

  @ParameterizedTest
  @ValueSource(strings = {"pipe.aspects", "/dev/zero", "/dev/tty", "/dev/stdin"})
  @Timeout(value = 20, threadMode = Timeout.ThreadMode.SEPARATE_THREAD)
  void a_pipe_or_a_device_is_no_file_and_nobody_waits_for_it(String path) throws Exception {
    Path pipe = checkout.resolve("pipe.aspects");
    assumeTrue(run("mkfifo", pipe.toString()) == 0, "mkfifo is not here to make a pipe");
    assumeTrue(Files.exists(checkout.resolve(path)), path + " is not here");
    Files.writeString(checkout.resolve("book.aspects"), Yard.BOOK + "use \"" + path + "\"\n");
    assertThat(session.run("check", "book.aspects")).isEqualTo(1);
    assertThat(session.out()).containsAnyOf("this is a pipe or a device", OUTSIDE);
    assertThat(session.run("check", path)).isEqualTo(1);
    assertThat(session.out()).containsAnyOf("this is a pipe or a device", OUTSIDE);
    assertThat(session.run("inspect", path)).isEqualTo(2);
    assertThat(session.err()).contains("this is a pipe or a device, not a table (.bin)");
    for (String option : List.of("--baseline", "--write-baseline")) {
      assertThat(session.run("check", "layout.yaml", option, path)).isEqualTo(2);
      assertThat(session.err()).contains("this is a pipe or a device, not a baseline");
    }
    assertThat(session.run("check", ".")).isEqualTo(1);
  }

  @Test
  void links_in_a_circle_and_to_nothing_are_told_as_what_cannot_be_read() throws IOException {
    Files.createSymbolicLink(checkout.resolve("round.aspects"), Path.of("round.aspects"));
    Files.createSymbolicLink(checkout.resolve("gone.aspects"), Path.of("nowhere"));
    for (String path : List.of("round.aspects", "gone.aspects")) {
      Files.writeString(checkout.resolve("book.aspects"), Yard.BOOK + "use \"" + path + "\"\n");
      assertThat(session.run("check", "book.aspects")).isEqualTo(1);
      assertThat(session.out()).contains(path + " cannot be read: ").contains("1 error.");
    }
  }

  @Test
  void a_path_of_a_million_letters_is_no_file() throws IOException {
    Files.writeString(
        checkout.resolve("book.aspects"), Yard.BOOK + "use \"" + "a/".repeat(450_000) + "\"\n");
    assertThat(session.run("check", "book.aspects")).isEqualTo(1);
    assertThat(session.out())
        .contains("cannot be read: no file here can have such a name", "1 error.");
  }

  @Test
  @Tag("slow")
  void a_file_that_may_not_be_read_is_no_missing_one() throws Exception {
    Path shut = Files.writeString(checkout.resolve("shut.aspects"), Yard.BOOK);
    Files.setPosixFilePermissions(shut, Set.of());
    PlainUser user = new PlainUser(checkout, shut);
    assertThat(user.run("check", "shut.aspects")).isEqualTo(1);
    assertThat(user.printed())
        .contains("cannot be read: you have no right to read it")
        .contains("Do: give yourself the right to read it.");
  }

  @Test
  @Tag("slow")
  void a_folder_that_takes_no_files_is_named_and_keeps_what_it_has() throws Exception {
    Path shut = Files.createDirectory(checkout.resolve("shut"));
    Files.writeString(shut.resolve("book.aspects"), Yard.BOOK.replace("allows", "alows"));
    Files.writeString(
        shut.resolve("layout.yaml"), Yard.LAYOUT.replace("book.aspects", "../book.aspects"));
    Files.setPosixFilePermissions(shut, PosixFilePermissions.fromString("r-xr-xr-x"));
    try {
      PlainUser user = new PlainUser(checkout, shut);
      for (String line :
          List.of(
              "check --fix shut/book.aspects",
              "pin shut/layout.yaml",
              "build layout.yaml --output shut",
              "page layout.yaml --output shut",
              "wiring layout.yaml --output shut")) {
        assertThat(user.run(line.split(" "))).as(line).isEqualTo(Main.COULD_NOT_RUN);
        assertThat(user.printed())
            .endsWith("shut: nothing may be written into this folder\n")
            .hasLineCount(1);
      }
      try (Stream<Path> inside = Files.list(shut)) {
        assertThat(inside).hasSize(2);
      }
    } finally {
      Files.setPosixFilePermissions(shut, PosixFilePermissions.fromString("rwxr-xr-x"));
    }
  }

  private static int run(String... command) throws Exception {
    Process process = new ProcessBuilder(command).inheritIO().start();
    return process.waitFor(10, TimeUnit.SECONDS) ? process.exitValue() : -1;
  }
}
