package dev.doublet.syntax;

import dev.doublet.grammar.AspectsLexer;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.Function;
import org.antlr.v4.runtime.Token;

/**
 * Where a text had to be changed to be read, and so which of its declarations are broken: a change
 * costs the declaration that it lies in, and of a list of speeds, colours or rhythms its part.
 */
final class Breaks {
  /** Declarations of one name, which stands right behind the word that begins them. */
  private static final Set<Integer> NAMED =
      Set.of(AspectsLexer.ASPECT, AspectsLexer.FORM, AspectsLexer.HEAD);

  private final TextWords words;
  private final SourceFile file;
  private final TreeSet<Integer> touched = new TreeSet<>();
  private final TreeSet<Integer> closed = new TreeSet<>();
  private final List<Span> lost = new ArrayList<>();

  Breaks(TextWords words) {
    this.words = words;
    this.file = words.file();
  }

  /** Notes a place where a word was changed, added or left out. */
  void touch(int offset) {
    touched.add(offset);
  }

  /** Notes a place after which braces had to be closed: what stands between them is as it was. */
  void close(int offset) {
    closed.add(offset);
  }

  /** True when a place lies in a part of which no declaration could be made. */
  boolean isLost(int offset) {
    return lost.stream().anyMatch(span -> span.start() <= offset && offset < span.end());
  }

  /** Notes a part of which no declaration could be made. */
  void lose(int from, int to) {
    lost.add(file.span(from, Math.max(from, to)));
  }

  /** The declarations of a text, the whole ones and the broken ones. */
  Tree tree(List<Tree.Declaration> declarations) {
    if (touched.isEmpty() && closed.isEmpty() && lost.isEmpty()) {
      return new Tree(file, declarations, List.of(), words.comments());
    }
    List<Tree.Declaration> whole = new ArrayList<>();
    List<Tree.Broken> broken = new ArrayList<>();
    lost.forEach(span -> broken.add(lost(span)));
    for (int i = 0; i < declarations.size(); i++) {
      Tree.Declaration declaration = declarations.get(i);
      int from = declaration.span().start();
      int to = i + 1 < declarations.size() ? declarations.get(i + 1).span().start() : end();
      for (Span part : lost) {
        to = part.start() >= from ? Math.min(to, part.start()) : to;
      }
      boolean changed = isIn(touched, from, to) || isIn(closed, from, to);
      if (changed || isCutShort(declaration)) {
        whole.addAll(rest(declaration, to));
        broken.add(broken(declaration, file.span(from, Math.min(to, file.text().length()))));
      } else {
        whole.add(declaration);
      }
    }
    broken.sort((a, b) -> a.span().compareTo(b.span()));
    return new Tree(file, whole, broken, words.comments());
  }

  private Tree.Broken lost(Span span) {
    List<Token> first = words.tokensFrom(span.start());
    boolean named =
        first.size() > 1
            && NAMED.contains(first.get(0).getType())
            && (first.get(1).getType() == AspectsLexer.STRING || Vocabulary.isWord(first.get(1)));
    return new Tree.Broken(span, words.within(span.start(), span.end()), List.of(), !named);
  }

  private Tree.Broken broken(Tree.Declaration declaration, Span span) {
    return new Tree.Broken(
        span,
        words.within(span.start(), span.end()),
        List.of(declaration),
        isNameless(declaration, span));
  }

  /** True where a change lies in front of the first brace, so that it may be in the name itself. */
  private boolean isNameless(Tree.Declaration declaration, Span span) {
    boolean named =
        declaration instanceof Tree.Aspect
            || declaration instanceof Tree.Form
            || declaration instanceof Tree.Head;
    int brace = span.text().indexOf('{');
    return !named || brace < 0 || isIn(touched, span.start(), span.start() + brace + 1);
  }

  /** What stands behind a declaration on its last line, and belongs to none, was meant for it. */
  private boolean isCutShort(Tree.Declaration declaration) {
    int line = file.position(declaration.span().end()).line();
    return lost.stream()
        .anyMatch(
            span ->
                span.start() >= declaration.span().end()
                    && span.from().line() == line
                    && file.text().substring(declaration.span().end(), span.start()).isBlank());
  }

  private static boolean isIn(TreeSet<Integer> places, int from, int to) {
    Integer next = places.ceiling(from);
    return next != null && next < to;
  }

  private int end() {
    return file.text().length() + 1;
  }

  /** What fits of a broken block; nothing of other declarations. */
  private List<Tree.Declaration> rest(Tree.Declaration declaration, int to) {
    Span span = declaration.span();
    if (declaration instanceof Tree.Speeds block) {
      List<Tree.Speed> speeds = untouched(block.speeds(), Tree.Speed::name, to);
      return List.of(new Tree.Speeds(block.unit(), speeds, span));
    } else if (declaration instanceof Tree.Colours block) {
      List<Tree.Colour> colours = untouched(block.colours(), Tree.Colour::name, to);
      List<Word> set = block.set().stream().filter(Breaks::isWritten).toList();
      return List.of(new Tree.Colours(set, colours, span));
    } else if (declaration instanceof Tree.Rhythms block) {
      List<Tree.Rhythm> rhythms = untouched(block.rhythms(), Tree.Rhythm::name, to);
      return List.of(new Tree.Rhythms(rhythms, span));
    }
    return List.of();
  }

  /** False for words that were put in to read on. */
  private static boolean isWritten(Word word) {
    return word.span().start() < word.span().end();
  }

  private <T> List<T> untouched(List<T> parts, Function<T, Word> name, int to) {
    List<T> untouched = new ArrayList<>();
    for (int i = 0; i < parts.size(); i++) {
      Span from = name.apply(parts.get(i)).span();
      int next = i + 1 < parts.size() ? name.apply(parts.get(i + 1)).span().start() : to;
      if (isWritten(name.apply(parts.get(i))) && !isIn(touched, from.start(), next)) {
        untouched.add(parts.get(i));
      }
    }
    return untouched;
  }
}
