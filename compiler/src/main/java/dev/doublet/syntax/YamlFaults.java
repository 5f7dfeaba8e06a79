package dev.doublet.syntax;

import com.fasterxml.jackson.core.JsonProcessingException;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.util.List;
import java.util.Optional;
import org.yaml.snakeyaml.error.Mark;
import org.yaml.snakeyaml.error.MarkedYAMLException;

/** Says in plain words why a text cannot be read as YAML. */
final class YamlFaults {
  private static final String COLON = "a colon cannot stand here";
  private static final String NO_COLON = "this line has no colon";

  /**
   * What one of the parser's problems means to people.
   *
   * @param problem part of the parser's own words
   * @param atBeginning true when the mistake is where the thing begins, not where it was noticed
   * @param message what is wrong; {found} stands for the character at that place
   * @param help what to do
   * @param beginning what to say of the place where the thing begins; empty for nothing
   */
  private record Saying(
      String problem, boolean atBeginning, String message, String help, String beginning) {}

  private static final List<Saying> SAYINGS =
      List.of(
          new Saying("(TAB)", false, "a tab cannot stand here", "replace tabs with spaces.", ""),
          new Saying(
              "that cannot start any token",
              false,
              "a value cannot begin with {found}",
              "put the value in quotes.",
              ""),
          new Saying(
              "unexpected character found",
              true,
              "a value cannot begin with {found}",
              "put the value in quotes.",
              ""),
          new Saying(
              "mapping values are not allowed",
              false,
              COLON,
              "give each key a line of its own, indented like the keys beside it; put a text that"
                  + " holds a colon in quotes.",
              ""),
          new Saying("could not find expected ':'", true, NO_COLON, "write \"key: value\".", ""),
          new Saying(
              "sequence entries are not allowed",
              false,
              "a list cannot begin on the line of its key",
              "begin it on the next line, or write it as [first, second].",
              ""),
          new Saying(
              "expected <block end>",
              false,
              "this does not line up with what stands above it",
              "give keys and dashes that belong together the same number of spaces; write nothing"
                  + " after a closing quote or bracket.",
              "begins here"),
          new Saying(
              "but got <stream end>",
              true,
              "this bracket is never closed",
              "close it on the same line.",
              ""),
          new Saying(
              "expected ',' or '",
              false,
              "a comma or a closing bracket is missing before this",
              "write a comma between values, and close the bracket.",
              "opened here"),
          new Saying(
              "found unexpected end of stream",
              true,
              "this quote is never closed",
              "close it on the same line.",
              ""),
          new Saying(
              "escape",
              false,
              "a backslash means something else in double quotes",
              "use single quotes, or write the backslash twice.",
              ""),
          new Saying(
              "but found '<stream end>'",
              false,
              "the file ends where a value is expected",
              "write the value, and close every bracket.",
              ""),
          new Saying(
              "expected the node content",
              false,
              "{found} cannot stand here",
              "write a value first, or delete it.",
              ""),
          new Saying(
              "expected '<document start>'",
              false,
              "this stands outside everything",
              "delete it, or a closing bracket or a line \"...\" before it.",
              ""));

  private YamlFaults() {}

  static YamlFault empty(SourceFile file) {
    return fault(
        syntax(file.span(0, 0), "this file is empty")
            .help("begin with the line \"layout: \" and the layout's name."));
  }

  static Diagnostic oddCharacter(SourceFile file, int index) {
    String what = Visible.codePoint(file.text().charAt(index));
    return Diagnostic.error(
            "not-text",
            Tier.SYNTAX,
            file.span(index, index + 1),
            "{file} is not a text: it holds the character {character}",
            Datum.of("file", file.name()),
            Datum.of("character", what))
        .because("no editor writes that into a text, so it is likely to be something else.")
        .help("give a .yaml file, or save this one again as UTF-8 text.");
  }

  /**
   * The first character of a text that no line shows, and that stands in it by an escape alone: the
   * others are told of where they stand.
   */
  private static Optional<String> escaped(String written, String text) {
    return text.codePoints()
        .filter(c -> c != '\n' && c != '\r' && c != '\t')
        .filter(c -> Visible.isHidden(c) && written.indexOf(c) < 0)
        .mapToObj(Visible::codePoint)
        .findFirst();
  }

  /** What is wrong with a text in quotes or in a block, which may hold what no line can show. */
  static Optional<Diagnostic> unprintable(Span span, String text) {
    Optional<String> odd = escaped(span.text(), text);
    String name = "unprintable-text";
    String message;
    String help;
    Datum[] data = {};
    if (text.isBlank()) {
      name = "empty-value";
      message = "this text is empty";
      help = "write it, or delete the key.";
    } else if (odd.isPresent()) {
      message = "this text holds the character {character}";
      data = new Datum[] {Datum.of("character", odd.get())};
      help = "write it without that character.";
    } else if (text.lines().count() > 1) {
      message = "this text has more than one line";
      help = "write it on one line; one that begins with \">\" may go on in the lines below.";
    } else {
      return Optional.empty();
    }
    return Optional.of(
        Diagnostic.error(name, Tier.STRUCTURE, span, message, data)
            .because("listings, tables and headers show each name and text on one line.")
            .help(help));
  }

  static Diagnostic secondDocument(Span span) {
    return syntax(span, "this file holds more than one document")
        .help("delete the line \"---\" or \"...\" between them, or put each into its own file.");
  }

  static YamlFault tooDeep(Span span, int deepest) {
    return fault(
        syntax(span, "lists and keys are nested deeper than {most}", Datum.of("most", deepest))
            .help("a layout nests eight deep at most; look for brackets that are never closed."));
  }

  static Diagnostic longLine(Span span, int longest) {
    return syntax(span, "this line is longer than {most} characters", Datum.of("most", longest))
        .help("give each signal a line of its own.");
  }

  /** What is wrong with names of values, references to them and types, however many there are. */
  static Diagnostic marks(List<Span> spans) {
    Span span = spans.get(0);
    char sign = span.text().charAt(0);
    String what =
        switch (sign) {
          case '&' -> "\"{sign}\" gives a value a name to refer to";
          case '*' -> "\"{sign}\" refers to a value elsewhere";
          default -> "\"{sign}\" marks a value with a type";
        };
    Diagnostic diagnostic =
        Diagnostic.error(
            "yaml-anchors",
            Tier.SYNTAX,
            span,
            what + ", which this file cannot use",
            Datum.of("sign", String.valueOf(sign)));
    if (spans.size() > 1) {
      diagnostic =
          diagnostic
              .related(spans.get(1), "here too")
              .fact("such values", String.valueOf(spans.size()));
    }
    return diagnostic
        .because(
            "every value stands where it is used, so that a change shows where it works and a small"
                + " file cannot stand for a huge one.")
        .help(
            sign == '!'
                ? "write the value alone; put it in quotes if it begins with \"!\"."
                : "write the value out, or say it once under \"kinds\"; put a text that begins with"
                    + " \""
                    + sign
                    + "\" in quotes.");
  }

  /** What the parser stopped at. */
  static YamlFault explain(SourceFile file, Throwable fault) {
    for (Throwable cause = fault; cause != null; cause = cause.getCause()) {
      if (cause instanceof MarkedYAMLException marked && marked.getProblemMark() != null) {
        return explain(file, marked);
      }
    }
    String said =
        fault.getMessage() == null ? "" : fault.getMessage().lines().findFirst().orElse("");
    int at =
        fault instanceof JsonProcessingException json && json.getLocation() != null
            ? new YamlPlaces(file.text()).index(Math.max(0, json.getLocation().getCharOffset()))
            : 0;
    if (said.startsWith("Expected a field name")) {
      boolean within = at > 0 && "[{".indexOf(file.text().charAt(at - 1)) >= 0;
      Span bracket = file.span(within ? at - 1 : at, at);
      return fault(
          syntax(bracket, "a key of this file is a list or holds keys itself")
              .help("write a plain word before each colon."));
    }
    return fault(
        syntax(
            file.span(at, at),
            "this file cannot be read as YAML: {reason}",
            Datum.of("reason", said)));
  }

  private static YamlFault explain(SourceFile file, MarkedYAMLException fault) {
    String problem = fault.getProblem() == null ? "" : fault.getProblem();
    Span at = point(file, fault.getProblemMark());
    Span from = fault.getContextMark() == null ? at : point(file, fault.getContextMark());
    for (Saying saying : SAYINGS) {
      if (problem.contains(saying.problem)) {
        Span place = saying.atBeginning ? from : at;
        Diagnostic said =
            saying.message.equals(NO_COLON) && List.of("[", "{").contains(place.text())
                ? syntax(place, "what opens here belongs to no key")
                    .help("put it further in than its key, or on the line of its key.")
                : syntax(place, saying.message, Datum.of("found", quoted(place))).help(saying.help);
        boolean opened = saying.atBeginning || saying.beginning.startsWith("opened");
        return new YamlFault(
            saying.beginning.isEmpty() ? said : said.related(from, saying.beginning),
            at.start(),
            opened ? from.start() : at.start());
      }
    }
    return fault(syntax(at, "this is not YAML: {reason}", Datum.of("reason", problem)));
  }

  /**
   * The same fault, or that of a quote which swallowed lines up to the next one: then the parser
   * stops right after a text that began on an earlier line.
   *
   * @param text the last text in quotes that was read; null for none
   */
  static YamlFault openQuote(Span text, YamlFault fault) {
    boolean isBefore = text != null && text.end() <= fault.at() && text.text().contains("\n");
    if (!isBefore || !text.file().text().substring(text.end(), fault.at()).isBlank()) {
      return fault;
    }
    Span open = text.file().span(text.start(), text.start() + 1);
    Span close = text.file().span(text.end() - 1, text.end());
    Diagnostic said =
        syntax(
                open,
                "this quote is closed only in line {line}",
                Datum.of("line", close.from().line()))
            .related(close, "closed here")
            .help("close it on the same line.");
    return new YamlFault(said, fault.at(), open.start());
  }

  /** The same fault, or that of the line before a colon, which lacks its own. */
  static YamlFault missingColon(YamlOutline outline, YamlFault fault) {
    Diagnostic said = fault.diagnostic();
    if (!said.message().equals(COLON)) {
      return fault;
    }
    Optional<YamlOutline.Item> text = outline.textBefore(fault.at());
    if (text.isEmpty()) {
      return fault;
    }
    int start = text.get().start();
    Span first = said.primary().span().file().span(start, start + 1);
    return new YamlFault(syntax(first, NO_COLON).help("write \"key: value\"."), fault.at(), start);
  }

  private static YamlFault fault(Diagnostic diagnostic) {
    int at = diagnostic.primary().span().start();
    return new YamlFault(diagnostic, at, at);
  }

  private static Diagnostic syntax(Span span, String message, Datum... data) {
    return Diagnostic.error("yaml-syntax", Tier.SYNTAX, span, message, data);
  }

  private static String quoted(Span span) {
    return span.start() < span.end() ? "\"" + span.text() + "\"" : "nothing";
  }

  /** The character at a mark, or the end of the text. */
  private static Span point(SourceFile file, Mark mark) {
    String text = file.text();
    int start = new YamlPlaces(text).index(mark.getIndex());
    int end = start == text.length() || text.charAt(start) == '\n' ? start : start + 1;
    if (end > start && end < text.length() && Character.isLowSurrogate(text.charAt(end))) {
      end++;
    }
    return file.span(start, end);
  }
}
