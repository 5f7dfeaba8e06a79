package dev.doublet.syntax;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.grammar.AspectsParser;
import dev.doublet.source.SourceFile;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import org.junit.jupiter.api.Test;

/** Texts as lexemes with the parts that they bound. */
class LexemesTest {

  @Test
  void partsAreRulesOfTheGrammarAndAllRulesHaveABit() {
    List<String> rules = List.of(AspectsParser.ruleNames);
    assertThat(Arrays.stream(Part.values()).filter(part -> part != Part.FACT))
        .allMatch(part -> rules.contains(part.name().toLowerCase(Locale.ROOT)));
    assertThat(rules).hasSizeLessThan(Long.SIZE);
  }

  @Test
  void factsAreWhatStandsBetweenBraces() {
    assertThat(facts("form one in line { top, bottom } without stop"))
        .containsExactly("top", "bottom");
    assertThat(facts("head x with filament { lamp a, b shows red  figure y lights a in red }"))
        .containsExactly("lamp", "figure");
    assertThat(facts("colours as road { red, clear as green }")).containsExactly("red", "clear");
    assertThat(facts("speeds in mph { line 5 on sight  rule maximum }"))
        .containsExactly("line", "rule");
    assertThat(
            facts(
                "aspect \"A\" { rule 1 number 2 on one show (red or dark) as \"B\" with L plate }"))
        .containsExactly("rule", "number", "on", "as");
    assertThat(facts("plate a, b turns slow into stop")).isEmpty();
  }

  private static List<String> facts(String text) {
    return Lexemes.of(new SourceFile("book.aspects", text)).orElseThrow().stream()
        .filter(lexeme -> lexeme.opens(Part.FACT))
        .map(Lexeme::text)
        .toList();
  }

  @Test
  void lexemesAndTheGapsBetweenThemAreTheText() {
    SourceFile file =
        new SourceFile("book.aspects", "# \ud83d\udea6 \u00A0\nplate \ud835\udd0f#x\r\nuse\"a\"");
    assertThat(Lexemes.of(file).orElseThrow())
        .as("a comment without the blanks at its end")
        .extracting(Lexeme::text)
        .containsExactly("# \ud83d\udea6", "plate", "\ud835\udd0f", "#x", "use", "\"a\"");
    assertThat(Lexemes.of(file).orElseThrow())
        .allMatch(lexeme -> lexeme.span().text().equals(lexeme.text()));
  }
}
