package dev.doublet.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.google.common.jimfs.Configuration;
import com.google.common.jimfs.Jimfs;
import dev.doublet.diagnostic.FindingNames;
import dev.doublet.diff.Sort;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.FileSystem;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The command line, run as a builder would. */
class CommandLineTest {
  @TempDir private Path folder;

  @Test
  void a_clean_layout_checks_with_exit_code_0_and_one_closing_line() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("check", "layout.yaml")).isZero();
    assertThat(session.out()).isEqualTo("1 file checked: nothing found.\n");
    assertThat(session.err()).isEmpty();
  }

  @Test
  void a_finding_gives_exit_code_1_and_names_its_check() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("book.aspects"), Yard.BOOK.replace("show yellow", "show green"));
    assertThat(session.run("check", "book.aspects")).isEqualTo(1);
    assertThat(session.out()).contains("[twin-aspects]").endsWith("1 file checked: 1 error.\n");
  }

  @ParameterizedTest
  @ValueSource(strings = {"layout.yaml", "book.aspects", ".", "none.yaml", "none/\u0000", " ", ""})
  void a_check_says_alike_with_and_without_options(String path) throws IOException {
    Session plain = Yard.in(folder);
    Files.writeString(
        folder.resolve("book.aspects"), Yard.BOOK.replace("show yellow", "show green"));
    Session asked = new Session(folder);
    int code = plain.run("check", path);
    assertThat(asked.run("check", "--as=text", path)).isEqualTo(code);
    assertThat(plain.out()).isEqualTo(asked.out());
    assertThat(plain.err()).isEqualTo(asked.err());
  }

  @Test
  void a_folder_is_checked_whole_and_what_two_files_share_is_said_once() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("book.aspects"), Yard.BOOK.replace("show yellow", "show green"));
    assertThat(session.run("check", ".")).isEqualTo(1);
    assertThat(session.out().split("\\[twin-aspects]")).hasSize(2);
    assertThat(session.out()).contains("2 files checked");
  }

  @Test
  void a_folder_passes_over_no_rulebook_whose_first_line_is_misspelt() throws IOException {
    Session session = new Session(folder);
    String book = "rulebook \"B\"  colours { red }  form one { top }";
    String stop = "  aspect \"Stop\" { allows stop  on one show red }\n";
    Files.writeString(folder.resolve("good.aspects"), book + stop);
    Files.writeString(
        folder.resolve("misspelt.aspects"), book.replace("rulebook", "rulebok") + stop);
    assertThat(session.run("check", ".")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("did you mean \"rulebook\"?", "2 files checked: 1 error.");
  }

  @Test
  void two_faults_at_once_are_tried_when_asked_for() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("check", "--notes", "layout.yaml")).isZero();
    assertThat(session.out()).contains("note: 10 single faults tried on 1 kind of signal");
    assertThat(session.run("check", "--notes", "--faults", "1", "layout.yaml")).isZero();
    assertThat(session.out()).contains("note: 10 single faults tried on 1 kind of signal");
    assertThat(session.run("check", "--notes", "--faults", "2", "layout.yaml")).isZero();
    assertThat(session.out()).contains("note: 10 single faults and 2 pairs tried on 1 kind");
  }

  @ParameterizedTest
  @ValueSource(strings = {"0", "3", "two", "-1", "2.0", "99999999999"})
  void any_other_number_of_faults_is_refused(String faults) throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("check", "--faults", faults, "layout.yaml")).isEqualTo(2);
    assertThat(session.err()).isEqualTo("doublet: --faults takes 1 or 2, not \"" + faults + "\"\n");
    assertThat(session.out()).isEmpty();
  }

  @Test
  void a_mark_of_byte_order_is_no_part_of_a_text() throws IOException {
    Session session = Yard.in(folder);
    for (String name : List.of("book.aspects", "layout.yaml")) {
      Path file = folder.resolve(name);
      Files.writeString(file, "\uFEFF" + Files.readString(file));
    }
    assertThat(session.run("check", ".")).isZero();
    Files.writeString(folder.resolve("book.aspects"), "\uFEFFrulebok \"B\"\n");
    assertThat(session.run("check", "book.aspects")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).startsWith("book.aspects:1:1  error: \"rulebok\"");
  }

  @Test
  void a_layout_of_the_other_ending_is_found_in_a_folder() throws IOException {
    Session session = Yard.in(folder);
    Files.move(folder.resolve("layout.yaml"), folder.resolve("west-layout.yml"));
    assertThat(session.run("check", ".")).isZero();
    assertThat(session.out()).isEqualTo("2 files checked: nothing found.\n");
    assertThat(session.run("answers", ".")).isZero();
  }

  @Test
  void checks_that_did_not_run_are_counted_once_for_all_files() throws IOException {
    Session session = Yard.in(folder);
    String broken = Yard.BOOK.replace("show yellow", "show yelow");
    Files.writeString(folder.resolve("book.aspects"), broken);
    session.run("check", "book.aspects");
    String alone = session.out().lines().filter(l -> l.contains("did not run")).findFirst().get();
    Files.writeString(folder.resolve("other.aspects"), broken);
    session.run("check", "book.aspects", "other.aspects");
    assertThat(session.out()).contains(alone);
    session.run("check", "layout.yaml");
    String layout = session.out().lines().filter(l -> l.contains("did not run")).findFirst().get();
    assertThat(layout).isNotEqualTo(alone);
    for (List<String> order :
        List.of(List.of("book.aspects", "layout.yaml"), List.of("layout.yaml", "other.aspects"))) {
      session.run("check", order.get(0), order.get(1));
      assertThat(session.out()).contains(layout);
    }
  }

  @Test
  void a_table_of_many_thousand_bytes_is_inspected_whole() throws IOException {
    Session session = Yard.in(folder);
    StringBuilder many = new StringBuilder(Yard.LAYOUT.split(" *- \\{name: W1")[0]);
    for (int i = 1; i <= 1_000; i++) {
      String form = i > 1 ? "" : ", form: one-head, heads: [searchlight], by: event";
      String events = "Clear: %s.01, Approach: %s.07, Stop: %s.16";
      String id = String.format("02.01.57.00.%02X.%02X.%02X", i % 7, i / 256, i % 256);
      many.append("        - {name: W" + i + form);
      many.append(", events: {" + events.replace("%s", id) + "}}\n");
    }
    String layout =
        many.toString()
            .replace("controllers:", "buses: {can: {speaks: openlcb}}\ncontrollers:")
            .replace("flash: 28672", "flash: 90000")
            .replace("ram: 1536", "ram: 90000");
    Files.writeString(folder.resolve("layout.yaml"), layout);
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();
    assertThat(Files.size(folder.resolve("out/west.bin"))).isGreaterThan(20_000);
    assertThat(session.run("inspect", "out/west.bin")).isZero();
    assertThat(session.out()).contains("02.01.57.00.06.03.E8.16");
  }

  @Test
  void cables_of_one_gauge_are_counted_together() throws IOException {
    Session session = Yard.in(folder);
    String second =
        "      far:\n        cable: {awg: 24, metres: 4.5}\n        signals:\n"
            + "        - {name: F1, form: one-head, heads: [searchlight], by: aspect-number}\n";
    Files.writeString(
        folder.resolve("layout.yaml"),
        Yard.LAYOUT.replace("main:\n", "main:\n        cable: {awg: 24, metres: 3}\n") + second);
    assertThat(session.run("wiring", "layout.yaml")).as(session.out()).isZero();
    assertThat(session.out()).containsPattern("metres of cable AWG 24 *\\| *7.5");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "check|",
        "check| ",
        "build|layout.yaml|--output|",
        "build|layout.yaml|--output=",
        "check|layout.yaml|--write-baseline|",
        "wiring|layout.yaml|--signal|",
        "answers|"
      })
  void an_empty_argument_is_not_taken_for_the_present_folder(String line) throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run(line.split("\\|", -1))).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err())
        .isEqualTo("doublet: an argument is empty; for the folder that this runs in, write .\n");
    assertThat(session.out()).isEmpty();
    assertThat(names(folder)).containsExactly("book.aspects", "layout.yaml");
  }

  @ParameterizedTest
  @CsvSource(
      delimiter = '>',
      quoteCharacter = '`',
      value = {
        "chek book.aspects > there is no verb \"chek\"; did you mean \"check\"?",
        "help check > there is no verb \"help\"; \"doublet --help\" tells what there is",
        "--nonsense > there is no option \"--nonsense\"; \"doublet --help\" tells what there is",
        "build --outptu out layout.yaml > there is no option \"--outptu\"; did you mean \"--output\"?",
        "check --baselin=b book.aspects > there is no option \"--baselin\"; did you mean \"--baseline\"?",
        "check > check needs FILE; \"doublet check --help\" tells what it takes",
        "build layout.yaml > build needs --output FOLDER; \"doublet build --help\" tells what it takes",
        "build layout.yaml --output > --output needs FOLDER; \"doublet build --help\" tells what it takes",
        "build layout.yaml --output a --output b > --output is said twice; \"doublet build --help\" tells what it takes",
        "build --output out layout.yaml b > \"b\" is one too many; \"doublet build --help\" tells what it takes",
        "build --output -x layout.yaml b > \"b\" is one too many; \"doublet build --help\" tells what it takes",
        "answers -- --format b > \"b\" is one too many; \"doublet answers --help\" tells what it takes",
        "sheet --as pdf layout.yaml > --as takes \"text\", \"markdown\", \"csv\" or \"html\", not \"pdf\"; \"doublet sheet --help\" tells what it takes",
        "check --strict=1 book.aspects > --strict takes no value, not \"1\"; \"doublet check --help\" tells what it takes",
        "diff layout.yaml layout.yaml b > b: this is a third, and two are compared; for several files name two folders, or two revisions (A..B)",
        "completion zsh > completion takes \"bash\", not \"zsh\"; \"doublet completion --help\" tells what it takes",
        "send layout.yaml --table x > --table takes CONTROLLER=FILE, not \"x\"; \"doublet send --help\" tells what it takes",
        "format --as layout book.aspects > --as goes with -; a file is what its name ends in"
      })
  void a_mistake_in_a_command_is_told_in_one_line(String line, String told) throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run(line.split(" "))).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err()).isEqualTo("doublet: " + told + "\n");
    assertThat(session.out()).isEmpty();
    assertThat(names(folder)).containsExactly("book.aspects", "layout.yaml");
  }

  /** A shell that is given {@code *} hands over such a name. */
  @Test
  void a_file_whose_name_begins_with_an_at_sign_gives_no_arguments() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(folder.resolve("x"), "--fix");
    Files.writeString(folder.resolve("@x"), "");
    assertThat(session.run("format", "@x", "book.aspects")).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err())
        .isEqualTo("doublet: @x: this is no rulebook (.aspects) and no layout (.yaml)\n");
    Files.move(folder.resolve("book.aspects"), folder.resolve("@x.aspects"));
    assertThat(session.run("check", "@x.aspects")).isZero();
  }

  @Test
  void a_folder_passes_over_no_rulebook_that_is_empty() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(folder.resolve("empty.aspects"), "");
    assertThat(session.run("check", ".")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("empty.aspects declares nothing", "3 files checked");
  }

  @Test
  void where_no_folder_can_be_made_none_is_missed() throws IOException {
    assumeTrue(Files.isDirectory(Path.of("/proc/self")), "/proc is not here");
    Session session = Yard.in(folder);
    assertThat(session.run("build", "layout.yaml", "--output", "/proc/tables"))
        .isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err()).isEqualTo("doublet: /proc/tables: no folder can be made there\n");
  }

  @Test
  void a_file_that_is_there_and_no_text_is_not_called_missing() throws IOException {
    Session session = Yard.in(folder);
    Files.write(folder.resolve("book.aspects"), new byte[] {'r', (byte) 0xff, 'b', 'o', 'k'});
    for (String file : List.of("book.aspects", "layout.yaml")) {
      assertThat(session.run("check", file)).isEqualTo(Main.FINDINGS);
      assertThat(session.out())
          .contains("book.aspects cannot be read: it is no text in UTF-8", "[not-text]");
    }
    Files.delete(folder.resolve("book.aspects"));
    assertThat(session.run("check", "layout.yaml")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("[missing-file]");
  }

  @Test
  void a_missing_file_cannot_be_checked() {
    Session session = new Session(folder);
    assertThat(session.run("check", "nowhere.aspects")).isEqualTo(2);
    assertThat(session.err()).isEqualTo("doublet: nowhere.aspects: there is no such file\n");
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "build --output out", "answers", "wiring", "sequence"})
  void a_folder_without_rulebooks_and_layouts_is_not_clean(String verb) throws IOException {
    Session session = Yard.in(folder);
    Files.createDirectories(folder.resolve("attic"));
    Files.writeString(folder.resolve("attic/west.yaml"), Yard.LAYOUT);
    assertThat(session.run((verb + " attic").split(" "))).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: attic: this folder holds no rulebook (.aspects), and no layout whose name"
                + " ends in layout.yaml\n");
  }

  @Test
  void verbs_for_one_file_take_the_only_one_in_a_folder_and_never_choose() throws IOException {
    Session session = Yard.in(folder);
    Files.createDirectories(folder.resolve("east"));
    Files.writeString(
        folder.resolve("east/layout.yaml"), Yard.LAYOUT.replace("book.aspects", "../book.aspects"));
    assertThat(session.run("answers", "east")).isZero();
    Files.writeString(
        folder.resolve("book-tests.aspects"),
        "use \"book.aspects\"\nexpect \"Stop\" allows stop\n");
    Files.copy(folder.resolve("book-tests.aspects"), folder.resolve("more-tests.aspects"));
    assertThat(session.run("sequence", ".")).isZero();
    assertThat(session.out()).contains("Approach");
    assertThat(session.run("build", ".", "--output", "out")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: .: this folder holds several; name one of them: east/layout.yaml,"
                + " layout.yaml\n");
    assertThat(folder.resolve("out")).doesNotExist();
  }

  @Test
  void a_folder_named_as_a_rulebook_is_none() throws IOException {
    Session session = Yard.in(folder);
    Files.createDirectories(folder.resolve("old.aspects"));
    assertThat(session.run("check", ".")).as(session.out()).isZero();
    assertThat(session.out()).contains("2 files checked");
  }

  @Test
  void two_folders_without_anything_to_compare_are_not_alike() throws IOException {
    Files.createDirectories(folder.resolve("a"));
    Files.createDirectories(folder.resolve("b"));
    Session session = new Session(folder);
    assertThat(session.run("diff", "a", "b")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: b: neither side holds a rulebook (.aspects), or a layout whose name ends in"
                + " layout.yaml\n");
  }

  @Test
  void a_folder_of_which_a_file_cannot_be_read_is_not_compared_whole() throws IOException {
    Yard.in(folder.resolve("a"));
    Yard.in(folder.resolve("b"));
    Files.writeString(folder.resolve("b/book.aspects"), Yard.BOOK + "form\n");
    Session session = new Session(folder);
    assertThat(session.run("diff", "a", "b")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: not everything was compared; \"doublet check\" tells what is wrong with a"
                + " file\n");
  }

  @Test
  void a_verb_for_layouts_takes_no_rulebook_and_one_for_rulebooks_no_layout() throws IOException {
    Session session = Yard.in(folder);
    for (String verb : List.of("answers", "wiring")) {
      assertThat(session.run(verb, "book.aspects")).isEqualTo(2);
      assertThat(session.err()).isEqualTo("doublet: book.aspects: this is no layout (.yaml)\n");
    }
    assertThat(session.run("sequence", "layout.yaml")).isEqualTo(2);
    assertThat(session.err()).isEqualTo("doublet: layout.yaml: this is no rulebook (.aspects)\n");
    assertThat(session.run("inspect", ".")).isEqualTo(2);
    assertThat(session.err()).isEqualTo("doublet: .: this is a folder, not a table (.bin)\n");
  }

  @Test
  void output_that_cannot_be_written_is_no_success_unless_who_reads_a_pipe_has_read_enough()
      throws IOException {
    Yard.in(folder);
    OutputStream full =
        new OutputStream() {
          @Override
          public void write(int b) throws IOException {
            throw new IOException("No space left on device");
          }
        };
    for (boolean pipe : new boolean[] {false, true}) {
      ByteArrayOutputStream err = new ByteArrayOutputStream();
      PrintStream out = new PrintStream(full, false, UTF_8);
      Terminal terminal = new Terminal(out, new PrintStream(err, true, UTF_8), false, pipe, folder);
      assertThat(Main.run(terminal, "answers", "layout.yaml")).isEqualTo(pipe ? 0 : 2);
      assertThat(err.toString(UTF_8))
          .isEqualTo(pipe ? "" : "doublet: not all of the output could be written\n");
    }
  }

  @Test
  void want_of_memory_is_told_and_is_no_finding() throws IOException {
    Yard.in(folder);
    OutputStream greedy =
        new OutputStream() {
          @Override
          public void write(int b) {
            throw new OutOfMemoryError("Java heap space");
          }
        };
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    PrintStream out = new PrintStream(greedy, false, UTF_8);
    Terminal terminal = new Terminal(out, new PrintStream(err, true, UTF_8), false, false, folder);
    assertThat(Main.run(terminal, "answers", "layout.yaml")).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(err.toString(UTF_8)).contains("more memory", "-Xmx4g").hasLineCount(1);
  }

  @Test
  void a_text_without_end_is_told_in_one_message() throws IOException {
    Session session = Yard.in(folder);
    Files.write(folder.resolve("book.aspects"), new byte[(16 << 20) + 1]);
    assertThat(session.run("check", "layout.yaml")).isEqualTo(1);
    assertThat(session.out()).contains("book.aspects cannot be read: it is larger than 16 MiB");
    assertThat(session.run("inspect", "book.aspects")).isEqualTo(1);
  }

  @Test
  void build_writes_a_table_and_a_header_for_each_controller_and_the_reader() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("build", "layout.yaml", "--output", "out/tables")).isZero();
    assertThat(names(folder.resolve("out/tables")))
        .containsExactly("doublet_reader.h", "west.bin", "west.h");
    assertThat(session.run("inspect", "out/tables/west.bin")).isZero();
    assertThat(session.out()).isNotBlank();
  }

  @Test
  void building_twice_gives_the_same_bytes() throws IOException {
    Session session = Yard.in(folder);
    session.run("build", "layout.yaml", "--output", "one");
    session.run("build", "layout.yaml", "--output", "two");
    for (String name : names(folder.resolve("one"))) {
      assertThat(Files.readAllBytes(folder.resolve("one").resolve(name)))
          .as(name)
          .isEqualTo(Files.readAllBytes(folder.resolve("two").resolve(name)));
    }
  }

  @Test
  void nothing_is_built_from_a_layout_with_errors() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("layout.yaml"), Yard.LAYOUT.replace("{name: W2}", "{name: W2, address: 1}"));
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isEqualTo(1);
    assertThat(session.out()).contains("[address-clash]");
    assertThat(session.err()).isEqualTo("doublet: nothing was written\n");
    assertThat(folder.resolve("out")).doesNotExist();
  }

  @Test
  void warnings_alone_fail_no_run_unless_it_is_strict() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(
        folder.resolve("layout.yaml"), Yard.LAYOUT.replace("otherwise: most-restrictive\n", ""));
    assertThat(session.run("check", "layout.yaml")).isZero();
    assertThat(session.out()).contains("1 warning.");
    assertThat(session.run("check", "--strict", "layout.yaml")).isEqualTo(1);
    assertThat(session.run("build", "--strict", "layout.yaml", "--output", "out")).isEqualTo(1);
    assertThat(session.err()).isEqualTo("doublet: nothing was written\n");
    assertThat(folder.resolve("out")).doesNotExist();
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isZero();
    assertThat(session.out()).contains("1 warning.");
    assertThat(folder.resolve("out/west.bin")).exists();
  }

  @Test
  void a_generated_header_may_be_used_without_notice() throws IOException {
    Session session = Yard.in(folder);
    session.run("build", "layout.yaml", "--output", "out");
    for (String name : List.of("west.h", "doublet_reader.h")) {
      assertThat(Files.readString(folder.resolve("out").resolve(name)))
          .startsWith("/* SPDX-License-Identifier: 0BSD OR Apache-2.0 */\n");
    }
  }

  @Test
  void a_file_where_the_output_folder_should_be_is_told_in_one_line() throws IOException {
    Session session = Yard.in(folder);
    Files.writeString(folder.resolve("out"), "not a folder");
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isEqualTo(2);
    assertThat(session.err()).endsWith("out: this is a file, not a folder\n").hasLineCount(1);
  }

  @Test
  void a_rulebook_with_mistakes_is_not_drawn_over_the_chart_of_a_good_one() throws IOException {
    Session session = new Session(folder);
    Path book = folder.resolve("book.aspects");
    Files.writeString(
        book,
        """
        rulebook "Brackwater & Northern"
        colours { red }
        form one { top }
        aspect "Stop" { allows stop  on one show red }
        """);
    assertThat(session.run("chart", "book.aspects", "--output", "out")).isZero();
    byte[] drawn = Files.readAllBytes(folder.resolve("out/aspects.html"));
    for (String bad :
        List.of("", "rulebook", Files.readString(book).replace("show red", "show rd"))) {
      Files.writeString(book, bad);
      assertThat(session.run("chart", "book.aspects", "--output", "out")).isEqualTo(Main.FINDINGS);
      assertThat(session.out()).contains("error: ").doesNotContain("aspects.html");
      assertThat(session.err()).isEqualTo("doublet: nothing was written\n");
      assertThat(session.run("chart", "book.aspects", "--aspect", "Stop", "--form", "one"))
          .isEqualTo(Main.FINDINGS);
      assertThat(folder.resolve("out/aspects.html")).hasBinaryContent(drawn);
    }
  }

  @Test
  void a_full_disk_leaves_the_old_output_whole() throws IOException {
    Configuration small =
        Configuration.unix().toBuilder().setMaxSize(64 * 1024).setBlockSize(512).build();
    try (FileSystem disk = Jimfs.newFileSystem(small)) {
      Path yard = disk.getPath("/work");
      Session session = Yard.in(yard);
      assertThat(session.run("build", "layout.yaml", "--output", "out")).isZero();
      byte[] before = Files.readAllBytes(yard.resolve("out/west.bin"));
      Files.writeString(yard.resolve("layout.yaml"), Yard.LAYOUT.replace("W2", "Renamed"));
      long free = disk.getFileStores().iterator().next().getUsableSpace();
      Files.write(yard.resolve("filler"), new byte[(int) free - 1024]);

      assertThat(session.run("build", "layout.yaml", "--output", "out")).isEqualTo(2);
      assertThat(session.err()).startsWith("doublet: ").hasLineCount(1);
      assertThat(Files.readAllBytes(yard.resolve("out/west.bin"))).isEqualTo(before);
      assertThat(names(yard.resolve("out")))
          .containsExactly("doublet_reader.h", "west.bin", "west.h");
    }
  }

  @Test
  void a_damaged_table_is_refused_with_the_reason() throws IOException {
    Session session = Yard.in(folder);
    session.run("build", "layout.yaml", "--output", "out");
    byte[] table = Files.readAllBytes(folder.resolve("out/west.bin"));
    Files.write(folder.resolve("short.bin"), Arrays.copyOf(table, table.length - 1));
    table[table.length / 2] ^= 1;
    Files.write(folder.resolve("flipped.bin"), table);
    for (String name : List.of("short.bin", "flipped.bin", "book.aspects")) {
      assertThat(session.run("inspect", name)).isEqualTo(1);
      assertThat(session.err()).startsWith("doublet: " + name + " is refused: ").hasLineCount(1);
      assertThat(session.out()).isEmpty();
    }
  }

  @Test
  void binary_and_empty_files_get_a_message_each() throws IOException {
    Session session = new Session(folder);
    Files.write(folder.resolve("binary.aspects"), new byte[] {0, 1, 2, (byte) 0xFF});
    Files.write(folder.resolve("empty.aspects"), new byte[0]);
    Files.write(folder.resolve("empty.yaml"), new byte[0]);
    Files.write(folder.resolve("binary.yaml"), new byte[] {0, 1, 2, (byte) 0xFF});
    for (String name : List.of("binary.aspects", "empty.aspects", "empty.yaml", "binary.yaml")) {
      assertThat(session.run("check", name)).as(name).isBetween(1, 2);
      assertThat(session.out() + session.err()).as(name).contains(name).doesNotContain("\tat ");
    }
  }

  @ParameterizedTest
  @ValueSource(strings = {"check", "build", "answers", "sheet", "wiring", "inspect", "explain"})
  void every_verb_has_help(String verb) {
    Session session = new Session(folder);
    assertThat(session.run(verb, "--help")).isZero();
    assertThat(session.out()).startsWith("Usage: doublet " + verb);
  }

  @Test
  void answers_lists_what_to_send_and_what_must_show() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("answers", "layout.yaml", "--signal", "W2")).isZero();
    assertThat(session.out())
        .isEqualTo(
            """
            W2 on controller west, aspect-number on bus dcc, extended address 2 (inside 5)
              Stop until the first command
              value  packet       shows     picture  allows
              0      81 73 00 F2  Stop      red      stop
              1      81 73 01 F3  Approach  yellow   normal then stop
              2      81 73 02 F0  Clear     green    normal then normal
              values 3 to 31 call up nothing: it shows Stop
            """);
    assertThat(session.run("answers", "layout.yaml", "--format", "csv")).isZero();
    assertThat(session.out()).hasLineCount(1 + 2 * 4);
  }

  @Test
  void a_sheet_is_printed_in_the_form_asked_for() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("sheet", "layout.yaml")).isZero();
    assertThat(session.out()).startsWith("Coalpit Yard (").contains("\nW2      A     2 ");
    assertThat(session.run("sheet", "layout.yaml", "--as", "markdown")).isZero();
    assertThat(session.out()).startsWith("# Throttle sheet of Coalpit Yard\n");
    assertThat(session.run("sheet", "layout.yaml", "--as", "csv")).isZero();
    assertThat(session.out()).hasLineCount(1 + 2);
    assertThat(session.run("sheet", "layout.yaml", "--as", "html")).isZero();
    assertThat(session.out()).startsWith("<!DOCTYPE html>").endsWith("</html>\n");
    Files.writeString(folder.resolve("layout.yaml"), "layout: Coalpit Yard\n");
    assertThat(session.run("sheet", "layout.yaml")).isEqualTo(1);
  }

  @Test
  void parts_and_labels_are_printed_in_the_form_asked_for() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("parts", "layout.yaml")).isZero();
    assertThat(session.out()).startsWith("Parts of Coalpit Yard\n").contains("resistor");
    assertThat(session.run("parts", "layout.yaml", "--as", "markdown")).isZero();
    assertThat(session.out()).startsWith("# Parts of Coalpit Yard\n");
    assertThat(session.run("parts", "layout.yaml", "--as", "csv")).isZero();
    assertThat(session.out()).startsWith("part,count");
    assertThat(session.run("parts", "layout.yaml", "--as", "html")).isZero();
    assertThat(session.out()).startsWith("<!DOCTYPE html>").endsWith("</html>\n");
    assertThat(session.run("labels", "layout.yaml", "--width", "40")).isZero();
    assertThat(session.out()).contains("width=\"40mm\" height=\"10mm\"").endsWith("</html>\n");
    assertThat(session.run("labels", "layout.yaml", "--width", "9")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: --width takes a whole number of millimetres from 10 to 186, not \"9\"\n");
    assertThat(session.run("labels", "layout.yaml", "--height", "abc")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo(
            "doublet: --height takes a whole number of millimetres from 5 to 100, not \"abc\"\n");
    assertThat(session.run("labels", "layout.yaml", "--height", "101")).isEqualTo(2);
    Files.writeString(folder.resolve("layout.yaml"), "layout: Coalpit Yard\n");
    assertThat(session.run("parts", "layout.yaml")).isEqualTo(1);
    assertThat(session.run("labels", "layout.yaml")).isEqualTo(1);
  }

  @Test
  void answers_of_an_unknown_signal_or_an_unsound_layout_are_refused() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("answers", "layout.yaml", "--signal", "W22")).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: there is no signal \"W22\"; did you mean \"W2\"?\n");
    Files.writeString(
        folder.resolve("layout.yaml"), Yard.LAYOUT.replace("{name: W2}", "{name: W2, address: 1}"));
    assertThat(session.run("answers", "layout.yaml")).isEqualTo(1);
    assertThat(session.out()).contains("[address-clash]").doesNotContain("until");
  }

  @Test
  void wiring_prints_every_controller_or_writes_a_file_for_each() throws IOException {
    Session session = Yard.in(folder);
    assertThat(session.run("wiring", "layout.yaml")).isZero();
    String printed = session.out();
    assertThat(printed).startsWith("# Wiring of west, Coalpit Yard\n").contains("| 2 | W2,");
    assertThat(session.run("wiring", "layout.yaml", "--output", "out")).isZero();
    assertThat(session.out()).isEqualTo("west.wiring.md\n");
    assertThat(folder.resolve("out/west.wiring.md")).hasContent(printed);
    assertThat(session.run("wiring", "layout.yaml", "--format", "csv")).isZero();
    assertThat(session.out()).hasLineCount(3);
  }

  @Test
  void a_misspelt_verb_or_option_is_told_what_was_meant() {
    Session session = new Session(folder);
    assertThat(session.run("chek", "x")).isEqualTo(2);
    assertThat(session.err()).contains("check");
    assertThat(session.run()).isEqualTo(2);
  }

  @Test
  void it_says_its_version_and_that_of_a_working_copy_is_unreleased() {
    Session session = new Session(folder);
    assertThat(session.run("--version")).isZero();
    assertThat(session.out()).isEqualTo("doublet unreleased\n");
  }

  @Test
  void explain_lists_all_prints_one_and_suggests_the_nearest() {
    Session session = new Session(folder);
    assertThat(session.run("explain")).isZero();
    assertThat(session.out())
        .contains(FindingNames.ALL)
        .contains("\n\nChanges that diff tells of:\n")
        .contains(Arrays.stream(Sort.values()).map(Sort::word).toList())
        .doesNotContainPattern("(?m)^[a-z-]+ *$");
    assertThat(session.run("explain", "twin-aspects")).isZero();
    assertThat(session.out()).startsWith("# twin-aspects\n");
    assertThat(session.run("explain", "twin-aspect")).isEqualTo(2);
    assertThat(session.err()).contains("did you mean \"twin-aspects\"?");
  }

  private static List<String> names(Path folder) throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(f -> f.getFileName().toString()).sorted().toList();
    }
  }
}
