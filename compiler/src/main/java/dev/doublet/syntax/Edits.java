package dev.doublet.syntax;

import dev.doublet.grammar.AspectsLexer;
import dev.doublet.source.Nearest;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/** Finds the small change that lets reading go furthest beyond a word that does not fit. */
final class Edits {
  /** Reading this many words beyond the mistake proves a change right. */
  private static final int AHEAD = 8;

  /** A misspelt word may be read as a name, and be missed only this many words later. */
  private static final int BACK = 40;

  /** What has more letters is no word of the language, misspelt or written with the next as one. */
  private static final int LONG = 100;

  /** Words of so many letters begin other words by chance. */
  private static final int SHORT = 3;

  /** Of so many possible misspellings, two are tried together. */
  private static final int PAIRED = 12;

  /** Texts that lack their quotation marks are at most this many words. */
  private static final int QUOTABLE = 8;

  /** Words that tell where a list of names ends. */
  private static final Set<Integer> LANDMARKS =
      Set.of(
          AspectsLexer.LAMP,
          AspectsLexer.FIGURE,
          AspectsLexer.ALLOWS,
          AspectsLexer.ON,
          AspectsLexer.IN,
          AspectsLexer.SHOWS,
          AspectsLexer.LIGHTS);

  /** Between declarations, anything else would make a declaration of what is none. */
  private static final Set<Edit.Cause> BETWEEN =
      Set.of(Edit.Cause.QUOTED, Edit.Cause.COMMA, Edit.Cause.DOUBLED);

  private final List<CommonToken> words;
  private final int from;
  private final Attempt.Failure failure;
  private final int at;
  private final CommonToken found;
  private long read;

  /**
   * Looks at one failure.
   *
   * @param from where the declaration that fails begins
   */
  Edits(List<CommonToken> words, int from, Attempt.Failure failure) {
    this.words = words;
    this.from = from;
    this.failure = failure;
    this.at = failure.at();
    this.found = words.get(at);
  }

  /** The best change; empty when none helps. */
  Optional<Edit> best() {
    List<Edit> misspellings = misspellings();
    List<Edit> words = new ArrayList<>(misspellings);
    words.addAll(glued());
    return best(words).or(() -> firstOfTwo(misspellings)).or(() -> best(others()));
  }

  /** How many words were read to find it. */
  long read() {
    return read;
  }

  private Optional<Edit> best(List<Edit> edits) {
    Edit best = null;
    int bestGain = 0;
    for (Edit edit : edits) {
      int gain = gain(edit);
      boolean likely =
          edit.cause() == Edit.Cause.MISSPELT && edit.at() == at && mayBeMisspelt(found);
      boolean enough = gain >= (likely ? 1 : 2);
      if (enough && gain > bestGain) {
        best = edit;
        bestGain = gain;
      }
    }
    return Optional.ofNullable(best);
  }

  /** The earlier of two misspelt words, where mending either alone does not help. */
  private Optional<Edit> firstOfTwo(List<Edit> misspellings) {
    List<Edit> some = misspellings.subList(0, Math.min(misspellings.size(), PAIRED));
    for (Edit later : some) {
      for (Edit earlier : some) {
        if (earlier.at() < later.at() && gain(earlier, later) >= 2) {
          return Optional.of(earlier);
        }
      }
    }
    return Optional.empty();
  }

  /** How many words more are read with changes than without; only the last may add words. */
  private int gain(Edit... edits) {
    Edit edit = edits[edits.length - 1];
    int to = Math.min(words.size(), Math.max(at, edit.at() + edit.removed()) + AHEAD + 1);
    List<CommonToken> window = edit.window(words, from, to);
    for (Edit other : edits) {
      if (other != edit) {
        window.set(other.at() - from, other.put().get(0));
      }
    }
    Attempt attempt = new Attempt(window, 0);
    boolean whole = attempt.readsAll();
    read += window.size();
    int reached = whole ? window.size() : attempt.failedAt();
    boolean toTheEnd = whole || reached >= window.size();
    return toTheEnd
        ? AHEAD
        : Math.min(
            AHEAD, from + reached - edit.growth() - Math.max(at, edit.at() + edit.removed() - 1));
  }

  private List<Edit> misspellings() {
    List<Edit> edits = new ArrayList<>();
    List<Integer> fitting = Vocabulary.kinds(failure.expected());
    for (int i = at; i >= Math.max(from, at - BACK); i--) {
      CommonToken word = words.get(i);
      boolean name = mayBeMisspelt(word);
      if (!name && !(i == at && Vocabulary.isWord(word))) {
        continue;
      }
      for (String near : near(word.getText())) {
        int kind = Vocabulary.kind(near).orElseThrow();
        if (name || (fitting.contains(kind) && kind != word.getType())) {
          edits.add(new Edit(Edit.Cause.MISSPELT, i, 1, List.of(like(word, kind, near))));
        }
      }
    }
    return edits;
  }

  private static List<String> near(String word) {
    List<String> near = new ArrayList<>(Nearest.all(word, Vocabulary.all()));
    near.removeAll(Vocabulary.UNITS);
    Vocabulary.unit(word).ifPresent(near::add);
    return near;
  }

  /** A word of the language and what follows it, written as one. */
  private List<Edit> glued() {
    List<Edit> edits = new ArrayList<>();
    for (int i = at; i >= Math.max(from, at - 1); i--) {
      CommonToken word = words.get(i);
      String text = word.getText();
      for (int length = 1; mayBeMisspelt(word) && length < text.length(); length++) {
        if (comeApart(text.substring(0, length), text.substring(length))) {
          edits.add(new Edit(Edit.Cause.GLUED, i, 1, apart(word, length)));
        }
      }
    }
    return edits;
  }

  /** A short word begins too many names to be one by itself. */
  private static boolean comeApart(String first, String second) {
    boolean one = Vocabulary.kind(first).isPresent() || isNumber(first);
    boolean other = Vocabulary.kind(second).isPresent() || isNumber(second);
    return one && other || first.length() > SHORT && one && !isNumber(first);
  }

  private static List<CommonToken> apart(CommonToken word, int length) {
    String start = word.getText().substring(0, length);
    CommonToken first = like(word, kind(start), start);
    first.setStopIndex(word.getStartIndex() + length - 1);
    String rest = word.getText().substring(length);
    CommonToken second = like(word, kind(rest), rest);
    second.setStartIndex(word.getStartIndex() + length);
    return List.of(first, second);
  }

  /** The kind of word that some letters are. */
  private static int kind(String text) {
    int other = isNumber(text) ? AspectsLexer.NUMBER : AspectsLexer.NAME;
    return Vocabulary.kind(text).orElse(other);
  }

  private static boolean isNumber(String text) {
    return text.chars().allMatch(c -> c >= '0' && c <= '9');
  }

  private List<Edit> others() {
    List<Edit> edits = new ArrayList<>();
    boolean next =
        Vocabulary.DECLARATIONS.contains(found.getType())
            && failure.expected().contains(AspectsLexer.CLOSE);
    boolean solid = found.getType() != Token.EOF && !Vocabulary.isBracket(found) && !next;
    for (int kind : Vocabulary.kinds(failure.expected())) {
      if (solid) {
        replacement(kind).ifPresent(edits::add);
        edits.addAll(kind == AspectsLexer.STRING ? unquoted() : List.of());
      }
      edits.add(new Edit(Edit.Cause.MISSING, at, 0, List.of(before(found, kind))));
    }
    for (int i = Math.max(from, at - 1); i <= at; i++) {
      if (words.get(i).getType() == AspectsLexer.COMMA) {
        edits.add(new Edit(Edit.Cause.COMMA, i, 1, List.of()));
      }
    }
    if (isDoubled()) {
      edits.add(new Edit(Edit.Cause.DOUBLED, at, 1, List.of()));
    } else if (solid) {
      edits.add(new Edit(Edit.Cause.EXTRA, at, 1, List.of()));
    }
    if (failure.isBetweenDeclarations()) {
      edits.removeIf(e -> !BETWEEN.contains(e.cause()));
    }
    edits.sort(Comparator.comparing(Edit::cause));
    return edits;
  }

  /** Every single letter is near several short words. */
  private static boolean mayBeMisspelt(CommonToken word) {
    int letters = word.getStopIndex() - word.getStartIndex() + 1;
    return word.getType() == AspectsLexer.NAME && letters > 1 && letters <= LONG;
  }

  /** True for a word written twice, but no oftener. */
  private boolean isDoubled() {
    return at > from
        && at + 1 < words.size()
        && words.get(at - 1).getText().equals(found.getText())
        && !words.get(at + 1).getText().equals(found.getText());
  }

  private Optional<Edit> replacement(int kind) {
    boolean comma = found.getType() == AspectsLexer.COMMA || kind == AspectsLexer.COMMA;
    // What follows these is no part of anything else.
    boolean tail = Set.of(AspectsLexer.EXCEPT, AspectsLexer.BECAUSE).contains(found.getType());
    if (comma || tail) {
      return Optional.empty();
    }
    Edit.Cause cause = Edit.Cause.OTHER;
    if (kind == AspectsLexer.NAME) {
      if (found.getType() == AspectsLexer.STRING) {
        cause = Edit.Cause.QUOTED;
      } else if (Vocabulary.isWord(found)) {
        cause = Edit.Cause.RESERVED;
        boolean landmark =
            LANDMARKS.contains(found.getType())
                || Vocabulary.DECLARATIONS.contains(found.getType());
        if (landmark && !nameIsNeeded()) {
          return Optional.empty();
        }
      }
    } else if (kind == AspectsLexer.STRING) {
      return Optional.empty();
    }
    return Optional.of(new Edit(cause, at, 1, List.of(like(found, kind, Vocabulary.sample(kind)))));
  }

  /** True when nothing but a name, or what may stand for one, could come here. */
  private boolean nameIsNeeded() {
    Set<Integer> stands =
        Set.of(
            AspectsLexer.NAME,
            AspectsLexer.NUMBER,
            AspectsLexer.STRING,
            AspectsLexer.STOP,
            AspectsLexer.UNSAID,
            AspectsLexer.NOT,
            AspectsLexer.DARK,
            AspectsLexer.ANY,
            AspectsLexer.LEFT);
    return stands.containsAll(Vocabulary.kinds(failure.expected()));
  }

  /**
   * Some words of one line, taken together as a text. The name of a rule is no sentence: what
   * begins another fact of its aspect does.
   */
  private List<Edit> unquoted() {
    List<Edit> edits = new ArrayList<>();
    boolean ofRule = at > 0 && words.get(at - 1).getType() == AspectsLexer.RULE;
    if (ofRule && Vocabulary.ASPECT_FACTS.contains(found.getType())) {
      return edits;
    }
    for (int i = at; i < Math.min(words.size(), at + QUOTABLE); i++) {
      CommonToken word = words.get(i);
      boolean quotable =
          (Vocabulary.isWord(word) || word.getType() == AspectsLexer.NUMBER)
              && word.getLine() == found.getLine();
      if (!quotable) {
        break;
      }
      CommonToken text = like(found, AspectsLexer.STRING, "\"\"");
      text.setStopIndex(word.getStopIndex());
      edits.add(new Edit(Edit.Cause.UNQUOTED, at, i - at + 1, List.of(text)));
    }
    return edits;
  }

  /** A word of another kind in the place of one. */
  static CommonToken like(CommonToken word, int kind, String text) {
    CommonToken other = new CommonToken(word);
    other.setType(kind);
    other.setText(text);
    return other;
  }

  /** A word that is not written, before one that is. */
  static CommonToken before(CommonToken word, int kind) {
    CommonToken other = like(word, kind, Vocabulary.sample(kind));
    other.setStopIndex(word.getStartIndex() - 1);
    return other;
  }
}
