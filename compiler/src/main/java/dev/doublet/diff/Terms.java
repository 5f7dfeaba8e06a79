package dev.doublet.diff;

import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Colour;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Figure;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.rulebook.Movement;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission;
import dev.doublet.rulebook.Plate;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.rulebook.Speed;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.Collectors;

/**
 * A rulebook's names in the words of its next version. What has another name there, and is the same
 * in all else, is renamed, where only one fits.
 */
final class Terms {
  private final Map<String, String> looks = new TreeMap<>();
  private final Map<String, String> rhythms;
  private final Map<String, String> speeds;
  private final Map<String, String> forms;
  private final Map<String, String> plates;
  private final Map<String, String> heads;

  private Terms(Rulebook before, Rulebook after) {
    looks.putAll(renamed(before.colours(), after.colours(), Colour::name, Colour::published));
    rhythms =
        renamed(
            before.rhythms(),
            after.rhythms(),
            Rhythm::name,
            r -> r.perMinute() + " " + r.litPercent() + " " + r.startsDark());
    speeds =
        renamed(
            before.speeds(),
            after.speeds(),
            Speed::name,
            s -> s.rank() + " " + s.figure() + " " + s.onSight());
    forms =
        renamed(
            before.forms(),
            after.forms(),
            Form::name,
            f -> f.mount() + " " + f.places() + " " + f.withoutStop());
    plates =
        renamed(
            before.plates(), after.plates(), Plate::name, p -> Boolean.toString(p.withoutStop()));
    Map<String, String> figures = new TreeMap<>();
    for (HeadType head : before.heads()) {
      for (HeadType other : after.heads()) {
        if (head.name().equals(other.name())) {
          figures.putAll(
              renamed(
                  head.figures(),
                  other.figures(),
                  Figure::name,
                  f ->
                      f.lit().stream()
                          .map(l -> l.lamp() + look(l.colour()) + " " + rhythm(l.rhythm()))
                          .toList()
                          .toString()));
        }
      }
    }
    figures.keySet().removeIf(name -> after.heads().stream().anyMatch(h -> has(h, name)));
    looks.putAll(figures);
    heads = renamed(before.heads(), after.heads(), HeadType::name, this::make);
  }

  private static boolean has(HeadType head, String figure) {
    return head.figures().stream().anyMatch(f -> f.name().equals(figure));
  }

  /** The names of one version in those of another. */
  static Terms of(Rulebook before, Rulebook after) {
    return new Terms(before, after);
  }

  private static <T> Map<String, String> renamed(
      List<T> before, List<T> after, Function<T, String> name, Function<T, String> content) {
    Map<String, List<String>> gone = only(before, after, name, content);
    Map<String, List<String>> added = only(after, before, name, content);
    Map<String, String> renamed = new TreeMap<>();
    gone.forEach(
        (same, names) -> {
          List<String> others = added.getOrDefault(same, List.of());
          if (names.size() == 1 && others.size() == 1) {
            renamed.put(names.get(0), others.get(0));
          }
        });
    return renamed;
  }

  private static <T> Map<String, List<String>> only(
      List<T> these, List<T> those, Function<T, String> name, Function<T, String> content) {
    List<String> known = those.stream().map(name).toList();
    Map<String, List<String>> only = new HashMap<>();
    for (T one : these) {
      if (!known.contains(name.apply(one))) {
        only.computeIfAbsent(content.apply(one), c -> new ArrayList<>()).add(name.apply(one));
      }
    }
    return only;
  }

  /** What was renamed: the kind of name, and old names with new ones. */
  Map<String, Map<String, String>> all() {
    Map<String, Map<String, String>> all = new TreeMap<>();
    all.put("look", looks);
    all.put("rhythm", rhythms);
    all.put("speed", speeds);
    all.put("form", forms);
    all.put("plate", plates);
    all.put("head", heads);
    return all;
  }

  String look(String name) {
    return looks.getOrDefault(name, name);
  }

  String rhythm(String name) {
    return rhythms.getOrDefault(name, name);
  }

  String speed(String name) {
    return speeds.getOrDefault(name, name);
  }

  String form(String name) {
    return forms.getOrDefault(name, name);
  }

  String plate(String name) {
    return plates.getOrDefault(name, name);
  }

  String head(String name) {
    return heads.getOrDefault(name, name);
  }

  List<String> plates(List<String> names) {
    return names.stream().map(this::plate).sorted().toList();
  }

  Display display(Display display) {
    return new Display(look(display.look()), rhythm(display.rhythm()));
  }

  List<Display> displays(List<Display> displays) {
    return displays.stream().map(this::display).toList();
  }

  List<Choice> choices(List<Choice> choices) {
    return choices.stream()
        .map(c -> new Choice(displays(c.displays()), c.letter(), c.span()))
        .toList();
  }

  /** A pattern in words, which say all of it but its form and plates. */
  String words(Pattern pattern) {
    return choices(pattern.choices()).stream()
        .map(Choice::words)
        .collect(Collectors.joining(" over "));
  }

  /** What a make of head has, in words. */
  String make(HeadType head) {
    List<String> words = new ArrayList<>();
    for (Lamp lamp : head.lamps()) {
      words.add(
          lamp.name()
              + " shows "
              + lamp.colours().stream()
                  .map(c -> look(c.name()))
                  .sorted()
                  .collect(Collectors.joining(", ")));
    }
    if (head.isArm()) {
      return head.positions().stream()
          .map(p -> look(p) + by(head, p))
          .collect(Collectors.joining(", ", "arm shows ", ""));
    }
    for (Figure figure : head.figures()) {
      words.add(
          "figure "
              + look(figure.name())
              + " lights "
              + figure.lit().stream()
                  .map(
                      l ->
                          (l.rhythm().isEmpty() ? "" : rhythm(l.rhythm()) + " ")
                              + head.lamps().get(l.lamp()).name()
                              + " in "
                              + look(l.colour()))
                  .collect(Collectors.joining(", ")));
    }
    List<String> first = words.subList(head.lamps().size(), words.size());
    List<String> sorted = first.stream().sorted().toList();
    List<String> all = new ArrayList<>(words.subList(0, head.lamps().size()));
    all.addAll(sorted);
    if (head.filament()) {
      all.add("filament");
    }
    if (!head.vane().isEmpty()) {
      all.add("vane " + look(head.vane()));
    }
    return String.join("; ", all);
  }

  private String by(HeadType arm, String position) {
    return arm.lights(position).orElse(List.of()).stream()
        .map(l -> " in " + look(l.colour()))
        .collect(Collectors.joining());
  }

  Permission permission(Permission said) {
    return new Permission(
        movement(said.here()),
        movement(said.next()),
        said.atShortDistance(),
        movement(said.second()));
  }

  private Movement movement(Movement said) {
    if (said instanceof Movement.Proceed proceed) {
      return new Movement.Proceed(speed(proceed.speed()));
    }
    if (said instanceof Movement.StopThen then) {
      return new Movement.StopThen(speed(then.speed()));
    }
    if (said instanceof Movement.Reducing reducing) {
      return new Movement.Reducing(speed(reducing.from()), speed(reducing.to()));
    }
    return said;
  }

  private Speed speed(Speed speed) {
    return new Speed(
        speed(speed.name()),
        speed.rank(),
        speed.figure(),
        speed.most(),
        speed.onSight(),
        speed.span());
  }
}
