package dev.doublet.rulebook;

import dev.doublet.diagnostic.Fix;
import dev.doublet.source.Span;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Predicate;

/** How the declaration of a name is taken out of a text, and every comment kept. */
final class Removal {
  private Removal() {}

  /**
   * The change that takes it out.
   *
   * @param name as it is declared
   * @param going true for every name that goes too: a declaration of these goes as a whole
   * @return empty where a comment would go with it
   */
  static Optional<Fix> of(Tree tree, Word name, Predicate<Word> going) {
    return tree.declarations().stream()
        .filter(d -> holds(d.span(), name.span()))
        .findFirst()
        .flatMap(d -> part(d, name, going))
        .filter(part -> part.text().indexOf('#') < 0)
        .map(part -> new Fix("remove it", widened(part), "", true));
  }

  private static boolean holds(Span whole, Span part) {
    return whole.start() <= part.start() && part.end() <= whole.end();
  }

  private static Optional<Span> part(
      Tree.Declaration declaration, Word name, Predicate<Word> going) {
    if (declaration instanceof Tree.Speeds speeds) {
      return item(declaration, speeds.speeds(), Tree.Speed::name, name, going);
    }
    if (declaration instanceof Tree.Colours colours) {
      return item(declaration, colours.colours(), Tree.Colour::name, name, going);
    }
    if (declaration instanceof Tree.Rhythms rhythms) {
      return item(declaration, rhythms.rhythms(), Tree.Rhythm::name, name, going);
    }
    if (declaration instanceof Tree.Plates plates) {
      return listed(declaration, plates.names(), name, going);
    }
    return declaration instanceof Tree.Form ? Optional.of(declaration.span()) : Optional.empty();
  }

  /** One item between braces, or the whole declaration when all of it goes. */
  private static <T> Optional<Span> item(
      Tree.Declaration of,
      List<T> items,
      Function<T, Word> nameOf,
      Word name,
      Predicate<Word> going) {
    List<Word> names = items.stream().map(nameOf).toList();
    int at = names.indexOf(name);
    if (at < 0) {
      return Optional.empty();
    }
    if (names.stream().allMatch(going)) {
      return Optional.of(of.span());
    }
    int start = name.span().start();
    int next = at + 1 < names.size() ? names.get(at + 1).span().start() : of.span().end() - 1;
    String text = of.span().file().text().substring(start, next);
    String said = text.split("#", 2)[0];
    // A comment may stand after the item, and not within it.
    boolean within = text.lines().skip(said.lines().count()).anyMatch(l -> !isComment(l));
    return within
        ? Optional.empty()
        : Optional.of(of.span().file().span(start, start + said.stripTrailing().length()));
  }

  private static boolean isComment(String line) {
    return line.isBlank() || line.strip().startsWith("#");
  }

  /** One name of a list with its comma, or the whole declaration when all of it goes. */
  private static Optional<Span> listed(
      Tree.Declaration of, List<Word> names, Word name, Predicate<Word> going) {
    int at = names.indexOf(name);
    if (at < 0) {
      return Optional.empty();
    }
    if (names.stream().allMatch(going)) {
      return Optional.of(of.span());
    }
    Span span = name.span();
    return Optional.of(
        at == 0
            ? span.file().span(span.start(), names.get(1).span().start())
            : span.file().span(names.get(at - 1).span().end(), span.end()));
  }

  /** With the blanks beside it, and with its whole line where nothing else stands on that. */
  private static Span widened(Span part) {
    String text = part.file().text();
    int start = part.start();
    int end = part.end();
    while (start > 0 && isBlank(text.charAt(start - 1))) {
      start--;
    }
    while (end < text.length() && isBlank(text.charAt(end))) {
      end++;
    }
    boolean first = start == 0 || text.charAt(start - 1) == '\n';
    boolean last = end == text.length() || text.charAt(end) == '\n' || text.charAt(end) == '\r';
    if (first && last) {
      end += text.startsWith("\r\n", end) ? 2 : end < text.length() ? 1 : 0;
      return part.file().span(start, end);
    }
    boolean begins = first || text.charAt(start - 1) == '{';
    return begins ? part.file().span(part.start(), end) : part.file().span(start, part.end());
  }

  private static boolean isBlank(char c) {
    return c == ' ' || c == '\t';
  }
}
