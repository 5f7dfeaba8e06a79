package dev.doublet.format;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.rulebook.RandomWords;
import dev.doublet.source.SourceFile;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;
import org.junit.jupiter.api.Test;

/** What holds of the form of every rulebook, wherever its author put white space and comments. */
class RulebookFormTest {

  private static SourceFile file(String text) {
    return new SourceFile("book.aspects", text);
  }

  private static List<Spacing> changes(String text) {
    Outcome<List<Spacing>> outcome = Format.changes(Format.Language.ASPECTS, file(text));
    assertThat(outcome.diagnostics()).as(text).isEmpty();
    return outcome.value().orElseThrow(() -> new AssertionError("refused: " + text));
  }

  private static String format(String text) {
    return Format.apply(file(text), changes(text));
  }

  /** All that is read of a text but the places. */
  private static String meaning(String text) {
    Outcome<Tree> read = AspectsSyntax.parse(file(text));
    assertThat(read.diagnostics()).as(text).isEmpty();
    List<Tree.Declaration> declarations = read.value().orElseThrow().declarations();
    return declarations.toString().replaceAll("start=\\d+, end=\\d+", "");
  }

  @Test
  void the_example_of_its_page_is_in_this_form() throws IOException {
    String page = Files.readString(Path.of("src/main/java/dev/doublet/format/form.md"));
    String example = page.split("```\n")[1];
    assertThat(format(example)).isEqualTo(example);
  }

  @Property(tries = 100, seed = "1957")
  void noWordAndNoCommentIsLostOrMoved(@ForAll long start) {
    String text = new Scatter(start).text(RandomWords.of(start));
    String formatted = format(text);
    assertThat(Pieces.of(formatted)).as(text).isEqualTo(Pieces.of(text));
    assertThat(meaning(formatted)).isEqualTo(meaning(text));
  }

  @Property(tries = 100, seed = "1958")
  void aTextInItsFormStaysAsItIs(@ForAll long start) {
    String formatted = format(new Scatter(start).text(RandomWords.of(start)));
    assertThat(format(formatted)).isEqualTo(formatted);
    assertThat(changes(formatted)).isEmpty();
  }

  @Property(tries = 100, seed = "1959")
  void whichBlanksStandInALineMeansNothing(@ForAll long start) {
    Scatter scatter = new Scatter(start);
    String formatted = format(scatter.text(RandomWords.of(start))).replace("\r\n", "\n");
    assertThat(format(scatter.blanks(formatted))).isEqualTo(formatted);
  }

  @Property(tries = 100, seed = "1960")
  void linesEndAlikeAndBearNothingAtTheirEnds(@ForAll long start) {
    String text = new Scatter(start).text(RandomWords.of(start));
    String formatted = format(text);
    boolean windows = text.indexOf('\n') > 0 && text.charAt(text.indexOf('\n') - 1) == '\r';
    String lines = windows ? formatted.replace("\r\n", "\n") : formatted;
    assertThat(lines)
        .doesNotContain("\r", " \n", "\n\n\n", "\uFEFF")
        .endsWith("\n")
        .doesNotStartWith("\n")
        .doesNotContain("\n\n}");
    String before = "";
    for (String line : lines.split("\n")) {
      int remark = line.indexOf('#');
      String code = remark < 0 ? line : line.substring(0, remark);
      assertThat(code).doesNotContain("\t", "\u00A0", "\u000B", "\f");
      assertThat(line.isEmpty() && before.endsWith("{")).isFalse();
      before = code;
    }
  }

  /** An editor may make any of them and leave the others. */
  @Property(tries = 50, seed = "1961")
  void eachChangeStandsForItself(@ForAll long start) {
    Scatter scatter = new Scatter(start);
    String text = scatter.text(RandomWords.of(start));
    List<Spacing> changes = changes(text);
    String partly = Format.apply(file(text), scatter.some(changes));
    assertThat(Pieces.of(partly)).isEqualTo(Pieces.of(text));
    assertThat(meaning(partly)).isEqualTo(meaning(text));
    for (Spacing change : changes) {
      assertThat(change.span().text()).isNotEqualTo(change.text());
      assertThat(Pieces.of(change.span().text()))
          .as("nothing but white space is changed")
          .isEmpty();
    }
  }

  @Property(tries = 10, seed = "1962")
  void theChangesOfAllLinesAreAllChanges(@ForAll long start) {
    SourceFile file = file(new Scatter(start).text(RandomWords.of(start)));
    List<Spacing> byLine = new ArrayList<>();
    for (int line = 1; line <= file.lineCount(); line++) {
      byLine.addAll(
          Format.changes(Format.Language.ASPECTS, file, line, line).value().orElseThrow());
    }
    Outcome<List<Spacing>> all = Format.changes(Format.Language.ASPECTS, file);
    assertThat(byLine).isEqualTo(all.value().orElseThrow());
  }

  @Tag("slow")
  @Property(tries = 1000, seed = "1963")
  void allThatHoldsOfAFew(@ForAll long start) {
    noWordAndNoCommentIsLostOrMoved(start);
    aTextInItsFormStaysAsItIs(start);
    whichBlanksStandInALineMeansNothing(start);
    linesEndAlikeAndBearNothingAtTheirEnds(start);
  }

  @Test
  void brokenTextIsLeftWithWhatIsWrongWithIt() {
    Outcome<List<Spacing>> outcome =
        Format.changes(Format.Language.ASPECTS, file("form  one { top }\naspect Clear { }\n"));
    assertThat(outcome.value()).isEmpty();
    assertThat(outcome.diagnostics()).extracting(d -> d.name()).containsOnly("syntax");
  }

  @Test
  void nothingButWhiteSpaceIsAnEmptyText() {
    assertThat(format("")).isEmpty();
    assertThat(format(" \n\t\r\n \uFEFF")).isEmpty();
    assertThat(format("#")).isEqualTo("#\n");
    assertThat(format("  # one\r\n\r\n\r\n# two")).isEqualTo("# one\r\n\r\n# two\r\n");
  }

  /** Letters are counted as people and terminals count them, not as Java does. */
  @Test
  void lettersOutsideTheBasicPlaneAreOneColumnWide() {
    assertThat(format("form \ud835\udd0f { a }\nform xy { b }\n"))
        .isEqualTo("form \ud835\udd0f  { a }\nform xy { b }\n");
    String most = "form x { " + "\ud835\udd0f".repeat(89) + " }\n";
    assertThat(most.trim().codePointCount(0, most.length() - 1)).isEqualTo(100);
    assertThat(format(most)).isEqualTo(most);
    assertThat(format(most.replace(" }", "y }"))).contains("{\n  ");
  }
}
