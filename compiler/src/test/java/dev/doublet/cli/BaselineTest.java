package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Old findings are silent, new ones are not, and those that are gone are told. */
class BaselineTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red yellow green }
      form one { top }
      aspect "Stop"  { allows stop  on one show red }
      aspect "Clear" { allows normal then stop  on one show green }
      aspect "Go"    { allows normal then stop  on one show yellow }
      imperfect signals read as most restrictive
      """;

  @TempDir private Path folder;

  @Test
  void old_findings_are_silent_and_new_ones_are_not() throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    assertThat(session.run("check", "book.aspects", "--strict")).isEqualTo(Main.FINDINGS);
    assertThat(session.run("check", "book.aspects", "--write-baseline", "known.txt")).isZero();
    assertThat(session.run("check", "book.aspects", "--strict", "--baseline", "known.txt"))
        .isZero();
    assertThat(session.out()).isEqualTo("1 file checked: nothing found.\n");

    book("# a line\n\n" + BOOK.replace("show yellow", "show green"));
    assertThat(session.run("check", "book.aspects", "--baseline", "known.txt"))
        .isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("twin-aspects").doesNotContain("two-names-one-meaning");
  }

  @Test
  void findings_that_are_gone_are_told() throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    session.run("check", "book.aspects", "--write-baseline", "known.txt");
    book(
        BOOK.replace("on one show yellow", "on one show yellow  rule 5")
            .replace(
                "\"Go\"    { allows normal then stop", "\"Go\"    { allows normal then normal"));
    session.run("check", "book.aspects", "--baseline", "known.txt");
    assertThat(session.err()).contains("is gone", "two-names-one-meaning");
  }

  @Test
  void nothing_but_a_baseline_is_read_or_written_over() throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    assertThat(session.run("check", "book.aspects", "--write-baseline", "book.aspects"))
        .isEqualTo(Main.COULD_NOT_RUN);
    assertThat(Files.readString(folder.resolve("book.aspects"))).isEqualTo(BOOK);
    assertThat(session.run("check", "book.aspects", "--baseline", "book.aspects"))
        .isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err()).contains("this is no baseline");
  }

  @Test
  void a_baseline_that_is_cut_off_is_none() throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    session.run("check", "book.aspects", "--write-baseline", "known.txt");
    String whole = Files.readString(folder.resolve("known.txt"));
    int last = whole.stripTrailing().lastIndexOf('\n') + 1;
    for (int end = last + 1; end < whole.length(); end++) {
      Files.writeString(folder.resolve("known.txt"), whole.substring(0, end));
      assertThat(said(session, "--baseline", "known.txt")).contains("not a whole one");
      Files.writeString(folder.resolve("known.txt"), whole.substring(0, end) + "\n");
      assertThat(session.run("check", "book.aspects", "--baseline", "known.txt"))
          .isEqualTo(end == whole.length() - 1 ? Main.CLEAN : Main.COULD_NOT_RUN);
    }
  }

  @Test
  void a_baseline_that_is_cut_at_the_end_of_a_line_is_none() throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    session.run("check", "book.aspects", "--write-baseline", "known.txt");
    String whole = Files.readString(folder.resolve("known.txt"));
    assertThat(whole.lines().count()).isGreaterThan(2);
    for (int end = 0; end < whole.length() - 1; end++) {
      if (end == 0 || whole.charAt(end - 1) == '\n') {
        Files.writeString(folder.resolve("known.txt"), whole.substring(0, end));
        assertThat(said(session, "--baseline", "known.txt")).contains("not a whole one");
      }
    }
  }

  @Test
  void a_baseline_written_with_another_drops_what_is_gone_and_takes_in_nothing_new()
      throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    session.run("check", "book.aspects", "--write-baseline", "known.txt");
    book(
        BOOK.replace("on one show yellow", "on one show yellow  rule 5")
            .replace("\"Go\"    { allows normal then stop", "\"Go\"    { allows normal then normal")
            .replace("show red", "show green"));
    String[] both = {
      "check", "book.aspects", "--baseline", "known.txt", "--write-baseline", "less/known.txt"
    };
    Files.createDirectory(folder.resolve("less"));
    assertThat(session.run(both)).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).contains("[twin-aspects]");
    assertThat(session.err()).contains("is gone", "less/known.txt: ");
    assertThat(Files.readString(folder.resolve("less/known.txt")))
        .doesNotContain("twin-aspects", "two-names-one-meaning");
    book(BOOK);
    session.run("check", "book.aspects", "--baseline", "less/known.txt");
    assertThat(session.out()).contains("[two-names-one-meaning]");
  }

  @Test
  void what_is_wrong_with_a_baseline_names_it_as_it_was_given() throws IOException {
    Session session = new Session(folder);
    book(BOOK);
    Files.createDirectory(folder.resolve("known"));
    Files.write(folder.resolve("bytes"), new byte[] {(byte) 0xff, (byte) 0xfe});
    assertThat(said(session, "--baseline", "known")).startsWith("doublet: known: this is a folder");
    assertThat(said(session, "--baseline", "bytes")).startsWith("doublet: bytes: this is no base");
    assertThat(said(session, "--baseline", "none")).startsWith("doublet: none: there is no such");
    assertThat(said(session, "--write-baseline", "known"))
        .startsWith("doublet: known: this is a folder");
    assertThat(said(session, "--write-baseline", "no/known"))
        .isEqualTo("doublet: no/known: there is no folder to write it into\n");
  }

  private static String said(Session session, String option, String file) {
    assertThat(session.run("check", "book.aspects", option, file)).isEqualTo(Main.COULD_NOT_RUN);
    return session.err();
  }

  private void book(String text) throws IOException {
    Files.writeString(folder.resolve("book.aspects"), text);
  }
}
