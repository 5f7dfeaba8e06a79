package dev.doublet.layout.read;

import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Numbers for aspects of a rulebook that have none: the lowest free ones, and 0 for none but the
 * most restrictive aspect of the book.
 *
 * @param numbers by aspect, in the order given
 */
record AspectNumbers(Map<Aspect, Integer> numbers) {

  static AspectNumbers of(Rulebook book, List<Aspect> numberless) {
    BitSet taken = new BitSet();
    book.aspects().stream()
        .filter(a -> a.number() != Aspect.NO_NUMBER)
        .forEach(a -> taken.set(a.number()));
    Optional<Aspect> stop =
        Rulebook.mostRestrictive(book.aspects())
            .filter(numberless::contains)
            .filter(s -> !taken.get(0));
    taken.set(0);
    Map<Aspect, Integer> numbers = new LinkedHashMap<>();
    for (Aspect aspect : numberless) {
      boolean first = stop.equals(Optional.of(aspect));
      int number = first ? 0 : taken.nextClearBit(0);
      taken.set(number);
      numbers.put(aspect, number);
    }
    return new AspectNumbers(numbers);
  }

  /** What to give them: ""Approach" number 1 and "Clear" number 2". */
  String words() {
    return Words.list(
        numbers.entrySet().stream()
            .map(n -> "\"" + n.getKey().name() + "\" number " + n.getValue())
            .toList());
  }

  /** Writes them; empty where an aspect's facts do not begin right after its name. */
  Optional<Fix> fix() {
    List<Fix.Edit> edits = new ArrayList<>();
    numbers.forEach(
        (aspect, number) -> edit(aspect.span(), "number " + number).ifPresent(edits::add));
    return edits.size() == numbers.size()
        ? Optional.of(new Fix("give " + words(), edits, true))
        : Optional.empty();
  }

  private static Optional<Fix.Edit> edit(Span name, String fact) {
    String text = name.file().text();
    int brace = name.end();
    while (brace < text.length() && Character.isWhitespace(text.charAt(brace))) {
      brace++;
    }
    if (brace == text.length() || text.charAt(brace) != '{') {
      return Optional.empty();
    }
    int next = brace + 1;
    while (next < text.length() && Character.isWhitespace(text.charAt(next))) {
      next++;
    }
    // A line of its own where the next fact has one, indented and ended alike.
    int line = text.lastIndexOf('\n', next - 1);
    int end = line > 0 && text.charAt(line - 1) == '\r' ? line - 1 : line;
    String written = line <= brace ? " " + fact + " " : text.substring(end, next) + fact;
    return Optional.of(new Fix.Edit(name.file().span(brace + 1, brace + 1), written));
  }
}
