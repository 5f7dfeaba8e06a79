package dev.doublet.syntax;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fix;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;

/**
 * What people type out of habit, or without seeing it, and YAML reads as something else. It is told
 * of, and read as what was meant, so that it costs nothing.
 */
final class YamlHabits {
  private static final String SLASHES = "//";
  private static final int NO_BREAK_SPACE = 0xA0;

  private final SourceFile file;
  private final StringBuilder text;
  private final List<Diagnostic> said;
  private final List<Span> blanks = new ArrayList<>();
  private final List<Span> comments = new ArrayList<>();

  private YamlHabits(SourceFile file, List<Diagnostic> said) {
    this.file = file;
    this.text = new StringBuilder(file.text());
    this.said = said;
  }

  /**
   * The text as it was meant, each place where it was.
   *
   * @param said takes what there is to say
   */
  static String mended(SourceFile file, List<Diagnostic> said) {
    YamlHabits habits = new YamlHabits(file, said);
    for (int line = 1; line <= file.lineCount(); line++) {
      int end = line < file.lineCount() ? file.lineStart(line + 1) : file.text().length();
      habits.line(file.lineStart(line), end);
    }
    habits.tell();
    return habits.text.toString();
  }

  private void line(int start, int end) {
    int first = start;
    boolean comment = false;
    Quotation quotation = new Quotation();
    for (int i = start; i < end; i++) {
      char c = text.charAt(i);
      comment |= c == '#' && (i == start || text.charAt(i - 1) == ' ');
      if (!comment && quotation.passes(c) && text.indexOf(SLASHES, i) == i) {
        comment = comment(i);
      }
      if (!comment && isOddBlank(c) && !joinsWords(i, end)) {
        blanks.add(file.span(i, i + 1));
        text.setCharAt(i, ' ');
      }
      if (first == i && text.charAt(i) == ' ') {
        first++;
      }
    }
    if (file.text().startsWith(SLASHES, first)) {
      comment(first);
    }
  }

  private boolean comment(int at) {
    comments.add(file.span(at, at + SLASHES.length()));
    text.setCharAt(at, '#');
    return true;
  }

  /** Where on a line a value has ended, so that what follows a space can be no part of it. */
  private static final class Quotation {
    private char open;
    private char last;
    private char before = ' ';

    /** Takes the next character; true when it follows a space behind a closing mark. */
    boolean passes(char c) {
      boolean mark = c == '"' || c == '\'';
      if (open == 0 && mark && !Character.isLetterOrDigit(before)) {
        open = c;
      } else if (c == open && before != '\\') {
        open = 0;
      }
      boolean behind = open == 0 && before == ' ' && "]}\"'".indexOf(last) >= 0;
      before = c;
      last = c == ' ' ? last : c;
      return behind;
    }
  }

  /** A space that is not the one of the space bar. */
  private static boolean isOddBlank(char c) {
    return c >= NO_BREAK_SPACE && Character.getType(c) == Character.SPACE_SEPARATOR;
  }

  /** True between two words of a name or text, where it belongs to them. */
  private boolean joinsWords(int at, int end) {
    return at > 0
        && at + 1 < end
        && Character.isLetterOrDigit(text.charAt(at - 1))
        && Character.isLetterOrDigit(text.charAt(at + 1));
  }

  private void tell() {
    if (!blanks.isEmpty()) {
      Span first = blanks.get(0);
      String which = Visible.codePoint(first.text().charAt(0));
      Diagnostic one =
          syntax(
                  first,
                  "this looks like a space and is another character, {character}",
                  Datum.of("character", which))
              .because("YAML takes it for a part of the word beside it.")
              .help("type a space; editors write the other one for a space with Alt or Option.")
              .fix(everywhere("write a space", blanks, " "));
      said.add(counted(one, blanks));
    }
    if (!comments.isEmpty()) {
      Span first = comments.get(0);
      Diagnostic one =
          syntax(first, "\"{sign}\" begins no comment", Datum.of("sign", SLASHES))
              .help("begin each comment with \"#\".")
              .fix(everywhere("write #", comments, "#"));
      said.add(counted(one, comments));
    }
  }

  private static Fix everywhere(String title, List<Span> places, String replacement) {
    return new Fix(title, places.stream().map(p -> new Fix.Edit(p, replacement)).toList(), true);
  }

  private static Diagnostic counted(Diagnostic first, List<Span> all) {
    return all.size() == 1 ? first : first.fact("in this file", all.size() + " times");
  }

  private static Diagnostic syntax(Span span, String message, Datum... data) {
    return Diagnostic.error("yaml-syntax", Tier.SYNTAX, span, message, data);
  }
}
