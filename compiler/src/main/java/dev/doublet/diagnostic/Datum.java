package dev.doublet.diagnostic;

import dev.doublet.source.Visible;
import java.math.BigDecimal;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** One named value of a diagnostic for programs to read, so that none has to take words apart. */
public sealed interface Datum {
  /** Where a value belongs in a sentence, perhaps in quotation marks. */
  Pattern PLACE = Pattern.compile("(\"?)\\{([a-z][a-z-]*)}\\1");

  /** A word or a text. */
  static Datum of(String name, String value) {
    return new Texts(name, List.of(value));
  }

  /** Several words. */
  static Datum of(String name, List<String> values) {
    return new Texts(name, values);
  }

  /**
   * Several words, of which each has to do with the next.
   *
   * @param link what each does to the next: "uses"
   */
  static Datum chain(String name, String link, List<String> values) {
    return new Texts(name, values, link);
  }

  /** A plain whole number. */
  static Datum of(String name, long value) {
    return new Number(name, BigDecimal.valueOf(value), "");
  }

  /** A plain number, without decimals that are 0. */
  static Datum of(String name, double value) {
    return new Number(name, BigDecimal.valueOf(value).stripTrailingZeros(), "");
  }

  /**
   * How many of something.
   *
   * @param thing what is counted, in the singular: "head"
   */
  static Datum count(String name, long count, String thing) {
    return new Number(name, BigDecimal.valueOf(count), thing);
  }

  /**
   * A sentence with its values filled in, so that what people read and what programs read are one:
   * {@code "form {form} has {heads}"}. A name in quotation marks has each of its values so.
   *
   * @param sentence names data in braces; braces of any other name stay as they are
   */
  static String fill(String sentence, Datum... data) {
    return PLACE
        .matcher(sentence)
        .replaceAll(
            place ->
                Matcher.quoteReplacement(
                    Stream.of(data)
                        .filter(d -> d.name().equals(place.group(2)))
                        .findFirst()
                        .map(d -> d.words(place.group(1)))
                        .orElse(place.group())));
  }

  /**
   * The value as it stands in a sentence.
   *
   * @param mark what stands before and after each word
   */
  String words(String mark);

  /** What it is, in a word or two: "needed", "signals". */
  String name();

  /**
   * Texts: names of things, or a picture.
   *
   * @param values in order
   * @param link what stands between each and the next; empty for a list
   */
  record Texts(String name, List<String> values, String link) implements Datum {
    /** How many letters of a name are shown. */
    private static final int NAME = 100;

    /** Copies the list. */
    public Texts {
      values = List.copyOf(values);
    }

    /** A list. */
    public Texts(String name, List<String> values) {
      this(name, values, "");
    }

    @Override
    public String words(String mark) {
      List<String> marked = values.stream().map(v -> mark + shown(v, mark) + mark).toList();
      return link.isEmpty() ? Words.list(marked) : Words.chain(marked, link);
    }

    /** Names are made brief; what is to be written is not. */
    private String shown(String value, String mark) {
      return mark.isEmpty() || name.equals("write") ? value : Visible.brief(value, NAME);
    }
  }

  /**
   * One number.
   *
   * @param unit what it counts or measures, in the singular: "byte", "mA"; empty for a plain number
   */
  record Number(String name, BigDecimal value, String unit) implements Datum {
    @Override
    public String words(String mark) {
      return mark
          + (unit.isEmpty() ? value.toPlainString() : Words.count(value.longValueExact(), unit))
          + mark;
    }
  }

  /**
   * Whole numbers: values, addresses, LEDs.
   *
   * @param values in order
   */
  record Numbers(String name, List<Integer> values) implements Datum {
    /** Copies the list. */
    public Numbers {
      values = List.copyOf(values);
    }

    @Override
    public String words(String mark) {
      return values.stream().map(v -> mark + v + mark).collect(Collectors.joining(", "));
    }
  }
}
