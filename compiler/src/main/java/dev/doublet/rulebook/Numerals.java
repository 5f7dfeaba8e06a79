package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * The letters of an aspect, each of which stands for a number that one of its heads shows: one
 * aspect, of many numbers.
 *
 * @param family the aspect's name with its letters, as in "Slow {n}"; empty without letters
 * @param letters in the order of the name
 * @param numbers what they may stand for
 * @param shown the number of each letter; empty while they stand for any
 */
public record Numerals(String family, List<String> letters, Numbers numbers, List<Integer> shown) {
  /** Of an aspect without letters. */
  public static final Numerals NONE = new Numerals("", List.of(), Numbers.NONE, List.of());

  private static final Pattern LETTER = Pattern.compile("\\{([^{}]+)\\}");

  /** Copies the lists. */
  public Numerals {
    letters = List.copyOf(letters);
    shown = List.copyOf(shown);
  }

  /** A letter as the language writes it. */
  static String words(String letter) {
    return "{" + letter + "}";
  }

  /** The letters that a text names, each once, in their order. */
  public static List<String> lettersOf(String text) {
    LinkedHashSet<String> letters = new LinkedHashSet<>();
    Matcher matcher = LETTER.matcher(text);
    while (matcher.find()) {
      letters.add(matcher.group(1));
    }
    return List.copyOf(letters);
  }

  /** A text with its letters called by their order: what is the same whatever they are called. */
  public static String plain(String text) {
    List<String> letters = lettersOf(text);
    return LETTER
        .matcher(text)
        .replaceAll(m -> words(Integer.toString(letters.indexOf(m.group(1)))));
  }

  /** The same with other letters, as many, in their order. */
  public Numerals lettered(List<String> others) {
    Map<String, String> now = new LinkedHashMap<>();
    for (int i = 0; i < letters.size(); i++) {
      now.put(letters.get(i), others.get(i));
    }
    return new Numerals(lettered(family, now), others, numbers, shown);
  }

  /** A text with other letters for some. */
  static String lettered(String text, Map<String, String> others) {
    return LETTER
        .matcher(text)
        .replaceAll(
            m -> Matcher.quoteReplacement(words(others.getOrDefault(m.group(1), m.group(1)))));
  }

  /** Where a text names letters, without their braces. */
  static List<Span> lettersIn(Span text) {
    return LETTER
        .matcher(text.text())
        .results()
        .map(m -> text.file().span(text.start() + m.start(1), text.start() + m.end(1)))
        .toList();
  }

  /** A name of the family's once the family is called otherwise: "Crawl 6" for "Slow 6". */
  public String moved(String name, String other) {
    Optional<List<String>> each = stands(name, "[0-9]{1,3}|\\{[^{}]+\\}");
    return each.isEmpty()
        ? other
        : LETTER
            .matcher(other)
            .replaceAll(
                m -> {
                  int at = letters.indexOf(m.group(1));
                  return Matcher.quoteReplacement(at < 0 ? m.group() : each.get().get(at));
                });
  }

  /** A name of the family's once one of its numbers is another. */
  public String renumbered(String name, String number, String other) {
    Optional<List<String>> each = stands(name, "[0-9]{1,3}|\\{[^{}]+\\}");
    return each.isEmpty()
        ? name
        : LETTER
            .matcher(family)
            .replaceAll(
                m -> {
                  String stands = each.get().get(letters.indexOf(m.group(1)));
                  return Matcher.quoteReplacement(stands.equals(number) ? other : stands);
                });
  }

  /** True while the letters stand for any number. */
  public boolean isOpen() {
    return !letters.isEmpty() && shown.isEmpty();
  }

  /** The same with the numbers that are shown. */
  Numerals at(List<Integer> figures) {
    return new Numerals(family, letters, numbers, figures);
  }

  /** A text with numbers for its letters. */
  public String in(String text) {
    String with = text;
    for (int i = 0; i < shown.size(); i++) {
      with = with.replace(words(letters.get(i)), shown.get(i).toString());
    }
    return with;
  }

  /** A speed with the number for its letter, where it is one. */
  Speed in(Speed speed) {
    for (int i = 0; i < shown.size(); i++) {
      if (speed.rank() == Speed.Rank.NUMERAL && speed.name().equals(words(letters.get(i)))) {
        return numbers.speed(shown.get(i));
      }
    }
    return speed;
  }

  /** A choice with the number for its letter, where it has one. */
  Choice in(Choice choice) {
    return number(choice.letter())
        .map(n -> new Choice(List.of(Numbers.display(n)), choice.span()))
        .orElse(choice);
  }

  /** The number that a letter stands for; empty while that is any. */
  private Optional<Integer> number(String letter) {
    int at = letters.indexOf(letter);
    return at < 0 || shown.isEmpty() ? Optional.empty() : Optional.of(shown.get(at));
  }

  /** The numbers that make a name of the family's; empty when none do. */
  Optional<List<Integer>> named(String name) {
    return digits(name)
        .filter(
            digits -> numbers.displays().stream().map(Display::look).toList().containsAll(digits))
        .map(digits -> digits.stream().map(Integer::parseInt).toList());
  }

  /** What stands in a name for each letter of the family's, declared or not; empty in others. */
  Optional<List<String>> digits(String name) {
    return stands(name, "[0-9]{1,3}");
  }

  private Optional<List<String>> stands(String name, String forLetter) {
    Map<String, String> groups = new LinkedHashMap<>();
    StringBuilder shape = new StringBuilder();
    Matcher matcher = LETTER.matcher(family);
    int end = 0;
    while (matcher.find()) {
      shape.append(Pattern.quote(family.substring(end, matcher.start())));
      String letter = matcher.group(1);
      boolean first = groups.putIfAbsent(letter, "g" + groups.size()) == null;
      shape.append(
          first
              ? "(?<" + groups.get(letter) + ">" + forLetter + ")"
              : "\\k<" + groups.get(letter) + ">");
      end = matcher.end();
    }
    shape.append(Pattern.quote(family.substring(end)));
    Matcher found = Pattern.compile(shape.toString()).matcher(name);
    return letters.isEmpty() || !found.matches()
        ? Optional.empty()
        : Optional.of(letters.stream().map(l -> found.group(groups.get(l))).toList());
  }
}
