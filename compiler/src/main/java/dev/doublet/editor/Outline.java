package dev.doublet.editor;

import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import dev.doublet.syntax.YamlNode;
import dev.doublet.syntax.YamlReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * What a text consists of, to find one's way in it.
 *
 * @param name what stands there
 * @param what its kind, in the word of the language or the key of the layout
 * @param whole all of it
 * @param place its name
 * @param inside what it consists of
 */
public record Outline(String name, String what, Span whole, Span place, List<Outline> inside) {

  /** Copies the list. */
  public Outline {
    inside = List.copyOf(inside);
  }

  /** Of a text, as far as it can be read. */
  public static List<Outline> of(SourceFile file) {
    if (LayoutResolver.isLayout(file.name())) {
      return YamlReader.read(file)
          .value()
          .map(root -> root instanceof YamlNode.Mapping m ? keys(m) : List.<Outline>of())
          .orElse(List.of());
    }
    return AspectsSyntax.parse(file)
        .value()
        .map(tree -> tree.declarations().stream().flatMap(d -> of(d).stream()).toList())
        .orElse(List.of());
  }

  /** The name of the signal of a layout that is written around a place. */
  static Optional<String> signalAt(SourceFile file, int offset) {
    return of(file).stream()
        .flatMap(Outline::all)
        .filter(o -> o.what().equals("signal"))
        .filter(o -> o.whole().start() <= offset && offset <= o.whole().end())
        .map(Outline::name)
        .findFirst();
  }

  /** What is declared by a name at a place. */
  static Optional<Outline> at(Span place) {
    return of(place.file()).stream()
        .flatMap(Outline::all)
        .filter(o -> o.place().start() == place.start() && o.place().end() == place.end())
        .findFirst();
  }

  private Stream<Outline> all() {
    return Stream.concat(Stream.of(this), inside.stream().flatMap(Outline::all));
  }

  private static Optional<Outline> of(Tree.Declaration declaration) {
    if (declaration instanceof Tree.BookLine book) {
      return one("rulebook", book.title(), book.span());
    } else if (declaration instanceof Tree.Head head) {
      return one(head.positions().isEmpty() ? "head" : "arm", head.name(), head.span());
    } else if (declaration instanceof Tree.Form form) {
      return one("form", form.name(), form.span());
    } else if (declaration instanceof Tree.Aspect aspect) {
      return one("aspect", aspect.name(), aspect.span());
    } else if (declaration instanceof Tree.Plates plates) {
      String names = plates.names().stream().map(Word::text).collect(Collectors.joining(", "));
      return Optional.of(leaf(names, "plate", plates.span(), plates.names().get(0).span()));
    } else if (declaration instanceof Tree.Speeds block) {
      return Optional.of(
          block("speeds", block.span(), block.speeds().stream().map(Tree.Speed::name)));
    } else if (declaration instanceof Tree.Colours block) {
      return Optional.of(
          block("colours", block.span(), block.colours().stream().map(Tree.Colour::name)));
    } else if (declaration instanceof Tree.Rhythms block) {
      return Optional.of(
          block("rhythms", block.span(), block.rhythms().stream().map(Tree.Rhythm::name)));
    }
    return Optional.empty();
  }

  private static Outline block(String what, Span span, Stream<Word> names) {
    List<Outline> inside = names.map(n -> leaf(n.text(), what, n.span(), n.span())).toList();
    Span word =
        new Span(span.file(), span.start(), Math.min(span.end(), span.start() + what.length()));
    return new Outline(what, what, span, word, inside);
  }

  private static Optional<Outline> one(String what, Word name, Span span) {
    return Optional.of(leaf(name.text(), what, span.to(name.span()), name.span()));
  }

  private static Outline leaf(String name, String what, Span whole, Span place) {
    return new Outline(name, what, whole, place, List.of());
  }

  /** Every key of the layout, and what it names; of controllers their chains, of those signals. */
  private static List<Outline> keys(YamlNode.Mapping layout) {
    List<Outline> all = new ArrayList<>();
    for (YamlNode.Entry entry : layout.entries()) {
      boolean controllers = entry.key().text().equals("controllers");
      all.add(key(entry, named(entry, e -> key(e, controllers ? chains(e) : List.of()))));
    }
    return all;
  }

  private static Outline key(YamlNode.Entry entry, List<Outline> inside) {
    String key = entry.key().text();
    Span whole = entry.key().span().to(entry.value().span());
    return new Outline(key, key, whole, entry.key().span(), inside);
  }

  private static List<Outline> named(
      YamlNode.Entry entry, Function<YamlNode.Entry, Outline> outline) {
    return entry.value() instanceof YamlNode.Mapping mapping
        ? mapping.entries().stream().map(outline).toList()
        : List.of();
  }

  private static List<Outline> chains(YamlNode.Entry controller) {
    return value(controller, "chains").stream()
        .flatMap(chains -> named(chains, chain -> key(chain, signals(chain))).stream())
        .toList();
  }

  private static Optional<YamlNode.Entry> value(YamlNode.Entry entry, String key) {
    return entry.value() instanceof YamlNode.Mapping mapping
        ? mapping.entries().stream().filter(e -> e.key().text().equals(key)).findFirst()
        : Optional.empty();
  }

  private static List<Outline> signals(YamlNode.Entry chain) {
    return value(chain, "signals")
        .map(signals -> signals.value() instanceof YamlNode.Sequence l ? signals(l) : null)
        .orElse(List.of());
  }

  private static List<Outline> signals(YamlNode.Sequence list) {
    List<Outline> signals = new ArrayList<>();
    for (YamlNode item : list.items()) {
      if (item instanceof YamlNode.Mapping mapping) {
        mapping.entries().stream()
            .filter(e -> e.key().text().equals("name"))
            .findFirst()
            .flatMap(
                e -> e.value() instanceof YamlNode.Scalar s ? Optional.of(s) : Optional.empty())
            .ifPresent(name -> signals.add(leaf(name.text(), "signal", item.span(), name.span())));
      }
    }
    return signals;
  }
}
