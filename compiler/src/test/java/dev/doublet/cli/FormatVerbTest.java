package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Files set in their form, as somebody would from the command line. */
class FormatVerbTest {
  private static final String ROUGH = "form  one {top}  # a head\nform two-head{ top bottom }";
  private static final String FORMED =
      "form one      { top }   # a head\nform two-head { top bottom }\n";

  @TempDir private Path folder;
  private Session session;
  private Path book;

  @BeforeEach
  void write() throws IOException {
    session = new Session(folder);
    book = folder.resolve("book.aspects");
    Files.writeString(book, ROUGH);
  }

  private long files() throws IOException {
    try (Stream<Path> list = Files.list(folder)) {
      return list.count();
    }
  }

  @Test
  void aFileIsSetInItsFormAndThenStays() throws IOException {
    assertThat(session.run("format", "book.aspects")).isZero();
    assertThat(session.out()).isEqualTo("book.aspects\n1 file formatted, 0 are in their form\n");
    assertThat(book).hasContent(FORMED);
    Object key = Files.getLastModifiedTime(book);
    assertThat(session.run("format", "book.aspects")).isZero();
    assertThat(session.out()).isEqualTo("0 files formatted, 1 is in its form\n");
    assertThat(Files.getLastModifiedTime(book)).isEqualTo(key);
    assertThat(files()).isEqualTo(1);
  }

  @Test
  void aCheckWritesNothingAndFailsWhereSomethingWouldChange() throws IOException {
    assertThat(session.run("format", "--check", ".")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).isEqualTo("book.aspects\n1 file would change, 0 are in their form\n");
    assertThat(book).hasContent(ROUGH);
    Files.writeString(book, FORMED);
    assertThat(session.run("format", "--check", ".")).isZero();
  }

  @Test
  void aFolderGivesItsLayoutsAndAlsoBooksThatOthersUse() throws IOException {
    Files.writeString(folder.resolve("layout.yaml"), "layout:  A\n");
    Files.writeString(folder.resolve("other.yaml"), "a:  b\n");
    assertThat(session.run("format", ".")).isZero();
    assertThat(session.out()).startsWith("book.aspects\nlayout.yaml\n2 files formatted");
    assertThat(folder.resolve("layout.yaml")).hasContent("layout: A\n");
    assertThat(folder.resolve("other.yaml")).hasContent("a:  b\n");
  }

  @ParameterizedTest
  @ValueSource(strings = {"form one {top", "form one {\"top\"}", "\u0001"})
  void aBrokenFileStaysAndTheOthersAreFormatted(String broken) throws IOException {
    Path bad = folder.resolve("bad.aspects");
    Files.writeString(bad, broken);
    assertThat(session.run("format", ".")).isEqualTo(Main.FINDINGS);
    assertThat(session.out()).isEqualTo("book.aspects\n1 file formatted, 0 are in their form\n");
    assertThat(session.err()).contains("error", "bad.aspects is left as it is: it cannot be read");
    assertThat(bad).hasContent(broken);
  }

  @Test
  void aBrokenLayoutStays() throws IOException {
    Path layout = folder.resolve("layout.yaml");
    Files.writeString(layout, "layout:  A\nbuses: {a\n");
    assertThat(session.run("format", "layout.yaml")).isEqualTo(Main.FINDINGS);
    assertThat(session.err()).contains("[yaml-syntax]", "is left as it is");
    assertThat(layout).hasContent("layout:  A\nbuses: {a\n");
  }

  @Test
  void standardInputComesOutAsItIsButForWhiteSpace() {
    assertThat(session.with(ROUGH + "#\u202E").run("format", "-", "--as", "aspects")).isZero();
    assertThat(session.out())
        .as("a program gets every letter, also one that no terminal shows")
        .isEqualTo(
            "form one      { top }          # a head\nform two-head { top bottom }   #\u202E\n");
    assertThat(session.with("layout:  A").run("format", "--as", "layout", "-")).isZero();
    assertThat(session.out()).isEqualTo("layout: A\n");
    assertThat(session.err()).isEmpty();
  }

  @Test
  void brokenInputGivesNothing() {
    assertThat(session.with("form {").run("format", "-", "--as", "aspects")).isEqualTo(1);
    assertThat(session.out()).isEmpty();
    assertThat(session.err()).contains("standard input:1:6  error");
  }

  @Test
  void a_file_of_neither_language_is_refused() throws IOException {
    Files.writeString(folder.resolve("notes.txt"), "form   one { top }\n");
    assertThat(session.run("format", "notes.txt")).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err())
        .isEqualTo("doublet: notes.txt: this is no rulebook (.aspects) and no layout (.yaml)\n");
    assertThat(Files.readString(folder.resolve("notes.txt"))).isEqualTo("form   one { top }\n");
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "-",
        "- --check --as aspects",
        "- book.aspects --as aspects",
        "book.aspects --lines 0:1",
        "book.aspects --lines 1",
        "book.aspects --lines 1:x",
        "book.aspects --lines 9:3",
        ". --lines 1:2",
        "book.aspects nowhere.aspects",
        "nowhere",
        "- --as text",
        "book.txt"
      })
  void whatMakesNoSenseIsRefused(String arguments) throws IOException {
    assertThat(session.run(("format " + arguments).split(" "))).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err()).isNotEmpty();
    assertThat(book).hasContent(ROUGH);
  }

  @Test
  void onlyTheLinesThatWereAskedForChange() throws IOException {
    assertThat(session.run("format", "book.aspects", "--lines", "2:2")).isZero();
    assertThat(book).hasContent("form  one {top}  # a head\nform two-head { top bottom }\n");
  }

  @Test
  void theMarkOfTheEncodingAndTheWayLinesEndAreNoMatterOfForm() throws IOException {
    Files.writeString(book, "\uFEFF" + FORMED.replace("\n", "\r\n"));
    assertThat(session.run("format", "--check", "book.aspects")).isZero();
    Files.writeString(book, "\uFEFF" + ROUGH.replace("\n", "\r\n"));
    assertThat(session.run("format", "book.aspects")).isZero();
    assertThat(Files.readString(book)).isEqualTo("\uFEFF" + FORMED.replace("\n", "\r\n"));
  }

  @Test
  void noLinkIsWrittenThrough() throws IOException {
    Path link = folder.resolve("link.aspects");
    Files.createSymbolicLink(link, Path.of("book.aspects"));
    assertThat(session.run("format", "link.aspects")).isEqualTo(Main.COULD_NOT_RUN);
    assertThat(session.err()).contains("link.aspects: this is a link");
    assertThat(link).isSymbolicLink();
    assertThat(book).hasContent(ROUGH);
    assertThat(files()).isEqualTo(2);
  }

  @Test
  void permissionsStay() throws IOException {
    Files.setPosixFilePermissions(book, PosixFilePermissions.fromString("rwxr-x--x"));
    assertThat(session.run("format", "book.aspects")).isZero();
    assertThat(PosixFilePermissions.toString(Files.getPosixFilePermissions(book)))
        .isEqualTo("rwxr-x--x");
  }
}
