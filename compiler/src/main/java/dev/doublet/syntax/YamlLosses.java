package dev.doublet.syntax;

import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;

/** Puts lines that were not read where they stand in a tree. */
final class YamlLosses {
  private YamlLosses() {}

  /**
   * The same tree with lines that belong to one of its lists or keys.
   *
   * @param lost the lines, from their first character
   */
  static YamlNode put(YamlNode root, Span lost) {
    return root instanceof YamlNode.Scalar scalar && scalar.isNothing()
        ? new YamlNode.Unread(lost)
        : within(root, lost);
  }

  private static YamlNode within(YamlNode node, Span lost) {
    if (node instanceof YamlNode.Mapping mapping) {
      return within(mapping, lost);
    }
    return node instanceof YamlNode.Sequence sequence ? within(sequence, lost) : node;
  }

  private static YamlNode.Mapping within(YamlNode.Mapping mapping, Span lost) {
    List<YamlNode.Entry> entries = new ArrayList<>(mapping.entries());
    int before = entries.size() - 1;
    while (before >= 0 && entries.get(before).key().span().start() > lost.start()) {
      before--;
    }
    if (before >= 0 && belongs(lost, entries.get(before).value(), mapping.span())) {
      YamlNode.Entry entry = entries.get(before);
      entries.set(before, new YamlNode.Entry(entry.key(), put(entry.value(), lost)));
      return new YamlNode.Mapping(entries, mapping.unread(), mapping.span());
    }
    List<Span> unread = new ArrayList<>(mapping.unread());
    unread.add(lost);
    return new YamlNode.Mapping(entries, unread, mapping.span());
  }

  private static YamlNode.Sequence within(YamlNode.Sequence sequence, Span lost) {
    List<YamlNode> items = new ArrayList<>(sequence.items());
    int after = 0;
    while (after < items.size() && items.get(after).span().start() < lost.start()) {
      after++;
    }
    if (after > 0 && belongs(lost, items.get(after - 1), sequence.span())) {
      items.set(after - 1, put(items.get(after - 1), lost));
    } else {
      items.add(after, new YamlNode.Unread(lost));
    }
    return new YamlNode.Sequence(items, sequence.span());
  }

  /**
   * True for lines in the brackets of a value, or below it and further in than what holds it; what
   * opens a list or keys is the value of a key without one, however far in it stands.
   */
  private static boolean belongs(Span lost, YamlNode value, Span holder) {
    if (lost.start() < value.span().end()) {
      return true;
    }
    if (value instanceof YamlNode.Scalar scalar) {
      return scalar.isNothing()
          && (column(lost) > column(holder) || "{[-".indexOf(first(lost)) >= 0);
    }
    boolean takesLines = value instanceof YamlNode.Unread || "{[".indexOf(first(value.span())) < 0;
    return takesLines && column(lost) > column(holder);
  }

  private static char first(Span span) {
    return span.start() < span.end() ? span.file().text().charAt(span.start()) : ' ';
  }

  private static int column(Span span) {
    SourceFile file = span.file();
    return span.start() - file.lineStart(file.position(span.start()).line());
  }
}
