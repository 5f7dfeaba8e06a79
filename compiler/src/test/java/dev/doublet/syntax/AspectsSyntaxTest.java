package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Trees with exact places, and texts of any kind read in sensible time. */
class AspectsSyntaxTest {

  private static Tree tree(String text) {
    Outcome<Tree> outcome = AspectsSyntax.parse(new SourceFile("book.aspects", text));
    assertThat(outcome.diagnostics()).isEmpty();
    return outcome.value().orElseThrow();
  }

  private static List<Diagnostic> mistakes(String text) {
    return AspectsSyntax.parse(new SourceFile("book.aspects", text)).diagnostics();
  }

  @Test
  void keepsTheExactPlaceOfEveryDeclaration() {
    String colours = "colours { red,\n  # the other\n  green }";
    String plate = "plate L";
    Tree tree = tree("  " + colours + "# 🚦 end\n\n" + plate + " ");
    assertThat(tree.declarations())
        .extracting(d -> d.span().text())
        .containsExactly(colours, plate);
  }

  @Test
  void keepsCommentsInOrder() {
    Tree tree = tree("# first\r\nplate L # second \"\n#\n");
    assertThat(tree.comments())
        .extracting(Comment::text)
        .containsExactly("# first", "# second \"", "#");
    assertThat(tree.comments())
        .extracting(c -> c.span().text())
        .containsExactly("# first", "# second \"", "#");
    assertThat(tree.comments().get(1).span().from().line()).isEqualTo(2);
  }

  @Test
  void findsPlacesAfterCharactersOutsideTheBasicPlane() {
    Tree tree = tree("rulebook \"🚂🚃 line\" edition 7 plate 𝔏");
    Tree.BookLine line = (Tree.BookLine) tree.declarations().get(0);
    assertThat(line.title().text()).isEqualTo("🚂🚃 line");
    assertThat(line.editions().get(0).span().text()).isEqualTo("7");
    Tree.Plates plates = (Tree.Plates) tree.declarations().get(1);
    assertThat(plates.names().get(0).span().text()).isEqualTo("𝔏");
  }

  @Test
  void takesComposedAndDecomposedLettersForTheSame() {
    Tree.Plates plates = (Tree.Plates) tree("plate e\u0301, \u00e9").declarations().get(0);
    assertThat(plates.names()).extracting(Word::text).containsExactly("\u00e9", "\u00e9");
  }

  @Test
  void skipsAByteOrderMarkAndAnyLineEnd() {
    assertThat(tree("\uFEFFplate L\rplate M\r\nplate N\n").declarations()).hasSize(3);
  }

  @Test
  void tellsAStopFollowedByASpeedFromAStopAhead() {
    Tree.Aspect aspect =
        (Tree.Aspect)
            tree("aspect \"A\" { allows stop, then slow allows stop then slow }")
                .declarations()
                .get(0);
    Tree.Allows stand = aspect.allows().get(0);
    assertThat(stand.here().stops()).isTrue();
    assertThat(stand.here().speed().get(0).name().text()).isEqualTo("slow");
    assertThat(stand.next()).isEmpty();
    Tree.Allows stop = aspect.allows().get(1);
    assertThat(stop.here().speed()).isEmpty();
    assertThat(stop.next().get(0).speed().get(0).name().text()).isEqualTo("slow");
  }

  @Test
  void keepsWhatCouldBeReadInSpiteOfMistakes() {
    Outcome<Tree> outcome =
        AspectsSyntax.parse(
            new SourceFile("book.aspects", "use \"a\"\nhead { { }\nuse \"b\"\nplate\n"));
    assertThat(outcome.diagnostics()).hasSize(2);
    assertThat(outcome.value().orElseThrow().declarations())
        .filteredOn(Tree.Use.class::isInstance)
        .extracting(d -> ((Tree.Use) d).path().text())
        .containsExactly("a", "b");
  }

  @Test
  @Timeout(10)
  void refusesTenMillionCharactersOnOneLineInOneMessage() {
    List<Diagnostic> said = mistakes("colours { " + "red ".repeat(2_500_000) + "}");
    assertThat(said).extracting(Diagnostic::name).containsExactly("not-text");
  }

  @Test
  @Timeout(10)
  void readsTheLongestText() {
    String line = "plate x # ";
    String text = line + "y".repeat(AspectsSyntax.LONGEST - line.length());
    assertThat(tree(text).declarations()).hasSize(1);
    assertThat(mistakes(text + "y")).hasSize(1);
  }

  @Test
  @Timeout(10)
  void takesNoLongerOverAnEndlessWord() {
    String word = "x".repeat(2_000_000);
    assertThat(mistakes(word)).hasSize(1);
    assertThat(mistakes("plate L\nplate 1" + word + " " + word)).hasSizeBetween(1, 3);
  }

  @Tag("slow")
  @ParameterizedTest
  @ValueSource(
      strings = {"(", "((red) or ", "{", "[", "\"{\n", "a ", ",", "aspect ", "aspect \"A\" { "})
  @Timeout(20)
  void staysQuickOnNonsenseOfAnyKind(String nonsense) {
    String start = "aspect \"A\" { on one-head show ";
    int times = 200_000 / nonsense.length();
    assertThat(mistakes(start + nonsense.repeat(times))).isNotEmpty();
    assertThat(mistakes(nonsense.repeat(times))).isNotEmpty();
  }

  @Test
  void takesFiveThousandBracketsForOneMistake() {
    String deep = "(".repeat(5_000) + "red" + ")".repeat(5_000);
    String text = "aspect \"A\" { allows stop on one-head show " + deep + " number 5 }\nplate L";
    assertThat(mistakes(text))
        .extracting(Diagnostic::message)
        .containsExactly("brackets cannot stand inside brackets");
    assertThat(mistakes("{".repeat(5_000) + "}".repeat(5_000))).hasSize(1);
  }

  @Tag("slow")
  @Test
  @Timeout(20)
  void givesUpOnEndlessMistakes() {
    List<Diagnostic> said = mistakes("aspcet \"A\" { alows stop }\n".repeat(50_000));
    assertThat(said).hasSizeBetween(50, 400);
    assertThat(said.get(said.size() - 1).message()).isEqualTo("reading was given up here");
  }

  @ParameterizedTest
  @ValueSource(strings = {"\u0000", "\u0001", "\u001b", "\u007f", "\u0085", "\ud83d", "\udea6"})
  void refusesWhatIsNoText(String character) {
    assertThat(mistakes("plate L\n" + character + " plate M ("))
        .extracting(Diagnostic::name)
        .containsExactly("not-text");
  }

  @Test
  @Timeout(20)
  void readsTwoThousandAspects() {
    StringBuilder text = new StringBuilder();
    for (int i = 0; i < 2_000; i++) {
      text.append("aspect \"A ").append(i).append("\" {\n  rule ").append(i).append("\n");
      text.append("  indicates \"Proceed prepared to stop.\"\n  allows normal then slow\n");
      text.append("  on one-head, low show green or flashing yellow\n");
      text.append("  on two-head with number plate show red over (flashing red or dark)\n}\n");
    }
    assertThat(tree(text.toString()).declarations()).hasSize(2_000);
  }
}
