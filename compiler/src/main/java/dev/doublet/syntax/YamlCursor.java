package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.Iterator;
import java.util.List;

/**
 * Where an editor's cursor stands in a YAML text, as indentation and brackets before it show:
 * nothing after it counts, so the text may be as broken as a text is while it is being written.
 *
 * @param steps keys on the way from the root, and {@value #ITEM} for an item of a list
 * @param value true where a value is written, false where a key is
 * @param start where the word at the cursor begins
 */
public record YamlCursor(List<String> steps, boolean value, int start) {
  /** The step into a list. */
  public static final String ITEM = "-";

  /** Copies the list. */
  public YamlCursor {
    steps = List.copyOf(steps);
  }

  /** Where a place of a text is. */
  public static YamlCursor at(SourceFile file, int offset) {
    return new Scan(file.text(), offset).cursor();
  }

  /**
   * What is open: a key whose value is being written, or a list.
   *
   * @param indent of block style, in columns; -1 in brackets
   * @param bracket the bracket it lies in; a space in block style
   */
  private record Level(int indent, char bracket, String step) {}

  /** Reads a text from its start up to the cursor. */
  private static final class Scan {
    private final String text;
    private final int end;
    private final Deque<Level> levels = new ArrayDeque<>();
    private final Deque<Character> brackets = new ArrayDeque<>();
    private int at;
    private int word;
    private boolean value;

    Scan(String text, int end) {
      this.text = text;
      this.end = end;
    }

    YamlCursor cursor() {
      while (at < end) {
        if (brackets.isEmpty()) {
          blockLine();
        } else {
          inBrackets();
        }
      }
      if (brackets.isEmpty() && isBlank(lineStart(), end)) {
        leave(end - lineStart(), false);
        word = end;
        value = false;
      }
      return new YamlCursor(steps(), value, Math.min(word, end));
    }

    private int lineStart() {
      return text.lastIndexOf('\n', end - 1) + 1;
    }

    private boolean isBlank(int from, int to) {
      return text.substring(from, to).isBlank();
    }

    private List<String> steps() {
      List<String> steps = new ArrayList<>();
      for (Iterator<Level> all = levels.descendingIterator(); all.hasNext(); ) {
        steps.add(all.next().step());
      }
      return steps;
    }

    /** From the start of a line in block style. */
    private void blockLine() {
      int start = at;
      skipSpaces();
      if (at >= end || isLineEnd(at) || text.charAt(at) == '#') {
        skipLine();
        return;
      }
      while (at < end && isDash(at)) {
        leave(at - start, true);
        levels.push(new Level(at - start, ' ', ITEM));
        at++;
        value = false;
        skipSpaces();
        word = at;
      }
      if (at < end && !isLineEnd(at)) {
        word = at;
        value = false;
        content(at - start);
      }
    }

    /** What stands on a line in block style behind its spaces and dashes. */
    private void content(int indent) {
      leave(indent, false);
      if (isOpening(at)) {
        open();
        return;
      }
      int from = at;
      skipScalar(false);
      if (at < end && text.charAt(at) == ':') {
        levels.push(new Level(indent, ' ', unquoted(from, at)));
        at++;
        value = true;
        skipSpaces();
        word = Math.min(at, end);
        if (at < end && isOpening(at)) {
          open();
        } else {
          skipLine();
        }
      } else {
        skipLine();
      }
    }

    private void inBrackets() {
      char c = text.charAt(at);
      if (isOpening(at)) {
        open();
      } else if (c == ']' || c == '}') {
        close();
      } else if (c == ',') {
        at++;
        if (brackets.peek() == '{') {
          leaveKey();
        }
        word = at;
        value = brackets.peek() == '[';
      } else if (c == ':') {
        levels.push(new Level(-1, '{', unquoted(word, at)));
        at++;
        word = at;
        value = true;
      } else if (c == '#' && at > 0 && Character.isWhitespace(text.charAt(at - 1))) {
        skipLine();
      } else if (Character.isWhitespace(c)) {
        at++;
        word = isBlank(word, at) ? at : word;
      } else {
        word = isBlank(word, at) ? at : word;
        skipScalar(true);
      }
    }

    private void open() {
      char bracket = text.charAt(at++);
      brackets.push(bracket);
      if (bracket == '[') {
        levels.push(new Level(-1, '[', ITEM));
      }
      word = at;
      value = bracket == '[';
    }

    private void close() {
      at++;
      char bracket = brackets.pop();
      if (bracket == '{') {
        leaveKey();
      } else if (!levels.isEmpty()) {
        levels.pop();
      }
      word = at;
      value = true;
      if (brackets.isEmpty()) {
        skipLine();
      }
    }

    private void leaveKey() {
      if (!levels.isEmpty() && levels.peek().bracket() == '{') {
        levels.pop();
      }
    }

    /** Leaves all levels of block style that a line so far to the left ends. */
    private void leave(int indent, boolean dash) {
      while (!levels.isEmpty()) {
        Level level = levels.peek();
        boolean item = level.step().equals(ITEM);
        boolean inside = level.indent() < indent || level.indent() == indent && dash && !item;
        if (level.bracket() == ' ' && inside) {
          return;
        }
        levels.pop();
      }
    }

    private void skipScalar(boolean inBrackets) {
      char quote = text.charAt(at);
      if (quote == '"' || quote == '\'') {
        at++;
        while (at < end && text.charAt(at) != quote && !isLineEnd(at)) {
          at += quote == '"' && text.charAt(at) == '\\' ? 2 : 1;
        }
        at = Math.min(at + 1, end);
        return;
      }
      while (at < end && !isLineEnd(at) && !isEnd(inBrackets)) {
        at++;
      }
    }

    private boolean isEnd(boolean inBrackets) {
      char c = text.charAt(at);
      if (inBrackets && (c == ',' || c == '}' || c == ']' || c == '{' || c == '[')) {
        return true;
      }
      boolean spaceAfter = at + 1 >= text.length() || Character.isWhitespace(text.charAt(at + 1));
      boolean comment = c == '#' && at > 0 && Character.isWhitespace(text.charAt(at - 1));
      return c == ':' && spaceAfter || comment;
    }

    private String unquoted(int from, int to) {
      String key = text.substring(from, to).strip();
      boolean quoted = key.length() > 1 && (key.startsWith("\"") || key.startsWith("'"));
      return quoted ? key.substring(1, key.length() - 1) : key;
    }

    private boolean isOpening(int place) {
      return text.charAt(place) == '{' || text.charAt(place) == '[';
    }

    private boolean isDash(int place) {
      return text.charAt(place) == '-'
          && (place + 1 >= text.length() || Character.isWhitespace(text.charAt(place + 1)));
    }

    private boolean isLineEnd(int place) {
      return text.charAt(place) == '\n' || text.charAt(place) == '\r';
    }

    private void skipSpaces() {
      while (at < end && (text.charAt(at) == ' ' || text.charAt(at) == '\t')) {
        at++;
      }
    }

    private void skipLine() {
      while (at < end && text.charAt(at) != '\n') {
        at++;
      }
      at = Math.min(at + 1, end);
    }
  }
}
