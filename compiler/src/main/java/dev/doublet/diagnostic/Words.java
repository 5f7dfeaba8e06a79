package dev.doublet.diagnostic;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Function;
import java.util.stream.Stream;

/** How checks put lists and counts into words. */
public final class Words {
  private static final int MOST = 10;

  private Words() {}

  /** A sentence with its values filled in, alike in every locale. */
  public static String say(String format, Object... values) {
    return String.format(Locale.ROOT, format, values);
  }

  /** A number with no more than two decimals, and none that are 0: "5", "3.7". */
  public static String number(double number) {
    String text = say("%.2f", number);
    return text.replaceAll("\\.?0+$", "");
  }

  /** A current as it is printed on fuses: "315 mA", "1.25 A". */
  public static String amps(double amps) {
    return amps < 1 ? say("%.0f mA", amps * 1000) : number(amps) + " A";
  }

  /** "red, green and yellow"; after ten, how many more. */
  public static String list(List<String> words) {
    return list(words, "and");
  }

  /** "A uses B uses A"; after ten, how many more. */
  static String chain(List<String> words, String link) {
    String between = " " + link + " ";
    return words.size() > MOST
        ? say("%s and %,d more", String.join(between, words.subList(0, MOST)), words.size() - MOST)
        : String.join(between, words);
  }

  private static String list(List<String> words, String joined) {
    if (words.size() > MOST) {
      return say(
          "%s %s %,d more", String.join(", ", words.subList(0, MOST)), joined, words.size() - MOST);
    }
    if (words.size() < 2) {
      return String.join("", words);
    }
    return String.join(", ", words.subList(0, words.size() - 1))
        + " "
        + joined
        + " "
        + words.get(words.size() - 1);
  }

  /** Two lists as one. */
  public static List<String> both(List<String> first, List<String> second) {
    return Stream.concat(first.stream(), second.stream()).toList();
  }

  /** The same of quoted names. */
  public static <T> String quoted(List<T> things, Function<T, String> name) {
    return list(quotes(things, name), "and");
  }

  /** The same with "or". */
  public static <T> String alternatives(List<T> things, Function<T, String> name) {
    return list(quotes(things, name), "or");
  }

  private static <T> List<String> quotes(List<T> things, Function<T, String> name) {
    return things.stream().map(t -> '"' + name.apply(t) + '"').toList();
  }

  /** The first of things that are alike: "W1", "W1 and 3 more like it". */
  public static String first(List<String> names) {
    return names.get(0) + (names.size() == 1 ? "" : say(" and %d more like it", names.size() - 1));
  }

  /** "1 aspect", "3 addresses". */
  public static String count(long count, String thing) {
    return count + " " + plural(count, thing);
  }

  /** The noun that goes with so many: "aspect", "addresses". */
  public static String plural(long count, String thing) {
    return count == 1 ? thing : thing + (thing.endsWith("s") ? "es" : "s");
  }

  /** Numbers in order, runs drawn together: "0, 4 and 7 to 31"; after ten runs, how many more. */
  public static String numbers(List<Integer> sorted) {
    return list(runs(sorted));
  }

  /** The same, each run on its own and none left out. */
  public static List<String> runs(List<Integer> sorted) {
    List<String> parts = new ArrayList<>();
    for (int i = 0; i < sorted.size(); i++) {
      int from = sorted.get(i);
      int to = from;
      while (i + 1 < sorted.size() && sorted.get(i + 1) == to + 1) {
        to = sorted.get(++i);
      }
      if (to == from + 1) {
        parts.add(Integer.toString(from));
        parts.add(Integer.toString(to));
      } else {
        parts.add(from == to ? Integer.toString(from) : from + " to " + to);
      }
    }
    return parts;
  }
}
