package dev.doublet.layout.read;

import dev.doublet.layout.read.Takes.ByName;
import dev.doublet.layout.read.Takes.Each;
import dev.doublet.layout.read.Takes.Either;
import dev.doublet.layout.read.Takes.Keyed;
import dev.doublet.layout.read.Takes.Listed;
import dev.doublet.layout.read.Takes.Text;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Mention;
import dev.doublet.source.Mention.Kind;
import dev.doublet.source.Mentions;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Finds every place where a layout writes a name, its own or one of its rulebook, whatever else is
 * wrong there. The list of keys says which texts are names, and of what.
 */
final class LayoutNames {
  private final List<Mention> declared;
  private final List<Mention> found = new ArrayList<>();
  private final Map<String, String> formsOfKinds = new HashMap<>();

  /** The controller or the form that the names in hand are known in. */
  private String owner = "";

  private LayoutNames(List<Mention> declared) {
    this.declared = declared;
  }

  /** The places of all names of a layout and of its rulebook, which are one set of names. */
  static Mentions of(YamlNode.Mapping layout, Rulebook book) {
    return new Mentions(() -> gather(layout, book)).and(book.mentions());
  }

  private static List<Mention> gather(YamlNode.Mapping layout, Rulebook book) {
    List<Mention> declared =
        new ArrayList<>(
            book.mentions().all().stream()
                .filter(m -> m.declares() && m.kind() != Kind.LETTER)
                .toList());
    LayoutNames first = new LayoutNames(List.of());
    first.keyed(layout, List.of(Keys.LAYOUT));
    first.found.stream().filter(Mention::declares).forEach(declared::add);
    LayoutNames walk = new LayoutNames(declared);
    walk.formsOfKinds.putAll(first.formsOfKinds);
    walk.keyed(layout, List.of(Keys.LAYOUT));
    return walk.found;
  }

  /**
   * A value, be it of the wrong shape: a list where one thing belongs, or one where a list does.
   */
  private void value(YamlNode node, Takes<?> takes, Place place) {
    if (takes instanceof Either either) {
      either.sorts().forEach(sort -> value(node, sort, place));
    } else if (takes instanceof Text text && node instanceof YamlNode.Scalar scalar) {
      name(scalar, text, place);
    } else if (node instanceof YamlNode.Sequence sequence) {
      items(sequence, item(takes).orElse(takes), place);
    } else if (node instanceof YamlNode.Scalar) {
      item(takes).ifPresent(item -> value(node, item, place));
    } else if (takes instanceof Keyed keyed && node instanceof YamlNode.Mapping mapping) {
      keyed(mapping, keyed.places());
    } else if (takes instanceof ByName<?> named && node instanceof YamlNode.Mapping mapping) {
      mapping.entries().forEach(entry -> named(entry, named, place));
    }
  }

  /** What stands in a list. */
  private static Optional<Takes<?>> item(Takes<?> takes) {
    return takes instanceof Listed<?> listed
        ? Optional.of(listed.item())
        : takes instanceof Each<?> each ? Optional.of(each.item()) : Optional.empty();
  }

  /**
   * A signal that says neither its form nor its kind is built like the one before, and the first
   * like the only kind.
   */
  private void items(YamlNode.Sequence sequence, Takes<?> item, Place place) {
    if (item instanceof Text text && text.names().size() == Kind.values().length) {
      anything(sequence);
      return;
    }
    String outer = owner;
    if (item instanceof Keyed keyed && keyed.places().contains(Keys.SIGNAL)) {
      owner = formsOfKinds.size() == 1 ? formsOfKinds.values().iterator().next() : "";
    }
    sequence.items().forEach(node -> value(node, item, place));
    owner = outer;
  }

  private void keyed(YamlNode.Mapping mapping, List<Place> places) {
    String outer = owner;
    boolean signal = places.contains(Keys.SIGNAL);
    if (signal || places.contains(Keys.KIND)) {
      owner = form(mapping).orElse(signal ? owner : "");
    }
    for (YamlNode.Entry entry : mapping.entries()) {
      for (Place place : places) {
        Optional<Key<?>> key = place.key(entry.key().text());
        if (key.isPresent()) {
          value(entry.value(), key.get().takes(), place);
          break;
        }
      }
    }
    owner = signal ? owner : outer;
  }

  private Optional<String> form(YamlNode.Mapping signal) {
    return Section.peek(signal, Keys.FORM)
        .flatMap(LayoutNames::text)
        .or(() -> Section.peek(signal, Keys.KIND_OF).flatMap(LayoutNames::text).map(this::ofKind));
  }

  private String ofKind(String kind) {
    return formsOfKinds.getOrDefault(kind, "");
  }

  private static Optional<String> text(YamlNode.Entry entry) {
    return entry.value() instanceof YamlNode.Scalar scalar
        ? Optional.of(scalar.text())
        : Optional.empty();
  }

  private void named(YamlNode.Entry entry, ByName<?> by, Place place) {
    String outer = owner;
    if (by.names() instanceof Text text) {
      name(entry.key(), text, place);
    }
    if (by == Keys.CONTROLLERS.takes()) {
      owner = entry.key().text();
    }
    if (by == Keys.KINDS.takes() && entry.value() instanceof YamlNode.Mapping kind) {
      form(kind).ifPresent(form -> formsOfKinds.put(entry.key().text(), form));
    }
    value(entry.value(), by.value(), place);
    owner = outer;
  }

  private void name(YamlNode.Scalar scalar, Text text, Place place) {
    Set<Kind> kinds = text.names();
    if (kinds.isEmpty() || scalar.isNothing()) {
      return;
    }
    int space = scalar.text().indexOf(' ');
    if (kinds.contains(Kind.RHYTHM) || place == Keys.HEAD && kinds.contains(Kind.ASPECT)) {
      display(scalar);
    } else if (kinds.contains(Kind.PLACE) && space > 0) {
      // "top yellow": the place of a head, and one of its lamps.
      String of = scalar.text().substring(0, space);
      part(scalar, 0, space)
          .ifPresent(s -> found.add(new Mention(Kind.PLACE, owner, of, s, false)));
    } else {
      Kind kind = kinds.iterator().next();
      String in = kind == Kind.CHAIN || kind == Kind.PLACE ? owner : "";
      List<String> names =
          place == Keys.SIGNAL && kind == Kind.SIGNAL
              ? NameRun.names(scalar.text())
              : List.of(scalar.text());
      names.forEach(n -> found.add(new Mention(kind, in, n, scalar.span(), text.declares())));
    }
  }

  /** "flashing yellow": a rhythm, and a colour or a figure, whichever of the two the book knows. */
  private void display(YamlNode.Scalar scalar) {
    String words = scalar.text();
    int space = words.indexOf(' ');
    if (space > 0) {
      part(scalar, 0, space).ifPresent(s -> use(Kind.RHYTHM, words.substring(0, space), s));
    }
    String look = words.substring(space + 1);
    Optional<Span> at = part(scalar, space + 1, words.length());
    boolean figure = isDeclared(Kind.FIGURE, look);
    if (at.isPresent() && figure) {
      use(Kind.FIGURE, look, at.get());
    }
    boolean colour = isDeclared(Kind.COLOUR, look);
    if (at.isPresent() && (colour || !figure && !look.equals(Display.DARK.look()))) {
      use(Kind.COLOUR, look, at.get());
    }
  }

  /** Names of whatever is called so; a chain is that of a controller beside it, if there is one. */
  private void anything(YamlNode.Sequence names) {
    List<YamlNode.Scalar> scalars =
        names.items().stream()
            .filter(YamlNode.Scalar.class::isInstance)
            .map(YamlNode.Scalar.class::cast)
            .toList();
    Set<String> controllers =
        scalars.stream()
            .map(YamlNode.Scalar::text)
            .filter(name -> isDeclared(Kind.CONTROLLER, name))
            .collect(Collectors.toSet());
    for (YamlNode.Scalar scalar : scalars) {
      anything(
          scalar,
          declared(scalar.text())
              .filter(
                  m ->
                      m.kind() != Kind.CHAIN
                          || controllers.isEmpty()
                          || controllers.contains(m.owner()))
              .toList());
    }
  }

  /** A name of all that it may mean, or of a signal with the place of one of its heads. */
  private void anything(YamlNode.Scalar scalar, List<Mention> meant) {
    meant.forEach(m -> found.add(new Mention(m.kind(), m.owner(), m.name(), scalar.span(), false)));
    int space = scalar.text().lastIndexOf(' ');
    if (meant.isEmpty() && space > 0) {
      String signal = scalar.text().substring(0, space);
      declared(signal)
          .filter(m -> m.kind() == Kind.SIGNAL)
          .forEach(m -> part(scalar, 0, space).ifPresent(s -> use(Kind.SIGNAL, signal, s)));
    }
  }

  private Stream<Mention> declared(String name) {
    return declared.stream().filter(m -> m.name().equals(name));
  }

  private boolean isDeclared(Kind kind, String name) {
    return declared(name).anyMatch(m -> m.kind() == kind);
  }

  private void use(Kind kind, String name, Span span) {
    found.add(new Mention(kind, name, span, false));
  }

  /** Part of a text; empty where it is written otherwise than it reads. */
  private static Optional<Span> part(YamlNode.Scalar scalar, int from, int to) {
    Span span = scalar.span();
    int quote = scalar.quoted() ? 1 : 0;
    int start = span.start() + quote + from;
    int end = span.start() + quote + to;
    if (from == 0 && to == scalar.text().length()) {
      return Optional.of(span);
    }
    return end <= span.end()
            && span.file().text().substring(start, end).equals(scalar.text().substring(from, to))
        ? Optional.of(span.file().span(start, end))
        : Optional.empty();
  }
}
