package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fix;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Each word of the language, misspelt wherever it stands, is one mistake with the right fix. */
class MisspeltWordsTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern" edition 3 effective 1957-06-01
      speeds in mph { normal maximum  limited 45  restricted 15 on sight  as-told unranked }
      colours { red yellow green lunar amber }
      rhythms { flashing 50 per minute   winking 100 per minute lit 30 percent starting dark }
      head searchlight with filament and vane red { lamp main shows red, yellow, green, lunar  lamp lower shows amber
                         figure proceed lights main in green, lower }
      form one-head { top }
      form two-head staggered { top, bottom }
      form ground dwarf { top, bottom }
      form arm bracket { top, bottom }
      form plain in line { top, bottom }
      form distant { top } without stop
      plate R turns limited into restricted
      plate P, Q
      aspect "Clear" {
        rule 201
        number 9
        indicates "Proceed at normal speed."
        allows normal then normal then limited at the second signal
        on one-head, distant show proceed or flashing green
        on two-head, ground show winking green over dark
        on two-head with P plate show any over red or dark over (flashing red or dark)
        on plain, arm with P and Q plates show red over lunar
      }
      aspect "Clear to Restricted" { as "Clear" with R plate except proceed or any over red or dark over (flashing red or dark) }
      accept two-names-one-meaning of "Clear" and winking on ground because "both"
      expect red over lunar on arm, plain with P and Q plates means "Clear"
      expect winking green over dark on arm means nothing
      expect "Clear" less restrictive than "Stop"
      expect "Stop" more restrictive than "Clear"
      expect "Clear" and "Clear to Restricted" in no known order
      aspect "Stop" { allows stop, then restricted then as-told  on one-head show red }
      """;

  /** Names of the book, and words of the unit, that are near no other. */
  private static final Set<String> NAMES =
      Set.of(
          "normal limited restricted as-told red yellow green lunar amber flashing winking"
              .split(" "));

  private static final Set<String> MORE_NAMES =
      Set.of(
          "two-names-one-meaning searchlight main lower proceed one-head top two-head bottom ground arm plain distant P Q R"
              .split(" "));

  /** One way to misspell one word of the book. */
  record Misspelling(String word, int at, String wrong) {
    String text() {
      return BOOK.substring(0, at) + wrong + BOOK.substring(at + word.length());
    }

    @Override
    public String toString() {
      return wrong + " for " + word + " at " + at;
    }
  }

  static List<Misspelling> misspellings() {
    String masked =
        Pattern.compile("\"[^\"\n]*\"")
            .matcher(BOOK)
            .replaceAll(m -> "\"" + ".".repeat(m.group().length() - 2) + "\"");
    List<Misspelling> all = new ArrayList<>();
    Pattern.compile("[A-Za-z][A-Za-z/-]*").matcher(masked).results().forEach(m -> misspell(m, all));
    return all;
  }

  private static void misspell(MatchResult match, List<Misspelling> all) {
    String word = match.group();
    if (NAMES.contains(word) || MORE_NAMES.contains(word)) {
      return;
    }
    int middle = word.length() / 2;
    List<String> wrong = new ArrayList<>();
    wrong.add(word.substring(0, middle) + word.charAt(middle) + word.substring(middle));
    if (word.length() > 3) {
      wrong.add(word.substring(0, middle) + word.substring(middle + 1));
      char[] swapped = word.toCharArray();
      swapped[middle] = word.charAt(middle - 1);
      swapped[middle - 1] = word.charAt(middle);
      wrong.add(new String(swapped));
      wrong.add(word.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + word.substring(1));
    }
    wrong.removeIf(word::equals);
    wrong.forEach(w -> all.add(new Misspelling(word, match.start(), w)));
  }

  @ParameterizedTest
  @MethodSource("misspellings")
  void isOneMistakeWithTheRightFix(Misspelling misspelling) {
    List<Diagnostic> said = resolve(misspelling.text());
    assertThat(said).hasSize(1);
    Fix fix = said.get(0).fixes().get(0);
    String mended =
        misspelling.text().substring(0, fix.edits().get(0).span().start())
            + fix.edits().get(0).replacement()
            + misspelling.text().substring(fix.edits().get(0).span().end());
    assertThat(mended).isEqualTo(BOOK);
  }

  @Test
  void theBookItselfIsCorrect() {
    assertThat(resolve(BOOK)).isEmpty();
    assertThat(misspellings()).hasSizeGreaterThan(200);
  }

  private static List<Diagnostic> resolve(String text) {
    return RulebookResolver.resolve("book.aspects", path -> new SourceFile(path, text))
        .diagnostics();
  }
}
