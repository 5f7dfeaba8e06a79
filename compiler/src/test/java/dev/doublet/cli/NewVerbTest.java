package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.doublet.layout.Board;
import dev.doublet.starter.Starter;
import java.io.BufferedOutputStream;
import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;
import picocli.CommandLine;

/** What {@code new} makes, and what it leaves alone. */
class NewVerbTest {
  @TempDir Path folder;

  static List<Board> boards() {
    return Board.ALL;
  }

  @ParameterizedTest
  @MethodSource("boards")
  void each_choice_checks_clean_is_in_its_form_and_builds(Board board) throws IOException {
    soundWith(1, board);
    soundWith(Starter.MOST_SIGNALS, board);
  }

  @Test
  void the_help_names_every_board() {
    Session session = new Session(folder);
    session.run("new", "--help");
    String help = session.out().replaceAll("\\s+", " ");
    assertThat(help).contains(Board.ALL.stream().map(Board::word).toList());
  }

  /** A board is one word in the layout, so each is tried with every fourth number of signals. */
  @Tag("slow")
  @Test
  void so_does_any_number_of_signals() throws IOException {
    for (int signals = 2; signals < Starter.MOST_SIGNALS; signals++) {
      soundWith(signals, Board.ALL.get(signals % Board.ALL.size()));
    }
  }

  private void soundWith(int signals, Board board) throws IOException {
    Session session = new Session(folder);
    for (int heads = 1; heads <= Starter.MOST_HEADS; heads++) {
      for (Starter.Bus bus : Starter.Bus.values()) {
        String name = heads + "-" + signals + "-" + board + "-" + bus;
        int made =
            session.run(
                "new",
                name,
                "--heads=" + heads,
                "--signals=" + signals,
                "--board=" + board,
                "--bus=" + bus);
        assertThat(made).as(name + session.err()).isZero();
        assertThat(session.out()).doesNotContain("not said").contains("check " + name);
        assertThat(session.run("check", "--strict", name)).as(session.out()).isZero();
        assertThat(session.out()).isEqualTo("2 files checked: nothing found.\n");
        assertThat(session.run("format", "--check", name)).as(session.out()).isZero();
        String layout = name + "/layout.yaml";
        assertThat(session.run("pin", layout)).isZero();
        assertThat(session.out()).isEqualTo(layout + " is pinned already\n");
        assertThat(session.run("build", layout, "--output", name + "/out", "--strict")).isZero();
        assertThat(session.out()).contains("main.bin: " + signals + " signal");
        assertThat(session.run("look", name + "/signals.aspects", "Stop")).isZero();
        assertThat(session.out()).contains("Stop  red" + " over red".repeat(heads - 1) + "\n");
      }
    }
  }

  @Test
  void what_is_not_said_is_taken_and_told() {
    Session session = new Session(folder);
    assertThat(session.run("new", "my railway")).isZero();
    assertThat(session.out())
        .isEqualTo(
            """
            not said, and so taken: --heads 1, --signals 4 and --board avr-16mhz
            my railway/signals.aspects
            my railway/layout.yaml
            next: doublet check 'my railway'
            """);
    assertThat(session.run("new", "--", "-yard")).isZero();
    assertThat(session.out()).endsWith("next: doublet check ./-yard\n");
  }

  @Test
  void a_person_is_asked_until_an_answer_can_be_used() throws IOException {
    assertThat(asked("0\nthree\n 2 \n41\n\navr\nrv32-108mhz\n", "new")).isZero();
    assertThat(Files.readString(folder.resolve("new/layout.yaml")))
        .contains("form: two-head", "name: S4", "rv32")
        .doesNotContain("name: S5");
  }

  @Test
  void a_question_is_on_the_screen_before_its_answer_is_read() {
    ByteArrayOutputStream screen = new ByteArrayOutputStream();
    StringBuilder seen = new StringBuilder();
    InputStream person =
        new InputStream() {
          @Override
          public int read() {
            seen.append(screen.toString(StandardCharsets.UTF_8));
            return -1;
          }
        };
    PrintStream buffered =
        new PrintStream(new BufferedOutputStream(screen), false, StandardCharsets.UTF_8);
    Terminal terminal = new Terminal(person, buffered, buffered, false, false, folder);
    new CommandLine(new NewVerb(terminal, true)).execute("new");
    assertThat(seen.toString()).isEqualTo("How many heads has a signal? a number from 1 to 3 [1] ");
  }

  @Test
  void who_ends_the_input_gets_nothing() throws IOException {
    assertThat(asked("2\n", "new")).isEqualTo(2);
    assertThat(files()).isEmpty();
  }

  private int asked(String answers, String... arguments) {
    Terminal terminal =
        new Terminal(
            new ByteArrayInputStream(answers.getBytes(StandardCharsets.UTF_8)),
            new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8),
            new PrintStream(new ByteArrayOutputStream(), true, StandardCharsets.UTF_8),
            false,
            false,
            folder);
    return new CommandLine(new NewVerb(terminal, true)).execute(arguments);
  }

  @Test
  void a_second_run_changes_nothing() throws IOException {
    Session session = new Session(folder);
    assertThat(session.run("new", "a")).isZero();
    Map<String, String> before = files();
    assertThat(session.run("new", "a", "--heads", "3")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: a: this is there already, and stays as it is; name a folder that is not\n");
    assertThat(files()).isEqualTo(before);
  }

  @ParameterizedTest
  @ValueSource(
      strings = {".", "..", "/", "file", "file/deeper", "none/deeper", "link", "lost", "lost/x"})
  void what_is_there_is_neither_replaced_nor_followed(String name) throws IOException {
    Files.writeString(folder.resolve("file"), "precious");
    Files.createDirectory(folder.resolve("elsewhere"));
    Files.createSymbolicLink(folder.resolve("link"), Path.of("elsewhere"));
    Files.createSymbolicLink(folder.resolve("lost"), Path.of("nowhere"));
    Map<String, String> before = files();
    Session session = new Session(folder);
    assertThat(session.run("new", name)).isEqualTo(2);
    assertThat(session.err()).startsWith("doublet: " + name + ": ").hasLineCount(1);
    assertThat(files()).isEqualTo(before);
  }

  @Test
  void a_link_that_a_stranger_laid_on_the_way_is_not_followed() throws IOException {
    Files.createDirectory(folder.resolve("elsewhere"));
    Files.createSymbolicLink(folder.resolve("link"), Path.of("elsewhere"));
    Session session = new Session(folder);
    assertThat(session.run("new", "link/new")).isEqualTo(2);
    assertThat(session.err()).contains("this is a link");
    assertThat(folder.resolve("elsewhere")).isEmptyDirectory();
  }

  @ParameterizedTest
  @ValueSource(strings = {"a\u001b[31mb", "\u202Eevil", "a\nb", "it's", "$(rm x)", "-", "ü", "con"})
  void a_folder_may_have_an_odd_name_and_no_letter_acts_on_the_terminal(String name) {
    Session session = new Session(folder);
    assertThat(session.run("new", name)).as(session.err()).isZero();
    assertThat(session.out()).doesNotContain("\u001b", "\u202E");
    assertThat(session.run("check", "--strict", name)).isZero();
  }

  @ParameterizedTest
  @ValueSource(strings = {"a\u0000b", "--heads", " "})
  void a_name_that_cannot_be_is_refused(String name) throws IOException {
    Session session = new Session(folder);
    assertThat(session.run("new", name)).isEqualTo(2);
    assertThat(session.err()).isNotEmpty().doesNotContain("Exception");
    assertThat(files()).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "--heads=0",
        "--heads=4",
        "--heads=2.5",
        "--signals=0",
        "--signals=41",
        "--signals=-1",
        "--signals=99999999999",
        "--board=AVR",
        "--bus=tin-cans"
      })
  void what_an_option_cannot_take_is_told(String option) throws IOException {
    Session session = new Session(folder);
    assertThat(session.run("new", "a", option)).isEqualTo(2);
    assertThat(session.err()).contains(option.replaceAll("=.*", "")).doesNotContain("Exception");
    assertThat(files()).isEmpty();
  }

  @Test
  void where_nothing_can_be_written_that_is_told() throws IOException {
    // Nobody can make a folder there, whatever they may do elsewhere.
    assumeTrue(Files.isDirectory(Path.of("/proc/self")), "/proc is not here");
    Session session = new Session(folder);
    assertThat(session.run("new", "/proc/new")).isEqualTo(2);
    assertThat(session.err()).startsWith("doublet: ").doesNotContain("Exception");
    assertThat(files()).isEmpty();
  }

  private Map<String, String> files() throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> walk = Files.walk(folder)) {
      for (Path file : walk.filter(f -> !f.equals(folder)).toList()) {
        boolean text = Files.isRegularFile(file) && !Files.isSymbolicLink(file);
        files.put(folder.relativize(file).toString(), text ? Files.readString(file) : "");
      }
    }
    return files;
  }
}
