package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.time.DateTimeException;
import java.time.LocalDate;
import java.util.List;

/** Reads the first line of a rulebook: which book it is, and since when. */
final class BookLineResolving {
  private final Scope scope;

  BookLineResolving(Scope scope) {
    this.scope = scope;
  }

  /**
   * The line that counts; one that says nothing where there is none.
   *
   * @param lines all that were read
   * @param root the file that was asked for
   */
  Tree.BookLine line(List<Tree.BookLine> lines, Tree root) {
    // Tests of a book are read as part of it, under its own first line.
    List<Tree.BookLine> own =
        root.isTest() && lines.size() == 1
            ? lines
            : lines.stream().filter(l -> l.span().file() == root.file()).toList();
    for (Tree.BookLine line : lines) {
      if (!own.isEmpty() && line != own.get(0)) {
        boolean here = line.span().file() == root.file();
        scope.mistakes.duplicate(
            line.span(),
            here
                ? "the rulebook has a second first line"
                : "a file that another one uses has a rulebook line of its own",
            own.get(0).span(),
            "everything read together is one rulebook, with one title and one edition.",
            here ? "remove one of the two." : "move what both need into a file without one.");
      }
    }
    if (own.isEmpty()) {
      Word none = new Word("", root.file().span(0, 0));
      return new Tree.BookLine(none, List.of(), List.of(), none.span());
    }
    return own.get(0);
  }

  /** The edition; 0 where it is not said. */
  int edition(Tree.BookLine line) {
    once(line.editions(), "edition");
    return line.editions().isEmpty()
        ? 0
        : scope
            .number(
                line.editions().get(0), "an edition", 0, 65_535, "a table has sixteen bits for it.")
            .orElse(0);
  }

  /** The day from which the book holds; empty where it is not said. */
  String effective(Tree.BookLine line) {
    once(line.dates(), "date");
    if (line.dates().isEmpty()) {
      return "";
    }
    Word date = line.dates().get(0);
    try {
      return LocalDate.parse(date.text()).toString();
    } catch (DateTimeException notADay) {
      scope.mistakes.wrong(
          "malformed-value",
          date.span(),
          "there is no day {day}",
          "a rulebook holds from one day on.",
          "write year, month and day, as in 1957-06-01.",
          Datum.of("day", date.text()));
      return "";
    }
  }

  private void once(List<Word> words, String what) {
    if (words.size() > 1) {
      scope.mistakes.duplicate(
          words.get(1).span(),
          "the rulebook has more than one {fact}",
          words.get(0).span(),
          "a rulebook has one of each.",
          "remove all but one.",
          Datum.of("fact", what));
    }
  }
}
