package dev.doublet.layout.read;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Plate;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Mention;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;

/**
 * The names of a rulebook that a layout uses. One that the book does not declare is complained of,
 * unless it may stand in a part of the book that could not be read: then nobody is to blame but the
 * book, of which that was said.
 */
final class BookNames {
  private final Rulebook book;
  private final Complaints complaints;

  /** The names of a book. */
  BookNames(Rulebook book, Complaints complaints) {
    this.book = book;
    this.complaints = complaints;
  }

  /** The form of a name. */
  Optional<Form> form(YamlNode.Scalar name) {
    return find(name, Mention.Kind.FORM, "form", book.forms(), Form::name);
  }

  /** The plate of a name. */
  Optional<Plate> plate(YamlNode.Scalar name) {
    return find(name, Mention.Kind.PLATE, "plate", book.plates(), Plate::name);
  }

  /** The make of head of a name. */
  Optional<HeadType> head(YamlNode.Scalar name) {
    return find(name, Mention.Kind.HEAD, "head", book.heads(), HeadType::name);
  }

  /** The aspect of a name. */
  Optional<Aspect> aspect(YamlNode.Scalar name) {
    Optional<Aspect> found = book.aspect(name.text());
    return found.isPresent()
        ? found
        : find(name, Mention.Kind.ASPECT, "aspect", book.aspects(), Aspect::name);
  }

  /** The colour of a name. */
  Optional<Colour> colour(YamlNode.Scalar name) {
    return find(name, Mention.Kind.COLOUR, "colour", book.colours(), Colour::name);
  }

  /** True when the book may say of a name what could not be read. */
  boolean mayDeclare(Mention.Kind kind, String name) {
    return book.unread().mayDeclare(kind, name);
  }

  private <T> Optional<T> find(
      YamlNode.Scalar name,
      Mention.Kind kind,
      String what,
      List<T> known,
      Function<T, String> nameOf) {
    Optional<T> found = known.stream().filter(k -> nameOf.apply(k).equals(name.text())).findFirst();
    if (found.isEmpty() && mayDeclare(kind, name.text())) {
      complaints.lose();
    } else if (found.isEmpty()) {
      complaints.unknownName(name, what, known.stream().map(nameOf).toList());
    }
    return found;
  }
}
