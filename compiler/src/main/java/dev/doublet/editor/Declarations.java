package dev.doublet.editor;

import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * The parts of a text that each say one thing: a declaration of a rulebook; of a layout a signal,
 * another item of a list, or a key with a plain value.
 *
 * @param parts in their order, without overlaps
 */
record Declarations(List<Span> parts) {

  static Declarations of(SourceFile file) {
    List<Span> parts = new ArrayList<>();
    if (LayoutResolver.isLayout(file.name())) {
      YamlReader.read(file).value().ifPresent(root -> add(root, 0, parts));
    } else {
      AspectsSyntax.parse(file)
          .value()
          .ifPresent(
              tree -> tree.declarations().stream().map(Tree.Declaration::span).forEach(parts::add));
    }
    return new Declarations(parts);
  }

  /** The part that a place lies in. */
  Optional<Span> around(int offset) {
    int from = 0;
    int to = parts.size();
    while (from < to) {
      int middle = (from + to) / 2;
      boolean before = parts.get(middle).end() < offset;
      from = before ? middle + 1 : from;
      to = before ? to : middle;
    }
    return from < parts.size() && parts.get(from).start() <= offset
        ? Optional.of(parts.get(from))
        : Optional.empty();
  }

  private static void add(YamlNode node, int depth, List<Span> parts) {
    if (node instanceof YamlNode.Sequence list) {
      list.items().forEach(item -> parts.add(item.span()));
    } else if (node instanceof YamlNode.Mapping mapping) {
      for (YamlNode.Entry entry : mapping.entries()) {
        boolean holdsMore =
            entry.value() instanceof YamlNode.Mapping || entry.value() instanceof YamlNode.Sequence;
        boolean holdsSignals = depth < 2 || isOfController(entry);
        if (holdsMore && holdsSignals) {
          parts.add(entry.key().span());
          add(entry.value(), depth + 1, parts);
        } else {
          parts.add(entry.key().span().to(entry.value().span()));
        }
      }
    }
  }

  /**
   * Chains, and the signals of each, stand deeper than anything else that is worth its own part.
   */
  private static boolean isOfController(YamlNode.Entry entry) {
    return entry.key().text().equals("chains")
        || entry.key().text().equals("signals")
        || entry.value() instanceof YamlNode.Mapping mapping
            && mapping.entries().stream().anyMatch(e -> e.key().text().equals("signals"));
  }
}
