package dev.doublet.editor;

import dev.doublet.chart.Answers;
import dev.doublet.chart.AnswersText;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Numbers;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Speed;
import dev.doublet.source.Mention;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;

/** What the names of a rulebook and a layout mean, in a few words each. */
final class Meanings {
  private final Root root;

  Meanings(Root root) {
    this.root = root;
  }

  /** In one line; empty when it is not known. */
  String brief(Mention.Kind kind, String name) {
    return root.book().map(book -> brief(book, kind, name)).orElse("");
  }

  /**
   * In full, as paragraphs and lists.
   *
   * @return empty when it is not known
   */
  List<String> full(Mention.Kind kind, String name) {
    Optional<Aspect> aspect =
        kind == Mention.Kind.ASPECT
            ? root.book().flatMap(b -> b.aspect(name))
            : Optional.<Aspect>empty();
    if (aspect.isPresent()) {
      return aspect(root.book().get(), aspect.get());
    }
    if (kind == Mention.Kind.SIGNAL) {
      return signal(name);
    }
    if (kind == Mention.Kind.LED) {
      return led(name);
    }
    String brief = brief(kind, name);
    if (kind == Mention.Kind.COLOUR && !brief.isEmpty()) {
      return List.of(brief + drives(name));
    }
    return brief.isEmpty() ? List.of() : List.of(brief);
  }

  private static String brief(Rulebook book, Mention.Kind kind, String name) {
    return switch (kind) {
      case ASPECT -> book.aspect(name).map(a -> a.permission().words()).orElse("");
      case FORM -> book.form(name).map(Meanings::form).orElse("");
      case COLOUR ->
          book.colour(name)
              .map(c -> c.published().equals(name) ? "a colour" : "a colour, " + c.published())
              .orElse("");
      case RHYTHM ->
          book.rhythm(name)
              .map(r -> r.perMinute() + " a minute, " + r.litPercent() + " percent lit")
              .orElse("");
      case SPEED ->
          book.speeds().stream()
              .filter(s -> s.name().equals(name))
              .findFirst()
              .map(s -> speed(book, s))
              .orElse("");
      case HEAD ->
          book.heads().stream()
              .filter(h -> h.name().equals(name))
              .findFirst()
              .map(
                  h ->
                      h.isArm()
                          ? "an arm: " + String.join(", ", h.positions())
                          : h.lamps().stream()
                              .map(l -> l.name() + " " + colours(l))
                              .collect(Collectors.joining("; ", "lamps: ", "")))
              .orElse("");
      case PLATE -> book.plates().stream().anyMatch(p -> p.name().equals(name)) ? "a plate" : "";
      case LETTER -> numbers(book);
      case FIGURE ->
          book.numbers().displays().stream().anyMatch(d -> d.look().equals(name))
              ? "a number that signals show"
              : book.heads().stream().anyMatch(h -> h.positions().contains(name))
                  ? "a position of an arm"
                  : "a figure of lamps";
      default -> "";
    };
  }

  /** What a letter stands for. */
  private static String numbers(Rulebook book) {
    Numbers numbers = book.numbers();
    return numbers.displays().stream()
            .map(Display::look)
            .collect(Collectors.joining(", ", "a number: ", ""))
        + (numbers.times() > 1 ? "; times " + numbers.times() + ", a speed in " + book.unit() : "");
  }

  private static String colours(Lamp lamp) {
    return lamp.colours().stream().map(Colour::name).collect(Collectors.joining(", "));
  }

  private static String form(Form form) {
    return form.mount().words() + ": " + String.join(", ", form.places());
  }

  private static String speed(Rulebook book, Speed speed) {
    String figure =
        switch (speed.rank()) {
          case FIGURE -> speed.figure() + " " + book.unit();
          case NUMERAL -> speed.figure() + " to " + speed.most() + " " + book.unit();
          case MAXIMUM -> "the most that the line allows";
          case UNRANKED -> "in no known order to others";
        };
    return figure + (speed.onSight() ? " on sight" : "");
  }

  private static List<String> aspect(Rulebook book, Aspect aspect) {
    String rule = aspect.rule().isEmpty() ? "" : ", rule " + aspect.rule();
    String number =
        aspect.number() == Aspect.NO_NUMBER
            ? ""
            : ", number " + aspect.number() + (aspect.numerals().isOpen() ? " up" : "");
    String looks =
        book.forms().stream()
            .filter(form -> !aspect.patternsOn(form).isEmpty())
            .map(form -> form.name() + ": " + patterns(aspect.patternsOn(form)))
            .collect(Collectors.joining("\n"));
    return List.of(
            aspect.name() + rule + number,
            aspect.indication(),
            "allows " + aspect.permission().words(),
            aspect.numerals().letters().stream()
                .filter(letter -> aspect.numerals().isOpen())
                .map(letter -> letter + ": " + numbers(book))
                .collect(Collectors.joining("\n")),
            looks)
        .stream()
        .filter(part -> !part.isEmpty())
        .toList();
  }

  private static String patterns(List<Pattern> patterns) {
    return patterns.stream()
        .map(
            p ->
                p.words()
                    + (p.plates().isEmpty() ? "" : " with " + String.join(" and ", p.plates())))
        .collect(Collectors.joining(", or "));
  }

  /** What it answers to, with addresses as users count them and as packets carry them. */
  private List<String> signal(String name) {
    Optional<Signal> signal =
        root.layout().stream()
            .flatMap(facts -> facts.layout().controllers().stream())
            .flatMap(controller -> controller.signals().stream())
            .filter(s -> s.name().equals(name))
            .findFirst();
    if (signal.isEmpty()) {
      return List.of();
    }
    Answers answers = Answers.of(root.layout().get().layout()).ofSignal(name);
    return List.of(AnswersText.of(answers).stripTrailing());
  }

  private List<String> led(String name) {
    return root.layout().stream()
        .flatMap(facts -> facts.layout().controllers().stream())
        .flatMap(controller -> controller.chains().stream())
        .map(chain -> chain.part())
        .filter(part -> part.name().equals(name))
        .findFirst()
        .map(
            part ->
                List.of(
                    part.name() + ": " + part.family().name() + ", order " + part.order(),
                    part.drive().keySet().stream()
                        .map(colour -> colour + " " + part.drive().get(colour))
                        .collect(Collectors.joining("\n"))))
        .orElse(List.of());
  }

  /** How each kind of LED of the layout is driven for a colour. */
  private String drives(String colour) {
    return root.layout().stream()
        .flatMap(facts -> facts.layout().controllers().stream())
        .flatMap(controller -> controller.chains().stream())
        .map(chain -> chain.part())
        .distinct()
        .filter(part -> part.drive().containsKey(colour))
        .map(part -> "; on " + part.name() + " " + channels(part, colour))
        .distinct()
        .collect(Collectors.joining());
  }

  private static String channels(Part part, String colour) {
    List<String> names = List.of("red", "green", "blue", "white");
    List<Integer> drive = part.drive().get(colour);
    StringBuilder words = new StringBuilder();
    for (int i = 0; i < drive.size(); i++) {
      words.append(i == 0 ? "" : " ").append(names.get(i)).append(' ').append(drive.get(i));
    }
    return words.toString();
  }
}
