package dev.doublet.report;

import java.util.ArrayList;
import java.util.List;

/**
 * How a text becomes another, in the unified format of diff (POSIX, diff -u) with the header lines
 * that git writes, so that both {@code git apply} and {@code patch -p1} take it.
 */
public final class Patch {
  private static final int CONTEXT = 3;

  private final List<String> before;
  private final List<String> after;

  private Patch(List<String> before, List<String> after) {
    this.before = before;
    this.after = after;
  }

  /**
   * The change of one file.
   *
   * @param path with forward slashes, from where the patch is applied
   * @return empty when nothing changed
   */
  public static String of(String path, String before, String after) {
    if (before.equals(after)) {
      return "";
    }
    String from = quoted("a/" + path);
    String to = quoted("b/" + path);
    // A blank in a name ends it, unless a tab stands after it.
    String tab = path.contains(" ") ? "\t" : "";
    return "diff --git "
        + from
        + ' '
        + to
        + "\n--- "
        + from
        + tab
        + "\n+++ "
        + to
        + tab
        + '\n'
        + new Patch(lines(before), lines(after)).hunks();
  }

  /** Lines with their ends; only a line feed ends one here. */
  private static List<String> lines(String text) {
    List<String> lines = new ArrayList<>();
    for (int start = 0; start < text.length(); ) {
      int end = text.indexOf('\n', start);
      end = end < 0 ? text.length() : end + 1;
      lines.add(text.substring(start, end));
      start = end;
    }
    return lines;
  }

  /** Lines that are taken out and put in at one place. */
  private record Change(int oldStart, int oldEnd, int newStart, int newEnd) {}

  private String hunks() {
    StringBuilder out = new StringBuilder();
    List<Change> changes = changes();
    for (int i = 0; i < changes.size(); ) {
      int last = i;
      while (last + 1 < changes.size()
          && changes.get(last + 1).oldStart - changes.get(last).oldEnd <= 2 * CONTEXT) {
        last++;
      }
      hunk(changes.subList(i, last + 1), out);
      i = last + 1;
    }
    return out.toString();
  }

  private void hunk(List<Change> changes, StringBuilder out) {
    Change first = changes.get(0);
    Change last = changes.get(changes.size() - 1);
    int lead = Math.min(CONTEXT, first.oldStart);
    int trail = Math.min(CONTEXT, before.size() - last.oldEnd);
    out.append("@@ -").append(range(first.oldStart - lead, last.oldEnd + trail));
    out.append(" +").append(range(first.newStart - lead, last.newEnd + trail)).append(" @@\n");
    int at = first.oldStart - lead;
    for (Change change : changes) {
      say(' ', before.subList(at, change.oldStart), out);
      say('-', before.subList(change.oldStart, change.oldEnd), out);
      say('+', after.subList(change.newStart, change.newEnd), out);
      at = change.oldEnd;
    }
    say(' ', before.subList(at, at + trail), out);
  }

  /** The first line, from 1, and how many; an empty range names the line before it. */
  private static String range(int start, int end) {
    return (end == start ? start : start + 1) + "," + (end - start);
  }

  private static void say(char sign, List<String> lines, StringBuilder out) {
    for (String line : lines) {
      out.append(sign).append(line);
      if (!line.endsWith("\n")) {
        out.append("\n\\ No newline at end of file\n");
      }
    }
  }

  /**
   * The shortest way from one to the other by taking lines out and putting lines in (E. W. Myers,
   * "An O(ND) difference algorithm and its variations", 1986).
   */
  private List<Change> changes() {
    int oldSize = before.size();
    int newSize = after.size();
    int most = oldSize + newSize;
    List<int[]> reached = new ArrayList<>();
    int[] furthest = new int[2 * most + 2];
    for (int edits = 0; ; edits++) {
      for (int k = -edits; k <= edits; k += 2) {
        boolean down = k == -edits || k != edits && furthest[most + k - 1] < furthest[most + k + 1];
        int x = down ? furthest[most + k + 1] : furthest[most + k - 1] + 1;
        while (x < oldSize && x - k < newSize && before.get(x).equals(after.get(x - k))) {
          x++;
        }
        furthest[most + k] = x;
        if (x >= oldSize && x - k >= newSize) {
          return walkedBack(reached, edits);
        }
      }
      int[] round = new int[2 * edits + 1];
      System.arraycopy(furthest, most - edits, round, 0, round.length);
      reached.add(round);
    }
  }

  private List<Change> walkedBack(List<int[]> reached, int edits) {
    List<Change> changes = new ArrayList<>();
    int x = before.size();
    int y = after.size();
    for (int d = edits; d > 0; d--) {
      int[] last = reached.get(d - 1);
      int k = x - y;
      boolean down = k == -d || k != d && at(last, d - 1, k - 1) < at(last, d - 1, k + 1);
      int from = down ? k + 1 : k - 1;
      int startX = at(last, d - 1, from);
      int startY = startX - from;
      Change one =
          down
              ? new Change(startX, startX, startY, startY + 1)
              : new Change(startX, startX + 1, startY, startY);
      Change next = changes.isEmpty() ? null : changes.get(0);
      if (next != null && next.oldStart == one.oldEnd && next.newStart == one.newEnd) {
        changes.set(0, new Change(one.oldStart, next.oldEnd, one.newStart, next.newEnd));
      } else {
        changes.add(0, one);
      }
      x = startX;
      y = startY;
    }
    return changes;
  }

  private static int at(int[] round, int edits, int k) {
    // Beyond the ends nothing was reached.
    return k < -edits || k > edits ? -1 : round[k + edits];
  }

  /** As git quotes names that hold what ends a line or a name. */
  private static String quoted(String name) {
    if (name.chars().noneMatch(c -> c < ' ' || c == '"' || c == '\\' || c == 0x7F)) {
      return name;
    }
    StringBuilder out = new StringBuilder("\"");
    for (char c : name.toCharArray()) {
      if (c < ' ' || c == 0x7F) {
        out.append(String.format(java.util.Locale.ROOT, "\\%03o", (int) c));
      } else {
        out.append(c == '"' || c == '\\' ? "\\" + c : String.valueOf(c));
      }
    }
    return out.append('"').toString();
  }
}
