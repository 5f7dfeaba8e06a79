package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Severity;
import dev.doublet.source.Mentions;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Tag;

/** What holds of every rulebook, whatever it says and however it is laid out. */
class RulebookPropertiesTest {

  @Tag("slow")
  @Property(tries = 300, seed = "1957")
  void aBookWrittenDownIsReadAsTheSameBook(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    Handwriting hand = new Handwriting(start);
    String text = hand.text(hand.declarations(book));
    assertSame(resolve(text), book);
  }

  @Property(tries = 100, seed = "1957")
  void theOrderOfDeclarationsAndTheirFilesMeansNothing(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    Handwriting hand = new Handwriting(start);
    List<List<String>> declarations = new ArrayList<>(hand.declarations(book));
    List<List<String>> elsewhere = new ArrayList<>();
    declarations.removeIf(
        d -> !d.get(0).equals("rulebook") && d.size() % 2 == 0 && elsewhere.add(d));
    declarations.add(List.of("use", "\"parts/other.aspects\""));
    Collections.shuffle(declarations, new Random(start));
    String root = hand.text(declarations);
    String other = hand.text(elsewhere);
    Outcome<Rulebook> outcome =
        RulebookResolver.resolve(
            "a/book.aspects",
            path -> new SourceFile(path, path.equals("a/parts/other.aspects") ? other : root));
    assertSame(outcome, book);
  }

  @Property(tries = 300, seed = "1957")
  void aWordTakenAwayOrDoubledNeverBreaksTheReader(@ForAll long start) {
    Rulebook book = new RandomBook(start).book();
    Handwriting hand = new Handwriting(start);
    List<List<String>> declarations = new ArrayList<>(hand.declarations(book));
    Random choice = new Random(start);
    int broken = choice.nextInt(declarations.size());
    List<String> words = new ArrayList<>(declarations.get(broken));
    int at = choice.nextInt(words.size());
    String word = words.remove(at);
    if (choice.nextBoolean()) {
      words.addAll(at, List.of(word, word));
    }
    declarations.set(broken, words);
    Outcome<Rulebook> outcome = resolve(hand.text(declarations));
    for (Diagnostic diagnostic : outcome.diagnostics()) {
      assertThat(diagnostic.message()).doesNotEndWith(" ");
      assertThat(diagnostic.message()).doesNotContain("expected ,");
      assertThat(diagnostic.name()).isNotEqualTo("not-text");
    }
    assertThat(outcome.value().orElseThrow().isWhole()).isNotEqualTo(outcome.hasErrors());
  }

  private static Outcome<Rulebook> resolve(String text) {
    return RulebookResolver.resolve("book.aspects", path -> new SourceFile(path, text));
  }

  private static void assertSame(Outcome<Rulebook> outcome, Rulebook book) {
    assertThat(outcome.diagnostics())
        .filteredOn(d -> d.severity() != Severity.NOTE)
        .extracting(Diagnostic::message)
        .isEmpty();
    assertThat(outcome.value().orElseThrow())
        .usingRecursiveComparison()
        .ignoringFieldsOfTypes(Span.class, Mentions.class)
        .isEqualTo(book);
  }
}
