package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Tier;
import dev.doublet.golden.Case;
import dev.doublet.source.SourceFile;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/** One word too few or too many, anywhere, is one message. */
@Tag("slow")
class OneMistakeOneMessageTest {
  private static final Path EVERYTHING = Path.of("src/test/resources/cases/language/everything.md");
  private static final Pattern WORD =
      Pattern.compile("(#[^\n]*)|\"[^\"\n]*\"|[\\p{L}\\p{N}_/-]+|[{}(),]");

  private final String book =
      String.join("", Case.of(EVERYTHING).files().values()).replaceFirst("use \"[^\n]*", "");
  private final List<MatchResult> words =
      WORD.matcher(book).results().filter(m -> m.group(1) == null).toList();

  @Test
  void aWordTooFewIsNearlyAlwaysOneMessage() {
    List<Integer> counts = new ArrayList<>();
    for (MatchResult word : words) {
      counts.add(messages(book.substring(0, word.start()) + book.substring(word.end())));
    }
    assertMostlyOne(counts);
  }

  @Test
  void aWordWrittenTwiceIsNearlyAlwaysOneMessage() {
    List<Integer> counts = new ArrayList<>();
    for (MatchResult word : words) {
      counts.add(messages(book.substring(0, word.end()) + " " + book.substring(word.start())));
    }
    assertMostlyOne(counts);
  }

  /** Some words can be missed only so that what follows means something else. */
  private static void assertMostlyOne(List<Integer> counts) {
    assertThat(counts).allMatch(count -> count <= 2);
    long several = counts.stream().filter(count -> count > 1).count();
    assertThat(several).isLessThan(counts.size() * 3L / 100);
    assertThat(counts.stream().filter(count -> count == 1).count())
        .isGreaterThan(counts.size() / 2);
  }

  private static int messages(String text) {
    return (int)
        RulebookResolver.resolve("book.aspects", path -> new SourceFile("book.aspects", text))
            .diagnostics()
            .stream()
            .filter(d -> d.tier() == Tier.SYNTAX)
            .count();
  }
}
