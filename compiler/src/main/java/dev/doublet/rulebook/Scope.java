package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.source.Mention.Kind;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Every name that a rulebook declares, by kind, and what is wrong with it so far. */
final class Scope {
  final Mistakes mistakes = new Mistakes();
  private final Map<Kind, Names<?>> all = new EnumMap<>(Kind.class);
  private final Unread unread;
  private final Set<String> partial = new HashSet<>();
  private final Set<Kind> unwritten = EnumSet.noneOf(Kind.class);
  final Names<Speed> speeds;
  final Names<Colour> colours;
  final Names<Rhythm> rhythms;
  final Names<HeadType> heads;
  final Names<Form> forms;
  final Names<Plate> plates;
  final Names<Aspect> aspects;
  private Numbers numbers = Numbers.NONE;
  private boolean lacksNumbers;

  /**
   * Begins with no names.
   *
   * @param unread what of the book could not be read
   */
  Scope(Unread unread) {
    this.unread = unread;
    speeds = names(Kind.SPEED, "speed", "declare it in a speeds block, with a figure or a rank");
    colours = names(Kind.COLOUR, "colour", "declare it in a colours block");
    rhythms = names(Kind.RHYTHM, "rhythm", "declare it in a rhythms block, with its rate");
    heads = names(Kind.HEAD, "head", "declare it with its lamps");
    forms = names(Kind.FORM, "form", "declare it, as in: form NAME { top, bottom }");
    plates = names(Kind.PLATE, "plate", "declare it, as in: plate NAME");
    aspects = names(Kind.ASPECT, "aspect", "declare it");
  }

  private <T> Names<T> names(Kind kind, String word, String declare) {
    Names<T> names = new Names<>(word, declare, mistakes, name -> unread.mayDeclare(kind, name));
    all.put(kind, names);
    return names;
  }

  /** Something that is declared is not known whole. */
  void lose(Word name) {
    partial.add(name.text());
  }

  /** Something of a kind was left out, under a name that nobody knows. */
  void lose(Kind kind) {
    unwritten.add(kind);
  }

  /** True when something of a kind was left out. */
  boolean lacks(Kind kind) {
    return unwritten.contains(kind);
  }

  /**
   * What could not be read, once all names are resolved. Where anything is wrong, and nothing of
   * some kind is declared at all, a whole file of it may be missing.
   */
  Unread unread() {
    if (isSound()) {
      return Unread.NOTHING;
    }
    Set<String> names = new HashSet<>(unread.names());
    Set<Kind> kinds = new HashSet<>(unread.kinds());
    kinds.addAll(unwritten);
    names.addAll(partial);
    names.addAll(mistakes.unknown());
    all.forEach(
        (kind, all) -> {
          all.all().stream().filter(name -> !all.knows(name)).forEach(names::add);
          if (all.all().isEmpty() && !unread.any()) {
            kinds.add(kind);
          }
        });
    return new Unread(true, names, kinds);
  }

  /** True when a part that could not be read may declare such a name. */
  boolean mayDeclare(Kind kind, String name) {
    return unread.mayDeclare(kind, name);
  }

  /** True when nothing is wrong so far, so that what is missing was not written. */
  boolean isSound() {
    return !unread.any() && !mistakes.hasErrors();
  }

  /** What each declared name stands for, in words. */
  Map<String, String> kinds() {
    Map<String, String> kinds = new HashMap<>();
    for (Names<?> names : List.of(speeds, colours, rhythms, heads, forms, plates)) {
      names.all().forEach(name -> kinds.putIfAbsent(name, names.kind()));
    }
    return kinds;
  }

  /** A movement; an unknown speed is noted. */
  Movement movement(Tree.Movement tree) {
    if (tree.denied()) {
      return new Movement.NotStop();
    }
    if (tree.speed().isEmpty()) {
      return tree.stops() ? new Movement.Stop() : new Movement.Unsaid();
    }
    Optional<Speed> speed = speed(tree.speed().get(0));
    if (speed.isEmpty()) {
      return new Movement.Unread(tree.span());
    }
    if (!tree.reduced().isEmpty()) {
      Optional<Speed> reduced = speed(tree.reduced().get(0));
      return reduced.isPresent()
          ? reducing(speed.get(), reduced.get(), tree)
          : new Movement.Unsaid();
    }
    return tree.stops() ? new Movement.StopThen(speed.get()) : new Movement.Proceed(speed.get());
  }

  private Optional<Speed> speed(Tree.Pace tree) {
    if (!tree.numeral()) {
      return speeds.has(tree.name().text())
          ? speeds.find(tree.name())
          : numbers.speeds().stream()
              .filter(s -> s.name().equals(tree.name().text()))
              .findFirst()
              .or(() -> speeds.find(tree.name()));
    }
    return hasNumbers(tree.name())
        ? Optional.of(numbers.any(tree.name().text()))
        : Optional.empty();
  }

  /** The numbers of the book. */
  Numbers numbers() {
    return numbers;
  }

  /**
   * Learns the numbers of the book, before any aspect is read.
   *
   * @param said true when the book has a line of them, of which mistakes are noted already
   */
  void declare(Numbers declared, boolean said) {
    numbers = declared;
    lacksNumbers = said && declared.figures().isEmpty();
  }

  /** True when a letter can stand for a number; that there are none is noted once. */
  boolean hasNumbers(Word letter) {
    if (numbers.figures().isEmpty() && !unread.any() && !lacksNumbers) {
      lacksNumbers = true;
      mistakes.wrong(
          "incomplete",
          letter.span(),
          "the book has no numbers for {letter} to stand for",
          "a letter in braces is any of the numbers that the book declares.",
          "declare them, as in: numbers times 10 { 4 6 8 }.",
          Datum.of("letter", Numerals.words(letter.text())));
    }
    return !numbers.figures().isEmpty();
  }

  /** The aspect of a name, of one number where the name says so; an unknown one is noted. */
  Optional<Aspect> aspect(Word name) {
    if (aspects.has(name.text())) {
      return aspects.find(name);
    }
    Optional<Aspect> known =
        aspects.values().stream()
            .flatMap(a -> a.named(numbers.in(name.text())).stream())
            .findFirst();
    if (known.isEmpty() && !lacksNumber(name)) {
      aspects.find(name);
    }
    return known;
  }

  /** Notes the number that makes a name none of its family's; false where it is not plain. */
  private boolean lacksNumber(Word name) {
    String written = name.span().text();
    Optional<String> missing =
        aspects.values().stream()
            .flatMap(a -> a.numerals().digits(name.text()).stream().flatMap(List::stream))
            .filter(n -> !declares(n) && written.indexOf(n) == written.lastIndexOf(n))
            .findFirst();
    missing.ifPresent(
        n -> {
          int start = name.span().start() + written.indexOf(n);
          unknownNumber(new Word(n, name.span().file().span(start, start + n.length())));
        });
    return missing.isPresent();
  }

  private boolean declares(String number) {
    return numbers.displays().stream().anyMatch(d -> d.look().equals(number));
  }

  /** Notes a number that the book does not declare. */
  void unknownNumber(Word number) {
    mistakes.unknown(
        "number",
        number,
        numbers.displays().stream().map(Display::look).toList(),
        "declare it, among the numbers of the book");
  }

  private Movement reducing(Speed from, Speed to, Tree.Movement tree) {
    if (from.pace().atMost(to.pace())) {
      mistakes.wrong(
          "contradiction",
          tree.span(),
          "\"{speed}\" is no less than \"{other-speed}\"",
          "a train that reduces its speed goes slower than before.",
          "name a lower speed after \"reducing to\", or leave it away.",
          Datum.of("speed", to.name()),
          Datum.of("other-speed", from.name()));
    }
    return new Movement.Reducing(from, to);
  }

  /** Words without those that repeat an earlier one, which are noted. */
  List<Word> distinct(List<Word> words, String what) {
    Map<String, Word> distinct = new LinkedHashMap<>();
    for (Word word : words) {
      Word first = distinct.putIfAbsent(word.text(), word);
      if (first != null) {
        mistakes.duplicate(
            word.span(),
            "the {kind} \"{name}\" is listed twice",
            first.span(),
            "once is enough, so another one may be meant.",
            "remove one of the two.",
            Datum.of("kind", what),
            Datum.of("name", word.text()));
      }
    }
    return List.copyOf(distinct.values());
  }

  /** A number that signals show; empty after noting that it is none. */
  OptionalInt figure(Word word, int least, int most) {
    OptionalInt figure =
        number(word, "a number", least, most, "a speed or a route has three digits at most.");
    if (figure.isPresent() && word.text().length() > 1 && word.text().startsWith("0")) {
      mistakes.wrong(
          "malformed-value",
          word.span(),
          "the number {number} is written {written}",
          "names of aspects and displays say a number without noughts before it.",
          "write {number}.",
          Datum.of("number", figure.getAsInt()),
          Datum.of("written", word.text()));
    }
    return figure;
  }

  /** A whole number of a text; empty after noting that it is none that is allowed. */
  OptionalInt number(Word word, String what, int least, int most, String why) {
    String digits = word.text().replaceFirst("^0+(?=.)", "");
    int value = digits.length() > 9 ? Integer.MAX_VALUE : Integer.parseInt(digits);
    if (value >= least && value <= most) {
      return OptionalInt.of(value);
    }
    mistakes.wrong(
        "out-of-range",
        word.span(),
        "{what} is from {least} to {most}, not {value}",
        why,
        "write a whole number from {least} to {most}.",
        Datum.of("what", what),
        Datum.of("least", least),
        Datum.of("most", most),
        Datum.of("value", word.text()));
    return OptionalInt.empty();
  }
}
