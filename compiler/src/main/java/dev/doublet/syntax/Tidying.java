package dev.doublet.syntax;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.grammar.AspectsLexer;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/** Takes out what is no word at all: stray characters, and texts whose quotation never closes. */
final class Tidying {
  private static final Set<Integer> BEFORE_TEXTS =
      Set.of(
          AspectsLexer.RULEBOOK,
          AspectsLexer.USE,
          AspectsLexer.ASPECT,
          AspectsLexer.WAS,
          AspectsLexer.INDICATES,
          AspectsLexer.BECAUSE);
  private static final Set<Integer> ENDS_OF_TEXTS =
      Set.of(
          AspectsLexer.OPEN,
          AspectsLexer.CLOSE,
          AspectsLexer.STRING,
          AspectsLexer.UNCLOSED_STRING,
          AspectsLexer.EDITION,
          AspectsLexer.EFFECTIVE,
          Token.EOF);

  /** Texts that lack their quotation marks are at most this many words and marks. */
  private static final int QUOTABLE = 40;

  private static final String OPENING = "\u201c\u201d\u201e\u00ab\u00bb\u2018\u2019'`";

  private final TextWords words;
  private final List<Diagnostic> mistakes;
  private final List<CommonToken> tidy = new ArrayList<>();
  private final Set<String> said = new HashSet<>();

  private Tidying(TextWords words, List<Diagnostic> mistakes) {
    this.words = words;
    this.mistakes = mistakes;
  }

  /** The words of a text without what is none; each character in the way is reported once. */
  static List<CommonToken> tidy(TextWords words, List<Diagnostic> mistakes) {
    Tidying tidying = new Tidying(words, mistakes);
    List<CommonToken> all = tidying.quoted(words.tokens());
    for (int i = 0; i < all.size(); i++) {
      CommonToken token = all.get(i);
      tidying.tidy.add(token);
      if (token.getType() == AspectsLexer.UNCLOSED_STRING) {
        tidying.closeText(token);
      } else if (token.getType() == AspectsLexer.STRAY) {
        i = tidying.dropStray(all, i);
      } else if (BEFORE_TEXTS.contains(token.getType())) {
        i = tidying.quote(all, i);
      }
    }
    return tidying.tidy;
  }

  /** All words, with the quotation marks that are missing where that can be told. */
  private List<CommonToken> quoted(List<CommonToken> all) {
    List<CommonToken> quoted = new ArrayList<>();
    int first = 0;
    for (CommonToken word : all) {
      if (first < quoted.size() && quoted.get(first).getLine() != word.getLine()) {
        first = quoted.size();
      }
      quoted.add(word);
      if (word.getType() == AspectsLexer.UNCLOSED_STRING) {
        List<CommonToken> line = quoted.subList(first, quoted.size());
        Optional<Quotes.Mended> mended = new Quotes(words, List.copyOf(line)).mended();
        mended.ifPresent(m -> replace(line, m));
      }
    }
    return quoted;
  }

  private void replace(List<CommonToken> line, Quotes.Mended mended) {
    line.clear();
    line.addAll(mended.words());
    mistakes.add(mended.mistake());
  }

  /** A brace at the end of the line was hardly meant to be part of the text. */
  private void closeText(CommonToken token) {
    String text = token.getText().stripTrailing();
    char last = text.charAt(text.length() - 1);
    boolean brace = last == '{' || last == '}';
    String inside = (brace ? text.substring(0, text.length() - 1) : text).stripTrailing();
    tidy.remove(tidy.size() - 1);
    CommonToken string = Edits.like(token, AspectsLexer.STRING, inside + "\"");
    int length = inside.codePointCount(0, inside.length());
    string.setStopIndex(token.getStartIndex() + length - 1);
    tidy.add(string);
    if (brace) {
      int kind = last == '{' ? AspectsLexer.OPEN : AspectsLexer.CLOSE;
      CommonToken end = Edits.like(token, kind, String.valueOf(last));
      end.setStartIndex(token.getStartIndex() + text.codePointCount(0, text.length()) - 1);
      end.setStopIndex(end.getStartIndex());
      tidy.add(end);
    }
    mistakes.add(Explaining.unclosedText(words.span(string)));
  }

  /** Returns the last token that goes with the stray one. */
  private int dropStray(List<CommonToken> all, int at) {
    CommonToken stray = tidy.remove(tidy.size() - 1);
    if (OPENING.contains(stray.getText())) {
      for (int i = at + 1; i < all.size() && all.get(i).getLine() == stray.getLine(); i++) {
        boolean closes =
            all.get(i).getType() == AspectsLexer.STRAY && OPENING.contains(all.get(i).getText());
        if (closes) {
          straighten(stray, all.get(i));
          return i;
        }
      }
    }
    Optional<Diagnostic> signed = signed(all, at);
    signed.ifPresent(mistakes::add);
    if (signed.isEmpty() && said.add(stray.getText())) {
      mistakes.add(
          Explaining.error(
                  words.span(stray),
                  "\"{sign}\" has no meaning here",
                  Datum.of("sign", stray.getText()))
              .help("remove it, or put it in quotation marks if it belongs to a text."));
    }
    CommonToken right = all.get(at + 1);
    boolean inWord =
        !tidy.isEmpty()
            && isPart(last())
            && isPart(right)
            && last().getStopIndex() + 1 == stray.getStartIndex()
            && stray.getStopIndex() + 1 == right.getStartIndex();
    if (inWord) {
      join(tidy.remove(tidy.size() - 1), right);
      return at + 1;
    }
    return at;
  }

  /** A number with a sign, of which the language has none. */
  private Optional<Diagnostic> signed(List<CommonToken> all, int at) {
    CommonToken stray = all.get(at);
    CommonToken right = all.get(at + 1);
    boolean number =
        right.getType() == AspectsLexer.NUMBER && stray.getStopIndex() + 1 == right.getStartIndex();
    if (!number || !stray.getText().matches("[-+]")) {
      return Optional.empty();
    }
    Span span = words.span(stray).to(words.span(right));
    return Optional.of(
        Explaining.error(
                span,
                "{number} has a sign, and no number here has one",
                Datum.of("number", span.text()))
            .help("write {write}, if that is meant.", Datum.of("write", right.getText())));
  }

  /** What stands to both sides of a stray mark was meant as one word. */
  private void join(CommonToken left, CommonToken right) {
    String text = left.getText() + right.getText();
    boolean number = text.chars().allMatch(c -> c >= '0' && c <= '9');
    int other = number ? AspectsLexer.NUMBER : AspectsLexer.NAME;
    CommonToken word = Edits.like(left, Vocabulary.kind(text).orElse(other), text);
    word.setStopIndex(right.getStopIndex());
    tidy.add(word);
  }

  private CommonToken last() {
    return tidy.get(tidy.size() - 1);
  }

  private static boolean isPart(Token token) {
    return Vocabulary.isWord(token) || token.getType() == AspectsLexer.NUMBER;
  }

  /** Takes words and strays after a word that wants a text as that text; returns the last. */
  private int quote(List<CommonToken> all, int at) {
    int last = at;
    boolean strays = false;
    int end = Math.min(all.size(), at + 1 + QUOTABLE);
    for (int i = at + 1; i < end && partOfText(all.get(at), all.get(i)); i++) {
      last = i;
      strays |= all.get(i).getType() == AspectsLexer.STRAY;
    }
    if (!strays || OPENING.contains(all.get(at + 1).getText())) {
      return at;
    }
    CommonToken string = Edits.like(all.get(at + 1), AspectsLexer.STRING, "\"\"");
    string.setStopIndex(all.get(last).getStopIndex());
    tidy.add(string);
    mistakes.add(Explaining.unquoted(words.span(string)));
    return last;
  }

  private static boolean partOfText(Token before, Token token) {
    int kind = token.getType();
    return token.getLine() == before.getLine()
        && !BEFORE_TEXTS.contains(kind)
        && !ENDS_OF_TEXTS.contains(kind)
        && !(before.getType() == AspectsLexer.INDICATES && Vocabulary.ASPECT_FACTS.contains(kind));
  }

  private void straighten(CommonToken open, CommonToken close) {
    CommonToken string = Edits.like(open, AspectsLexer.STRING, "\"\"");
    string.setStopIndex(close.getStopIndex());
    Span span = words.span(string);
    String inside = span.text().substring(1, span.text().length() - 1);
    string.setText("\"" + inside + "\"");
    tidy.add(string);
    mistakes.add(
        Explaining.error(
                span,
                "a text stands between straight quotation marks: \"{text}\"",
                Datum.of("text", inside))
            .help("write \"{text}\".", Datum.of("text", inside))
            .fix("write straight quotation marks", span, "\"" + inside + "\"", true));
  }
}
