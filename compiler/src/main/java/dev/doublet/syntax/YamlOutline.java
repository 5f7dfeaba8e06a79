package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The items of a YAML text as its indentation shows them, whether or not it can be read: keys and
 * dashes, each with the lines below it that stand further in.
 */
final class YamlOutline {
  /** More dashes than this at the start of a line are no layout. */
  private static final int MOST_DASHES = 32;

  private final SourceFile file;
  private final String text;

  YamlOutline(SourceFile file) {
    this.file = file;
    this.text = file.text();
  }

  /**
   * A key or dash with all that belongs to it.
   *
   * @param start its first character
   * @param headEnd after the colon or dash; -1 for a line that has neither
   * @param end after its last character, the line's end not included
   */
  record Item(int start, int headEnd, int end) {}

  /** The items around a place, the smallest first. */
  List<Item> around(int offset) {
    List<Item> around = new ArrayList<>();
    int line = file.position(Math.min(offset, text.length())).line();
    while (line > 1 && isEmpty(line)) {
      line--;
    }
    int column = Integer.MAX_VALUE;
    for (; line >= 1 && column > 0; line--) {
      if (isEmpty(line) || indent(line) > column) {
        continue;
      }
      List<int[]> heads = heads(line);
      for (int i = heads.size() - 1; i >= 0; i--) {
        int start = heads.get(i)[0];
        int at = start - file.lineStart(line);
        boolean holds = at < column || at == column && keyAboveDash(around, heads.get(i)[1]);
        if (holds) {
          around.add(new Item(start, heads.get(i)[1], end(line, at, isDash(start))));
          column = at;
        }
      }
    }
    return around;
  }

  /**
   * The line before a place, where it has no colon and the place's own line goes on from it: the
   * parser reads both as one text, and stops at the colon of the second.
   */
  Optional<Item> textBefore(int offset) {
    Optional<Item> above = lineBefore(offset);
    if (above.isEmpty()) {
      return Optional.empty();
    }
    int line = file.position(above.get().start()).line();
    List<int[]> heads = heads(line);
    int[] last = heads.get(heads.size() - 1);
    boolean isKey = last[1] > 0 && text.charAt(last[1] - 1) == ':';
    int word = last[1] < 0 ? last[0] : last[1];
    while (word < text.length() && text.charAt(word) == ' ') {
      word++;
    }
    boolean isText =
        word < text.length() && "[]{},#&*!|>@%`?\"'\n\r".indexOf(text.charAt(word)) < 0;
    if (isKey || !isText) {
      return Optional.empty();
    }
    int column = last[0] - file.lineStart(line);
    return Optional.of(new Item(last[0], last[1], end(line, column, isDash(last[0]))));
  }

  /** True when a place lies in the first line below another that says anything. */
  boolean isNextLine(int offset, int place) {
    int line = file.position(offset).line() + 1;
    while (line < file.lineCount() && isEmpty(line)) {
      line++;
    }
    return line == file.position(Math.min(place, text.length())).line();
  }

  /** The last line above a place that says anything, by itself. */
  Optional<Item> lineBefore(int offset) {
    int line = file.position(Math.min(offset, text.length())).line() - 1;
    while (line >= 1 && isEmpty(line)) {
      line--;
    }
    return line < 1
        ? Optional.empty()
        : Optional.of(
            new Item(
                file.lineStart(line) + indent(line),
                -1,
                file.lineStart(line) + file.line(line).stripTrailing().length()));
  }

  /** A key's list may begin with a dash below the key's first letter. */
  private boolean keyAboveDash(List<Item> around, int headEnd) {
    int inner = around.isEmpty() ? -1 : around.get(around.size() - 1).start();
    return inner >= 0 && isDash(inner) && headEnd > 0 && text.charAt(headEnd - 1) == ':';
  }

  private boolean isDash(int at) {
    return text.charAt(at) == '-' && (at + 1 == text.length() || isSpace(text.charAt(at + 1)));
  }

  /** The starts and ends of the dashes and the key that a line begins with. */
  private List<int[]> heads(int line) {
    List<int[]> heads = new ArrayList<>();
    int end = file.lineStart(line) + file.line(line).length();
    int at = file.lineStart(line) + indent(line);
    while (at < end && isDash(at) && heads.size() < MOST_DASHES) {
      heads.add(new int[] {at, at + 1});
      at++;
      while (at < end && text.charAt(at) == ' ') {
        at++;
      }
    }
    if (at < end) {
      int colon = colon(at, end);
      if (colon >= 0 || heads.isEmpty()) {
        heads.add(new int[] {at, colon < 0 ? -1 : colon + 1});
      }
    }
    return heads;
  }

  /** The colon of a key that begins at a place; -1 when none does. */
  private int colon(int from, int end) {
    char quote = text.charAt(from);
    int at = from;
    if (quote == '"' || quote == '\'') {
      at = text.indexOf(quote, from + 1) + 1;
      return at > 0 && at < end && isColon(at, end) ? at : -1;
    }
    if ("[]{},#&*!|>@%`?".indexOf(quote) >= 0) {
      return -1;
    }
    for (; at < end && !(text.charAt(at) == '#' && text.charAt(at - 1) == ' '); at++) {
      if (isColon(at, end)) {
        return at;
      }
    }
    return -1;
  }

  private boolean isColon(int at, int end) {
    return text.charAt(at) == ':' && (at + 1 == end || isSpace(text.charAt(at + 1)));
  }

  private static boolean isSpace(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
  }

  /** Where the lines end that stand further in than a column, from a line on. */
  private int end(int line, int column, boolean dash) {
    int last = line;
    for (int next = line + 1; next <= file.lineCount(); next++) {
      if (isEmpty(next)) {
        continue;
      }
      int indent = indent(next);
      boolean listOfKey = indent == column && !dash && isDash(file.lineStart(next) + indent);
      if (indent <= column && !listOfKey) {
        break;
      }
      last = next;
    }
    return file.lineStart(last) + file.line(last).stripTrailing().length();
  }

  private boolean isEmpty(int line) {
    String said = file.line(line);
    int indent = indent(line);
    return indent == said.length() || said.charAt(indent) == '#' || said.isBlank();
  }

  /** How far in a line begins; a tab, which YAML does not allow there, counts as one column. */
  private int indent(int line) {
    int start = file.lineStart(line);
    int at = start;
    while (at < text.length() && (text.charAt(at) == ' ' || text.charAt(at) == '\t')) {
      at++;
    }
    return at - start;
  }
}
