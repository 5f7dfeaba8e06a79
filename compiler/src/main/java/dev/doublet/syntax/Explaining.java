package dev.doublet.syntax;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.grammar.AspectsLexer;
import dev.doublet.grammar.AspectsParser;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Stream;
import org.antlr.v4.runtime.CommonToken;
import org.antlr.v4.runtime.Token;

/** Puts into words why a text does not fit the grammar at one place. */
final class Explaining {
  /** No braces are open. */
  static final int NO_BLOCK = -1;

  /** How a part is written, by rule. */
  private static final Map<Integer, String> EXAMPLES =
      Map.ofEntries(
          Map.entry(
              AspectsParser.RULE_bookLine,
              "rulebook \"Brackwater & Northern\" edition 3 effective 1957-06-01"),
          Map.entry(AspectsParser.RULE_use, "use \"heads.aspects\""),
          Map.entry(AspectsParser.RULE_speeds, "speeds in mph { normal maximum  slow 15 }"),
          Map.entry(AspectsParser.RULE_speed, "slow 15, or: normal maximum, or: slow 15 on sight"),
          Map.entry(AspectsParser.RULE_bare, "speeds in km/h { figures 40, 60, 80  line maximum }"),
          Map.entry(
              AspectsParser.RULE_colours,
              "colours { red yellow green }, or: colours as road { red green }"),
          Map.entry(AspectsParser.RULE_numbers, "numbers times 10 { 4 6 8 }"),
          Map.entry(AspectsParser.RULE_numeral, "on home show yellow over {n}"),
          Map.entry(
              AspectsParser.RULE_masks,
              "head speed shows numbers in white, or: … shows 4, 6 in white"),
          Map.entry(AspectsParser.RULE_rhythms, "rhythms { flashing 50 per minute }"),
          Map.entry(AspectsParser.RULE_rhythm, "flashing 50 per minute lit 30 percent"),
          Map.entry(AspectsParser.RULE_head, "head searchlight { lamp main shows red, green }"),
          Map.entry(AspectsParser.RULE_arm, "arm home shows level in red, raised in green"),
          Map.entry(AspectsParser.RULE_position, "arm home shows level in red, raised in green"),
          Map.entry(AspectsParser.RULE_lamps, "lamp upper, lower shows red, green"),
          Map.entry(AspectsParser.RULE_figure, "figure diagonal lights ne, c, sw"),
          Map.entry(
              AspectsParser.RULE_make,
              "head searchlight with filament and vane red { lamp main shows red, green, yellow }"),
          Map.entry(AspectsParser.RULE_form, "form two-head { top, bottom }"),
          Map.entry(AspectsParser.RULE_place, "form home { main, distant usually dark }"),
          Map.entry(AspectsParser.RULE_plates, "plate number, letter, or: plate \"number board\""),
          Map.entry(
              AspectsParser.RULE_aspect, "aspect \"Stop\" { allows stop  on one-head show red }"),
          Map.entry(AspectsParser.RULE_reference, "rule 201"),
          Map.entry(AspectsParser.RULE_number, "number 9"),
          Map.entry(AspectsParser.RULE_indicates, "indicates \"Proceed at normal speed.\""),
          Map.entry(
              AspectsParser.RULE_allows, "allows normal then slow, or: allows stop, then slow"),
          Map.entry(
              AspectsParser.RULE_ahead,
              "allows normal then slow at the second signal, or: … then stop at short distance"),
          Map.entry(AspectsParser.RULE_second, "allows normal then slow at the second signal"),
          Map.entry(
              AspectsParser.RULE_meaning,
              "expect red over green on two-head means \"Medium Clear\""),
          Map.entry(
              AspectsParser.RULE_order,
              "expect \"Clear\" less restrictive than \"Stop\", or: expect \"Approach\" before \"Stop\""),
          Map.entry(
              AspectsParser.RULE_expectation,
              "expect red over green on two-head means \"Medium Clear\""),
          Map.entry(
              AspectsParser.RULE_imperfect,
              "imperfect signals read as most restrictive, or: … as \"Slow Approach\" where yellow or green shows, else most restrictive"),
          Map.entry(
              AspectsParser.RULE_proviso,
              "imperfect signals read as \"Slow Approach\" where yellow or green shows, else most restrictive"),
          Map.entry(AspectsParser.RULE_cover, "cover lamp-out on two-head because \"…\""),
          Map.entry(AspectsParser.RULE_grave, "count die-out as errors"),
          Map.entry(
              AspectsParser.RULE_acceptance,
              "accept lone-white of \"Clear\" on ground because \"…\""),
          Map.entry(AspectsParser.RULE_change, "plate DV turns slow into diverging"),
          Map.entry(
              AspectsParser.RULE_likeness,
              "as \"Clear to Slow\" with DV plate, or: … with DV plate except red over yellow"),
          Map.entry(
              AspectsParser.RULE_with,
              "on one-head with number plate show red, or: … with \"number board\" plate …"),
          Map.entry(AspectsParser.RULE_shows, "on two-head show red over (flashing red or dark)"));

  private static final String DECLARATIONS =
      "accept, arm, aspect, colours, count, cover, expect, form, head, imperfect, numbers, plate, rhythms, "
          + "rulebook, speeds or use";

  private final TextWords source;
  private final List<CommonToken> words;
  private final Attempt.Failure failure;
  private final int block;
  private final CommonToken found;

  /**
   * Looks at one failure.
   *
   * @param block the first word of the declaration whose braces are open, or {@link #NO_BLOCK}
   */
  Explaining(TextWords source, List<CommonToken> words, Attempt.Failure failure, int block) {
    this.source = source;
    this.words = words;
    this.failure = failure;
    this.block = block;
    this.found = words.get(failure.at());
  }

  /** A mistake that a change of words mends; empty when it follows from one already reported. */
  Optional<Diagnostic> mendedBy(Edit edit) {
    CommonToken word = words.get(edit.at());
    Span span = source.span(word);
    CommonToken put = edit.put().isEmpty() ? word : edit.put().get(0);
    switch (edit.cause()) {
      case MISSPELT:
        return Optional.of(misspelt(word, put.getText()));
      case GLUED:
        String apart = put.getText() + " " + edit.put().get(1).getText();
        return Optional.of(
            error(
                    span,
                    "\"{found}\" is two words: {words}",
                    Datum.of("found", word.getText()),
                    Datum.of("words", apart))
                .help("write {write}.", Datum.of("write", apart))
                .fix("put a space between them", span, apart, true));
      case DOUBLED:
        return Optional.of(
            error(span, "\"{word}\" is written twice", Datum.of("word", word.getText()))
                .help("remove one of the two.")
                .fix("remove it", withBlanksBefore(span), "", true));
      case RESERVED:
        return Optional.of(reserved(word));
      case QUOTED:
        String text = word.getText();
        String bare = text.substring(1, text.length() - 1);
        return Optional.of(
            error(
                    span,
                    "a name stands without quotation marks, not as {found}",
                    Datum.of("found", text))
                .help("write {write}.", Datum.of("write", bare))
                .fix("write it without quotation marks", span, bare, true));
      case UNQUOTED:
        return Optional.of(unquoted(source.span(put)));
      case COMMA:
        if (isInChoice()) {
          return Optional.of(
              error(
                      span,
                      "what a head may show is joined by \"{meant}\", not by commas",
                      Datum.of("meant", "or"))
                  .help("write or, as in: (red or yellow or dark).")
                  .fix("write or", span, " or", true));
        }
        return Optional.of(
            error(span, "there is a comma too many")
                .help("remove it.")
                .fix("remove it", span, "", true));
      default:
        boolean closes = put.getType() == AspectsLexer.CLOSE && edit.removed() == 0;
        boolean unclosed = closes && Vocabulary.DECLARATIONS.contains(found.getType());
        return unclosed && block != NO_BLOCK
            ? unclosed()
            : Optional.of(withFix(unexpected(), edit));
    }
  }

  /** A mistake that only leaving a part out mends. */
  Diagnostic leftOut() {
    Span span = source.span(found);
    int kind = found.getType();
    boolean between = block == NO_BLOCK && failure.isBetweenDeclarations();
    if (between && kind == AspectsLexer.CLOSE) {
      return error(span, "this } closes nothing")
          .help("remove it, or look for one too many above it.");
    }
    boolean ofHead = Vocabulary.HEAD_FACTS.contains(kind);
    if (between && (ofHead || Vocabulary.ASPECT_FACTS.contains(kind))) {
      String owner = ofHead ? "a head" : "an aspect";
      return error(
              span,
              "\"{word}\" belongs between the braces of {owner}",
              Datum.of("word", found.getText()),
              Datum.of("owner", owner))
          .help("move it there; perhaps a } above it comes too early.");
    }
    if (kind == AspectsLexer.LEFT && isInChoice()) {
      return error(span, "brackets cannot stand inside brackets")
          .help("list all that this head may show in one pair, as in: (red or yellow or dark).");
    }
    return unexpected();
  }

  /** True when the word before names a plate that is declared. */
  private boolean isAfterPlate() {
    int at = failure.at() - 1;
    boolean name = at > 0 && Vocabulary.isWord(words.get(at));
    while (at > 1 && words.get(at - 1).getType() == AspectsLexer.COMMA) {
      at -= 2;
    }
    return name && at > 0 && words.get(at - 1).getType() == AspectsLexer.PLATE;
  }

  /** The text ends too early; empty when that follows from a mistake already reported. */
  Optional<Diagnostic> atEnd() {
    if (block != NO_BLOCK) {
      return unclosed();
    }
    return Optional.of(
        error(
                end(),
                "expected " + Vocabulary.describe(failure.expected()) + ", but the file ends here",
                expected())
            .help(example()));
  }

  /** A text without its quotation marks. */
  static Diagnostic unquoted(Span span) {
    String quoted = "\"" + span.text() + "\"";
    return error(span, "a text stands in quotation marks, as in {text}", Datum.of("text", quoted))
        .help("write {text}.", Datum.of("text", quoted))
        .fix("write it in quotation marks", span, quoted, true);
  }

  /** A text that does not end where it should. */
  static Diagnostic unclosedText(Span span) {
    return error(span, "this text has no closing quotation mark")
        .because("a text ends on the line where it begins.")
        .help("close it with \".")
        .fix("close the text", span.file().span(span.end(), span.end()), "\"", false);
  }

  /** A mistake in the grammar. */
  static Diagnostic error(Span span, String message, Datum... data) {
    return Diagnostic.error("syntax", Tier.SYNTAX, span, message, data);
  }

  private Diagnostic misspelt(CommonToken word, String meant) {
    boolean name = word.getType() == AspectsLexer.NAME;
    String what = name ? " is not a word of the language" : " does not fit here";
    Span span = source.span(word);
    return error(
            span,
            "\"{word}\"" + what + ": did you mean \"{meant}\"?",
            Datum.of("word", word.getText()),
            Datum.of("meant", meant))
        .help("write {meant}.", Datum.of("meant", meant))
        .fix("write " + meant, span, meant, name);
  }

  private static Span withBlanksBefore(Span span) {
    int start = span.start();
    while (start > 0 && span.file().text().charAt(start - 1) == ' ') {
      start--;
    }
    return span.file().span(start, span.end());
  }

  private boolean isInChoice() {
    return failure.open().stream().anyMatch(o -> o.rule() == AspectsParser.RULE_choice);
  }

  private Diagnostic reserved(CommonToken word) {
    String text = word.getText();
    if (word.getType() == AspectsLexer.ANY && isInChoice()) {
      return error(source.span(word), "\"any\" is every display already, and stands alone")
          .help("take the brackets away, and what else stands in them.");
    }
    return error(
            source.span(word),
            "\"{word}\" is a word of the language, so it cannot be a name here",
            Datum.of("word", text))
        .because("otherwise nobody could tell where a list of names ends.")
        .help("choose another name, such as {name}.", Datum.of("name", text + "-1"));
  }

  private Diagnostic unexpected() {
    String text = found.getText();
    if (failure.isBetweenDeclarations() && Vocabulary.isWord(found) && isAfterPlate()) {
      String before = words.get(failure.at() - 1).getText();
      return error(source.span(found), "is this a plate of its own, or part of the name before?")
          .because("plates have commas between them, and a name of several words has marks around.")
          .help(
              "write {first}, {second}, or: \"{first} {second}\".",
              Datum.of("first", before),
              Datum.of("second", text));
    }
    boolean string = found.getType() == AspectsLexer.STRING;
    return error(
            source.span(found),
            "expected "
                + Vocabulary.describe(failure.expected())
                + ", but found "
                + (string ? "{found}" : "\"{found}\""),
            expected(),
            Datum.of("found", string ? shortened(text) : text))
        .help(example());
  }

  /** Where just one word of the language fits, it can be put there. */
  private Diagnostic withFix(Diagnostic diagnostic, Edit edit) {
    List<Integer> fitting = Vocabulary.kinds(failure.expected());
    if (fitting.size() != 1 || edit.put().isEmpty() || !Vocabulary.isFixed(fitting.get(0))) {
      return diagnostic;
    }
    String word = edit.put().get(0).getText();
    Span span = source.span(found);
    return edit.removed() == 0
        ? diagnostic.fix(
            "add " + word, span.file().span(span.start(), span.start()), word + " ", false)
        : diagnostic.fix("write " + word, span, word, false);
  }

  private String example() {
    if (block == NO_BLOCK && failure.isBetweenDeclarations()) {
      return "begin a declaration with " + DECLARATIONS + ".";
    }
    boolean inPattern =
        failure.expected().contains(AspectsLexer.OVER)
            && failure.open().stream().noneMatch(o -> o.rule() == AspectsParser.RULE_expectation);
    boolean inPermission = failure.expected().contains(AspectsLexer.THEN);
    Stream<Integer> fact =
        inPattern
            ? Stream.of(AspectsParser.RULE_shows)
            : inPermission ? Stream.of(AspectsParser.RULE_allows) : Stream.of();
    return Stream.concat(fact, failure.open().stream().map(Attempt.Open::rule))
        .filter(EXAMPLES::containsKey)
        .findFirst()
        .map(rule -> "write it as in: " + EXAMPLES.get(rule))
        .orElse("");
  }

  private Datum expected() {
    return Datum.of("expected", Vocabulary.parts(failure.expected()));
  }

  private static String shortened(String text) {
    return text.codePointCount(0, text.length()) <= 40
        ? text
        : text.substring(0, text.offsetByCodePoints(0, 36)) + "…\"";
  }

  private Optional<Diagnostic> unclosed() {
    int open = block;
    while (words.get(open).getType() != AspectsLexer.OPEN) {
      open++;
    }
    Span brace = source.span(words.get(open));
    if (!brace.text().equals("{")) {
      return Optional.empty();
    }
    boolean atEnd = found.getType() == Token.EOF;
    String what = source.span(words.get(block)).to(source.span(words.get(open - 1))).text();
    return Optional.of(
        error(brace, "the { of {what} is never closed", Datum.of("what", what))
            .label("opened here")
            .related(
                atEnd ? end() : source.span(found), atEnd ? "the file ends here" : "noticed here")
            .help(
                "close it with } before " + (atEnd ? "the end." : "this {found}."),
                Datum.of("found", found.getText())));
  }

  /** The place after the last word. */
  private Span end() {
    Span last = source.span(words.get(Math.max(0, words.size() - 2)));
    return last.file().span(last.end(), last.end());
  }
}
