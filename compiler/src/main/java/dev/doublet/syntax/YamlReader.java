package dev.doublet.syntax;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * Reads YAML into nodes with exact places, and past what is wrong with it.
 *
 * <p>The library stops at its first fault. Then the smallest item around it, as indentation shows
 * it, is blanked out and the text is read again: so a fault costs the value, the key or the lines
 * that it stands in, and those are {@linkplain YamlNode.Unread unread}.
 *
 * <p>What a layout has no use for is not read either: several documents in one file, names for
 * values and references to them (which can make a small text stand for a huge one), tags, keys that
 * are not plain words, deep nesting, and lines longer than {@value #LONGEST_LINE} characters.
 */
public final class YamlReader {
  /** After so many faults the rest of a text is given up. */
  private static final int MOST_FAULTS = 8;

  /** The parser takes time that grows with the square of a word's length. */
  private static final int LONGEST_LINE = 1_000_000;

  private static final Function<SourceFile, Outcome<YamlNode>> READING =
      file -> new YamlReader(file).read();

  private final SourceFile file;
  private final YamlOutline outline;
  private final List<Diagnostic> said = new ArrayList<>();

  private YamlReader(SourceFile file) {
    this.file = file;
    this.outline = new YamlOutline(file);
  }

  /**
   * Reads one text.
   *
   * @return always a root: {@link YamlNode.Unread} where nothing could be read, with a {@code
   *     yaml-syntax}, {@code yaml-anchors} or {@code not-text} for each mistake that costs a part
   *     of the text, and any {@code duplicate-key}
   */
  public static Outcome<YamlNode> read(SourceFile file) {
    return file.once(READING);
  }

  /** True for what is told of before the library is asked. */
  static boolean hasOddities(SourceFile file) {
    YamlReader reader = new YamlReader(file);
    if (YamlPlaces.firstOddCharacter(file.text()) < 0) {
      reader.withoutLongLines(YamlDraft.of(file, YamlHabits.mended(file, reader.said)));
      return !reader.said.isEmpty();
    }
    return true;
  }

  private Outcome<YamlNode> read() {
    int odd = YamlPlaces.firstOddCharacter(file.text());
    if (odd >= 0) {
      return nothing(YamlFaults.oddCharacter(file, odd));
    }
    YamlDraft draft = YamlDraft.of(file, YamlHabits.mended(file, said));
    Reading reading = read(withoutLongLines(draft));
    for (int faults = 1; reading.fault != null && faults <= MOST_FAULTS; faults++) {
      reading = reading.with(YamlFaults.missingColon(outline, reading.fault));
      said.add(reading.fault.diagnostic());
      Reading next = mend(reading);
      reading = next == null || faults == MOST_FAULTS && next.fault != null ? rest(reading) : next;
    }
    if (reading.fault != null) {
      return nothing(reading.fault.diagnostic());
    }
    said.addAll(reading.read.diagnostics());
    return Outcome.of(reading.read.root(), said);
  }

  private Outcome<YamlNode> nothing(Diagnostic reason) {
    if (!said.contains(reason)) {
      said.add(reason);
    }
    return Outcome.of(new YamlNode.Unread(file.span(0, file.text().length())), said);
  }

  private YamlDraft withoutLongLines(YamlDraft whole) {
    YamlDraft draft = whole;
    for (int line = 1; line <= file.lineCount(); line++) {
      int start = file.lineStart(line);
      int end = line < file.lineCount() ? file.lineStart(line + 1) : file.text().length();
      if (end - start > LONGEST_LINE) {
        said.add(YamlFaults.longLine(file.span(start, start), LONGEST_LINE));
        int first = start;
        while (first < end - 1 && file.text().charAt(first) == ' ') {
          first++;
        }
        draft = draft.without(first, end);
      }
    }
    return draft;
  }

  /** A draft as read, up to its end or its fault. */
  private record Reading(YamlDraft draft, YamlParse.Read read, YamlFault fault) {

    Reading with(YamlFault other) {
      return new Reading(draft, read, other);
    }

    /** How far it was read. */
    int reach() {
      return fault == null ? Integer.MAX_VALUE : fault.at();
    }
  }

  private static Reading read(YamlDraft draft) {
    try {
      return new Reading(draft, YamlParse.read(draft), null);
    } catch (YamlFault fault) {
      return new Reading(draft, null, fault);
    }
  }

  /** The same without the smallest item that lets it be read further; null when none does. */
  private Reading mend(Reading reading) {
    List<YamlOutline.Item> items = new ArrayList<>();
    if (reading.fault.from() < reading.fault.at()) {
      items.addAll(outline.around(reading.fault.from()));
    }
    items.addAll(outline.around(reading.fault.at()));
    for (YamlOutline.Item item : items) {
      int needed = Math.max(reading.reach() + 1, item.end());
      Reading next = without(item, reading, needed);
      if (next != null) {
        boolean stuck = next.fault != null && outline.isNextLine(item.end(), next.fault.at());
        return stuck ? withoutLineBefore(reading, next) : next;
      }
    }
    return null;
  }

  /** The same without the value of an item, or all of it, if that lets it be read so far. */
  private static Reading without(YamlOutline.Item item, Reading reading, int needed) {
    Reading next = reading.draft.withoutValue(item).map(YamlReader::read).orElse(reading);
    if (next.reach() < needed) {
      next = read(reading.draft.without(item.start(), item.end()));
    }
    return next.reach() < needed ? null : next;
  }

  /**
   * Where the next line does not fit either, it may be the line above that does not: the reading
   * without that one, if it gets further.
   */
  private Reading withoutLineBefore(Reading reading, Reading next) {
    Optional<YamlOutline.Item> line = outline.lineBefore(reading.fault.at());
    if (line.isEmpty()) {
      return next;
    }
    List<YamlOutline.Item> items = new ArrayList<>(List.of(line.get()));
    items.addAll(outline.around(line.get().start()));
    for (YamlOutline.Item item : items) {
      Reading other = without(item, reading, next.reach() + 1);
      if (other != null) {
        return other;
      }
    }
    return next;
  }

  /** The same without all from the outermost item of its fault to the end. */
  private Reading rest(Reading reading) {
    List<YamlOutline.Item> items = outline.around(Math.min(reading.fault.from(), reading.reach()));
    int start = items.isEmpty() ? 0 : items.get(items.size() - 1).start();
    return read(reading.draft.without(start, file.text().length()));
  }
}
