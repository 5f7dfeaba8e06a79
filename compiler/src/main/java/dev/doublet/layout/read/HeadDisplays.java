package dev.doublet.layout.read;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Mention;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;

/** The displays that heads commanded by themselves show, by name. */
final class HeadDisplays {
  private final Rulebook book;
  private final BookNames names;
  private final Complaints complaints;

  HeadDisplays(Rulebook book, BookNames names, Complaints complaints) {
    this.book = book;
    this.names = names;
    this.complaints = complaints;
  }

  /** "flashing yellow", "green" or "dark" as a display that a head can show. */
  Optional<Display> find(YamlNode.Scalar shown, HeadType type) {
    String text = shown.text();
    Display display =
        book.rhythms().stream()
            .filter(r -> text.startsWith(r.name() + " "))
            .findFirst()
            .map(r -> new Display(text.substring(r.name().length() + 1), r.name()))
            .orElse(Display.steady(text));
    boolean twice = !display.rhythm().isEmpty() && book.takesNoRhythm(display.look());
    if (type.lights(display.look()).isPresent() && !twice) {
      return Optional.of(display);
    }
    if (mayShow(type, text)) {
      complaints.lose();
    } else {
      complaints.unknownName(shown, "display of head " + type.name(), looks(type));
    }
    return Optional.empty();
  }

  /** True when the head, or the rhythm of a display, is not known whole. */
  private boolean mayShow(HeadType type, String display) {
    int space = display.indexOf(' ');
    return names.mayDeclare(Mention.Kind.HEAD, type.name())
        || space > 0 && names.mayDeclare(Mention.Kind.RHYTHM, display.substring(0, space));
  }

  /** All that a head can show, steady displays first. */
  private List<String> looks(HeadType type) {
    Set<String> steady = new LinkedHashSet<>();
    type.figures().forEach(f -> steady.add(f.name()));
    type.lamps().forEach(lamp -> lamp.colours().forEach(c -> steady.add(c.name())));
    steady.removeIf(look -> type.lights(look).isEmpty());
    List<String> looks = new ArrayList<>(steady);
    looks.add(Display.DARK.look());
    steady.removeIf(book::takesNoRhythm);
    book.rhythms().forEach(r -> steady.forEach(look -> looks.add(r.name() + " " + look)));
    return looks;
  }
}
