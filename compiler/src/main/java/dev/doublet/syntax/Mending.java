package dev.doublet.syntax;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.grammar.AspectsLexer;
import dev.doublet.grammar.AspectsParser;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;
import org.antlr.v4.runtime.misc.ParseCancellationException;

/**
 * Reads all declarations of a text, mending what does not fit the grammar and reporting each
 * mistake once. A mistake is mended by a small change of words where one helps; otherwise the fact
 * it lies in is left out.
 */
final class Mending {
  private static final int MOST_MISTAKES = 300;

  /** Words read again in search of mistakes; over so many a text is given up. */
  private static final long PATIENCE = 4_000_000;

  /** Rules that stand between braces, or alone where a fact is. */
  private static final Set<Integer> FACTS =
      Set.of(
          AspectsParser.RULE_lamps,
          AspectsParser.RULE_figure,
          AspectsParser.RULE_reference,
          AspectsParser.RULE_number,
          AspectsParser.RULE_indicates,
          AspectsParser.RULE_allows,
          AspectsParser.RULE_shows,
          AspectsParser.RULE_likeness,
          AspectsParser.RULE_speed,
          AspectsParser.RULE_bare,
          AspectsParser.RULE_rhythm);

  /** Rules with braces, and the words that begin a fact between them. */
  private static final Map<Integer, Set<Integer>> BLOCKS =
      Map.of(
          AspectsParser.RULE_head, Vocabulary.HEAD_FACTS,
          AspectsParser.RULE_aspect, Vocabulary.ASPECT_FACTS,
          AspectsParser.RULE_speeds, Set.of(),
          AspectsParser.RULE_numbers, Set.of(),
          AspectsParser.RULE_rhythms, Set.of(),
          AspectsParser.RULE_colours, Set.of(),
          AspectsParser.RULE_form, Set.of());

  private final TextWords source;
  private final TreeBuilding building;
  private final List<Diagnostic> mistakes = new ArrayList<>();
  private final List<CommonToken> words;
  private final List<Tree.Declaration> declarations = new ArrayList<>();
  private final Breaks breaks;
  private int start;
  private int previous;
  private int stoppedAt;
  private int mendedFrom = -1;
  private int mendedLine;
  private int found;
  private long read;

  /** Reads all words of a text. */
  Mending(TextWords source) {
    this.source = source;
    this.building = new TreeBuilding(source);
    this.words = Tidying.tidy(source, mistakes);
    this.breaks = new Breaks(source);
    List<Diagnostic> untidy = List.copyOf(mistakes);
    untidy.forEach(m -> breaks.touch(m.primary().span().start()));
    while (isPatient() && !readOn()) {
      mend(stepBack());
    }
    List<Diagnostic> rest = mistakes.subList(untidy.size(), mistakes.size());
    List<Diagnostic> idle = untidy.stream().filter(m -> isToldBy(m, rest)).toList();
    mistakes.removeAll(idle);
  }

  /** A mark without meaning in a line that cannot be read is no mistake of its own. */
  private boolean isToldBy(Diagnostic untidy, List<Diagnostic> rest) {
    Span place = untidy.primary().span();
    boolean stray = place.end() - place.start() <= 1;
    return rest.stream()
        .map(m -> m.primary().span())
        .anyMatch(
            other ->
                breaks.isLost(place.start()) && breaks.isLost(other.start())
                    || stray && other.from().line() == place.from().line());
  }

  /** What could be read. */
  Tree tree() {
    if (!isPatient()) {
      breaks.lose(offset(start), source.file().text().length());
    }
    return breaks.tree(declarations);
  }

  /** Every mistake, unless there were so many that reading was given up. */
  List<Diagnostic> mistakes() {
    if (!isPatient()) {
      Span last = mistakes.stream().max(Diagnostic.ORDER).orElseThrow().primary().span();
      mistakes.add(
          Explaining.error(last.file().span(last.end(), last.end()), "reading was given up here")
              .because("so many mistakes hide one another.")
              .help("mend the others first."));
    }
    return mistakes;
  }

  private boolean isPatient() {
    return read < PATIENCE && found < MOST_MISTAKES;
  }

  /** Reads from where reading stopped; true when all is read. */
  private boolean readOn() {
    Attempt attempt = new Attempt(words, start);
    try {
      while (!attempt.atEnd()) {
        declarations.add(building.declaration(attempt.declaration()));
        previous = start;
        start = attempt.next();
      }
      return true;
    } catch (ParseCancellationException failure) {
      read += attempt.failedAt() - start;
      stoppedAt = attempt.failedAt();
      return false;
    }
  }

  /** A mistake in the last words of a declaration may show only at the next one. */
  private Attempt.Failure stepBack() {
    if (stoppedAt == start && previous < start) {
      declarations.remove(declarations.size() - 1);
      start = previous;
    }
    return Attempt.explain(words, start, stoppedAt);
  }

  private void mend(Attempt.Failure failure) {
    CommonToken found = words.get(failure.at());
    int block = block(failure).map(Attempt.Open::start).orElse(Explaining.NO_BLOCK);
    Explaining explaining = new Explaining(source, words, failure, block);
    if (found.getType() == Token.EOF) {
      explaining.atEnd().ifPresent(m -> add(m, false));
      endEarly(failure, block != Explaining.NO_BLOCK);
      return;
    }
    Edits edits = new Edits(words, start, failure);
    Optional<Edit> edit = edits.best();
    read += edits.read();
    if (edit.isPresent()) {
      Edit.Cause cause = edit.get().cause();
      boolean certain =
          cause.compareTo(Edit.Cause.OTHER) < 0
              || cause == Edit.Cause.OTHER && !Vocabulary.isReserved(found);
      explaining.mendedBy(edit.get()).ifPresent(m -> add(m, certain));
      apply(edit.get());
    } else {
      add(explaining.leftOut(), false);
      leaveOut(failure);
    }
  }

  private void apply(Edit edit) {
    int kind = edit.put().isEmpty() ? Token.EOF : edit.put().get(0).getType();
    boolean follows =
        edit.removed() == 0
            && edit.at() > start
            && (kind != AspectsLexer.NAME || beginsDeclaration(edit.at()));
    if (follows && kind == AspectsLexer.CLOSE) {
      breaks.close(offset(edit.at() - 1));
    } else {
      breaks.touch(offset(follows ? edit.at() - 1 : edit.at()));
    }
    edit.apply(words);
  }

  /** Closes the braces that are open at the end, or leaves out what is begun there. */
  private void endEarly(Attempt.Failure failure, boolean isOpen) {
    int end = words.size() - 1;
    if (isOpen && failure.expected().contains(AspectsLexer.CLOSE)) {
      breaks.close(offset(end - 1));
      words.add(end, Edits.before(words.get(end), AspectsLexer.CLOSE));
    } else {
      breaks.lose(offset(start), source.file().text().length());
      dropWords(start, end);
    }
  }

  private int offset(int word) {
    return source.span(words.get(word)).start();
  }

  /**
   * What is already reported at a place is enough said of it. So is what was reported before it of
   * the same declaration and line, unless it is beyond doubt: the words after a mistake may fit
   * only in another way.
   */
  private void add(Diagnostic mistake, boolean certain) {
    Span place = mistake.primary().span();
    boolean said = mistakes.stream().anyMatch(m -> m.primary().span().equals(place));
    int line = place.from().line();
    found++;
    boolean follows = mendedFrom == offset(start) && line == mendedLine;
    if (!said && (certain || !follows)) {
      mistakes.add(mistake);
    }
    mendedFrom = offset(start);
    mendedLine = line;
  }

  /** The innermost braces that are open where reading failed. */
  private Optional<Attempt.Open> block(Attempt.Failure failure) {
    return failure.open().stream()
        .filter(o -> BLOCKS.containsKey(o.rule()) && depth(o.start(), failure.at()) > 0)
        .findFirst();
  }

  private int depth(int from, int to) {
    int depth = 0;
    for (CommonToken word : words.subList(from, to)) {
      depth += step(word);
    }
    return depth;
  }

  private static int step(Token word) {
    return word.getType() == AspectsLexer.OPEN ? 1 : word.getType() == AspectsLexer.CLOSE ? -1 : 0;
  }

  private void leaveOut(Attempt.Failure failure) {
    int at = failure.at();
    Optional<Attempt.Open> block = block(failure);
    Optional<Attempt.Open> fact =
        failure.open().stream().filter(o -> FACTS.contains(o.rule())).findFirst();
    if (block.isPresent()) {
      int first = fact.isPresent() ? fact.get().start() : at;
      int last = nextFact(Math.max(at, first + 1), BLOCKS.get(block.get().rule()));
      breaks.touch(offset(first));
      dropWords(first, Math.max(last, first + 1));
    } else {
      int first = failure.isBetweenDeclarations() ? at : start;
      int last = nextDeclaration(Math.max(at, first + 1));
      breaks.lose(offset(first), offset(last));
      dropWords(first, last);
    }
  }

  private void dropWords(int from, int to) {
    words.subList(from, to).clear();
  }

  /** The next word that begins a fact, closes the block, or shows that nobody closed it. */
  private int nextFact(int from, Set<Integer> facts) {
    int depth = 0;
    for (int i = from; ; i++) {
      int kind = words.get(i).getType();
      boolean here = depth == 0 && (kind == AspectsLexer.CLOSE || beginsFact(i, facts));
      if (here || kind == Token.EOF || beginsDeclaration(i)) {
        return i;
      }
      depth = Math.max(0, depth + step(words.get(i)));
    }
  }

  private boolean beginsFact(int i, Set<Integer> facts) {
    int kind = words.get(i).getType();
    int next = words.get(Math.min(i + 1, words.size() - 1)).getType();
    if (kind == AspectsLexer.NUMBER_WORD || kind == AspectsLexer.RULE) {
      return facts.contains(kind) && next == AspectsLexer.NUMBER;
    }
    boolean measured =
        next == AspectsLexer.NUMBER
            || next == AspectsLexer.MAXIMUM
            || next == AspectsLexer.UNRANKED;
    return facts.contains(kind) || (facts.isEmpty() && kind == AspectsLexer.NAME && measured);
  }

  private boolean beginsDeclaration(int i) {
    return Vocabulary.DECLARATIONS.contains(words.get(i).getType())
        && !(words.get(i).getType() == AspectsLexer.PLATE && endsPlates(i));
  }

  /** True for the last word of {@code with number plate}. */
  private boolean endsPlates(int i) {
    int before = i < 2 ? Token.EOF : words.get(i - 2).getType();
    return before == AspectsLexer.WITH || before == AspectsLexer.AND;
  }

  /** The next declaration outside of braces; of all when the braces are not closed. */
  private int nextDeclaration(int from) {
    int depth = Math.max(0, depth(start, from));
    int inside = -1;
    for (int i = from; ; i++) {
      boolean begins = beginsDeclaration(i);
      if (words.get(i).getType() == Token.EOF) {
        return depth > 0 && inside >= 0 ? inside : i;
      } else if (begins && depth == 0) {
        return i;
      } else if (begins && inside < 0) {
        inside = i;
      }
      depth = Math.max(0, depth + step(words.get(i)));
    }
  }
}
