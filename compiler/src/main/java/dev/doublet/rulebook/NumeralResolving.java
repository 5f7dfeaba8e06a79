package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.Collections;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.OptionalInt;
import java.util.Set;

/** Makes sense of the numbers of a book, and of the letters that stand for them in its aspects. */
final class NumeralResolving {
  /** As many as a command has bits for. */
  private static final int MOST_ASPECTS = 256;

  private static final int MOST_TIMES = 100;

  private final Scope scope;

  NumeralResolving(Scope scope) {
    this.scope = scope;
  }

  /** The numbers that a book declares, each with its speed. */
  Numbers numbers(List<Tree.Numbers> trees) {
    if (trees.isEmpty()) {
      return Numbers.NONE;
    }
    Tree.Numbers tree = trees.get(0);
    for (Tree.Numbers other : trees.subList(1, trees.size())) {
      scope.mistakes.duplicate(
          other.span(),
          "the book declares its numbers twice",
          tree.span(),
          "a letter in braces stands for any of them.",
          "write all in one place.");
    }
    int times = 1;
    for (Word word : tree.times()) {
      times =
          scope
              .number(word, "what numbers are multiplied by", 1, MOST_TIMES, "a number is a speed.")
              .orElse(1);
    }
    List<Integer> figures = new ArrayList<>();
    List<Speed> speeds = new ArrayList<>();
    for (Word word : scope.distinct(tree.figures(), "number")) {
      OptionalInt figure = scope.figure(word, 1, 999 / times);
      if (figure.isPresent() && !figures.contains(figure.getAsInt())) {
        figures.add(figure.getAsInt());
        speeds.add(speed(figure.getAsInt() * times, word));
      }
    }
    if (tree.figures().isEmpty()) {
      scope.mistakes.wrong(
          "incomplete",
          tree.span(),
          "no number is declared here",
          "a letter in braces stands for any of them.",
          "write those that signals show, as in: numbers times 10 { 4 6 8 }.");
    }
    return new Numbers(figures, times, speeds);
  }

  /** A speed that the book names by a word is the same as that of a numeral. */
  private Speed speed(int figure, Word word) {
    return scope.speeds.values().stream()
        .filter(s -> s.rank() == Speed.Rank.FIGURE && s.figure() == figure && !s.onSight())
        .findFirst()
        .map(
            s -> {
              scope.speeds.use(s.name());
              return s;
            })
        .orElseGet(
            () ->
                new Speed(Integer.toString(figure), Speed.Rank.FIGURE, figure, false, word.span()));
  }

  /** The letters that an aspect names. */
  Numerals of(Tree.Aspect tree) {
    List<String> letters = Numerals.lettersOf(tree.name().text());
    return letters.isEmpty() || scope.numbers().figures().isEmpty()
        ? Numerals.NONE
        : new Numerals(tree.name().text(), letters, scope.numbers(), List.of());
  }

  /**
   * The last number that calls an aspect up, which has others before it when it is of many numbers;
   * less than the first after noting that they do not fit.
   */
  int last(Tree.Aspect tree, int first) {
    int letters = of(tree).letters().size();
    Word word = tree.numbers().get(0);
    boolean up = !tree.up().isEmpty();
    if (up && letters == 0 && bearsLetter(tree)) {
      // What the name lacks, or the book, is said elsewhere.
      return first - 1;
    }
    long count = count(letters);
    if (up != letters > 0) {
      scope.mistakes.wrong(
          "contradiction",
          word.span(),
          up
              ? "\"{aspect}\" is one aspect, and needs one number"
              : "\"{aspect}\" is {aspects}, and needs a number each",
          "each number of a numeral is called up by a value of its own, one after the other.",
          up ? "leave out \"up\"." : "write number {number} up.",
          Datum.of("aspect", tree.name().text()),
          Datum.count("aspects", count, "aspect"),
          Datum.of("number", first));
      return first - 1;
    }
    if (count > MOST_ASPECTS) {
      // That these are too many is said of the name.
      return first - 1;
    }
    if (first + count - 1 >= MOST_ASPECTS) {
      scope.mistakes.wrong(
          "out-of-range",
          word.span(),
          "number {number} up goes to {last}, and 255 is the last",
          "a command has eight bits for it.",
          "begin at {least} or lower.",
          Datum.of("number", first),
          Datum.of("last", (first + count - 1)),
          Datum.of("least", Math.max(0, MOST_ASPECTS - count)));
      return first - 1;
    }
    return (int) (first + count - 1);
  }

  private static boolean bearsLetter(Tree.Aspect tree) {
    return !Numerals.lettersOf(tree.name().text()).isEmpty()
        || tree.shows().stream()
            .flatMap(shows -> shows.patterns().stream())
            .flatMap(pattern -> pattern.choices().stream())
            .anyMatch(choice -> !choice.letter().isEmpty());
  }

  private long count(int letters) {
    return Math.round(Math.pow(scope.numbers().figures().size(), letters));
  }

  /** Holds the letters of each aspect's name against its patterns and its permission. */
  void check(List<Tree.Aspect> trees, List<Aspect> aspects) {
    Map<String, Tree.Aspect> written = new HashMap<>();
    trees.forEach(tree -> written.putIfAbsent(tree.name().text(), tree));
    Set<String> names = new HashSet<>(written.keySet());
    for (Aspect aspect : aspects) {
      Set<String> used = new LinkedHashSet<>();
      aspect.patterns().forEach(p -> used.addAll(p.letters()));
      aspect.permission().with(speed -> noted(speed, used));
      List<String> named = aspect.numerals().letters();
      used.removeAll(named);
      if (!used.isEmpty()) {
        String letter = Numerals.words(used.iterator().next());
        scope.mistakes.cited(
            "incomplete",
            aspect.span(),
            "\"{aspect}\" is of many numbers, and its name does not say {letter}",
            "with each number it is an aspect, and every aspect is known by one name",
            "49 CFR 236.23(c)",
            "name it as in: \"{aspect} {letter}\".",
            Datum.of("aspect", aspect.name()),
            Datum.of("letter", letter));
      } else if (count(named.size()) > MOST_ASPECTS) {
        scope.mistakes.wrong(
            "out-of-range",
            aspect.span(),
            "\"{aspect}\" is {aspects}",
            "no command carries more than " + MOST_ASPECTS + ".",
            "declare fewer numbers, or let it have fewer letters.",
            Datum.of("aspect", aspect.name()),
            Datum.count("aspects", count(named.size()), "aspect"));
      } else if (saysOnly(named, aspect, written.get(aspect.name())) && shows(aspect)) {
        aspect.each().stream()
            .map(Aspect::name)
            .filter(n -> !names.add(n))
            .findFirst()
            .ifPresent(twice -> reportName(aspect, twice, written.get(twice)));
      }
    }
  }

  /** True unless the words of an aspect of many numbers have a letter that its name lacks. */
  private boolean saysOnly(List<String> named, Aspect aspect, Tree.Aspect tree) {
    List<Word> words = new ArrayList<>(tree.indications());
    words.addAll(tree.was());
    for (Word word : named.isEmpty() ? List.<Word>of() : words) {
      List<String> others = new ArrayList<>(Numerals.lettersOf(word.text()));
      others.removeAll(named);
      if (!others.isEmpty()) {
        scope.mistakes.wrong(
            "contradiction",
            word.span(),
            "{letter} is no letter of the aspect \"{aspect}\"",
            "a letter stands for a number that the aspect shows.",
            "write {own}, or leave it out.",
            Datum.of("letter", Numerals.words(others.get(0))),
            Datum.of("aspect", aspect.name()),
            Datum.of("own", Numerals.words(named.get(0))));
        return false;
      }
    }
    return true;
  }

  private static Speed noted(Speed speed, Set<String> used) {
    if (speed.rank() == Speed.Rank.NUMERAL) {
      used.addAll(Numerals.lettersOf(speed.name()));
    }
    return speed;
  }

  /** True for an aspect of many numbers whose patterns each show one for every letter. */
  private boolean shows(Aspect aspect) {
    List<String> named = aspect.numerals().letters();
    for (Pattern pattern : aspect.patterns()) {
      List<String> letters = pattern.letters();
      if (letters.size() != named.size() || !letters.containsAll(named)) {
        String letter =
            named.stream()
                .filter(l -> Collections.frequency(letters, l) != 1)
                .findFirst()
                .orElseThrow();
        scope.mistakes.wrong(
            "incomplete",
            pattern.span(),
            "this shows "
                + (letters.contains(letter) ? "{letter} twice" : "no {letter}")
                + ", but "
                + (named.size() == 1 ? "a number makes" : "numbers make")
                + " the aspect \"{aspect}\"",
            "the crew reads each number from one head.",
            "let one head show it, as in: … over {letter}.",
            Datum.of("letter", Numerals.words(letter)),
            Datum.of("aspect", aspect.name()));
        return false;
      }
    }
    return !named.isEmpty();
  }

  private void reportName(Aspect aspect, String twice, Tree.Aspect otherOrNull) {
    scope.mistakes.duplicate(
        aspect.span(),
        "two aspects are called \"{name}\"",
        otherOrNull == null ? aspect.span() : otherOrNull.name().span(),
        "one name stands for one aspect.",
        "give one of the two another name.",
        Datum.of("name", twice));
  }
}
