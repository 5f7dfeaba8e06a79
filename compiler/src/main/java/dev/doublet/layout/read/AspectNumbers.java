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
        .flatMap(a -> a.each().stream())
        .forEach(a -> taken.set(a.number()));
    Optional<Aspect> stop =
        Rulebook.mostRestrictive(book.aspects())
            .filter(numberless::contains)
            .filter(s -> !taken.get(0));
    taken.set(0);
    Map<Aspect, Integer> numbers = new LinkedHashMap<>();
    for (Aspect aspect : numberless) {
      boolean first = stop.equals(Optional.of(aspect));
      int count = aspect.each().size();
      int number = first ? 0 : free(taken, count);
      taken.set(number, number + count);
      numbers.put(aspect, number);
    }
    return new AspectNumbers(numbers);
  }

  /** The first of so many free numbers side by side. */
  private static int free(BitSet taken, int count) {
    int from = taken.nextClearBit(0);
    for (int next = taken.nextSetBit(from);
        next >= 0 && next < from + count;
        next = taken.nextSetBit(from)) {
      from = taken.nextClearBit(next);
    }
    return from;
  }

  private static String number(Aspect aspect, int number) {
    return "number " + number + (aspect.numerals().isOpen() ? " up" : "");
  }

  /** What to give them: ""Approach" number 1" and ""Clear" number 2". */
  List<String> each() {
    return numbers.entrySet().stream()
        .map(n -> "\"" + n.getKey().name() + "\" " + number(n.getKey(), n.getValue()))
        .toList();
  }

  /** Writes them; empty where an aspect's facts do not begin right after its name. */
  Optional<Fix> fix() {
    List<Fix.Edit> edits = new ArrayList<>();
    numbers.forEach(
        (aspect, number) -> edit(aspect.span(), number(aspect, number)).ifPresent(edits::add));
    return edits.size() == numbers.size()
        ? Optional.of(new Fix("give " + Words.list(each()), edits, true))
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
