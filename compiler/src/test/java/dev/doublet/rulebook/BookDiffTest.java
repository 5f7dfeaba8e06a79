package dev.doublet.rulebook;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diff.Changes;
import dev.doublet.diff.Consequence;
import dev.doublet.diff.Event;
import dev.doublet.golden.Edition;
import java.util.Map;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/** What holds of the changes of any rulebook. */
class BookDiffTest {

  @Property(tries = 60, seed = "1957")
  void a_book_has_not_changed_from_itself(@ForAll long start) {
    Handwriting hand = new Handwriting(start);
    String text = hand.text(hand.declarations(new RandomBook(start).book()));
    assertThat(changes(text, text).events()).isEmpty();
  }

  /** Declarations and their white space in another order, comments elsewhere. */
  @Property(tries = 100, seed = "1957")
  void a_book_written_down_anew_differs_in_text_alone(@ForAll long start, @ForAll long other) {
    Rulebook book = new RandomBook(start).book();
    Handwriting one = new Handwriting(start);
    Handwriting another = new Handwriting(other);
    Changes changes =
        changes(one.text(one.declarations(book)), another.text(another.declarations(book)));
    assertThat(changes.events())
        .as("%s", changes.events().stream().map(Event::sentence).toList())
        .allMatch(e -> e.consequence() == Consequence.TEXT);
  }

  private static Changes changes(String old, String now) {
    return Edition.changes(
        new Edition(Map.of("book.aspects", old)), new Edition(Map.of("book.aspects", now)));
  }
}
