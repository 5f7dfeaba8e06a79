package dev.doublet.layout.read;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;

/**
 * What a number of a layout file counts. Files hold plain numbers; a unit that somebody types
 * beside one is understood well enough to say what to write instead.
 */
enum Measure {
  /** A count, or a ratio. */
  NONE("", ""),
  VOLTS("volts", "V"),
  AMPERES("amperes", "A"),
  MILLIAMPERES("milliamperes", "mA"),
  MILLISECONDS("milliseconds", "ms"),
  MICROSECONDS("microseconds", "µs"),
  METRES("metres", "m"),
  MILLIMETRES("millimetres", "mm"),
  SQUARE_MILLIMETRES("square millimetres", "mm²"),
  MILLICANDELA("millicandela", "mcd"),
  PERCENT("percent", "%"),
  GAUGE("AWG", "AWG"),
  BYTES("bytes", "B");

  private static final Pattern WITH_UNIT =
      Pattern.compile("(\\p{L}*)\\s*([0-9]{1,9}(?:\\.[0-9]{1,9})?)\\s*([^0-9\\s.,]\\S*)?");

  private static final int DECIMALS = 4;
  private static final Pattern PLAIN = Pattern.compile("[0-9]{1,9}(\\.[0-9]{1,9})?");

  private final String words;
  private final String symbol;

  Measure(String words, String symbol) {
    this.words = words;
    this.symbol = symbol;
  }

  /** The sign of its unit. */
  String symbol() {
    return symbol;
  }

  /** ", in volts"; empty for none. */
  String phrase() {
    return words.isEmpty() ? "" : ", in " + words;
  }

  /**
   * A number as it must be written.
   *
   * @param typed the number with the unit that was typed or meant: "2000 mA"
   * @param number what to write
   * @param certain false when it was guessed that this unit was meant
   */
  record Said(String typed, String number, boolean certain) {}

  /** What a text with a unit that can be counted so comes to; empty for any other text. */
  Optional<Said> of(String text) {
    Matcher match = WITH_UNIT.matcher(text.strip());
    if (!match.matches()) {
      return Optional.empty();
    }
    String unit = match.group(3) == null ? match.group(1) : match.group(3);
    return Unit.ofMeasure(this).stream()
        .filter(u -> u.spellings.contains(unit) || u.spellings.contains(fold(unit)))
        .findFirst()
        .map(u -> said(match.group(2), u, !u.rough));
  }

  /** What a number comes to if each other unit was meant, as long as it fits. */
  List<Said> guesses(String number, Takes<?> fits) {
    return Unit.LIKELY.stream()
        .filter(u -> PLAIN.matcher(number).matches() && Unit.ofMeasure(this).contains(u))
        .filter(u -> !u.symbol.equals(symbol))
        .map(u -> said(number, u, false))
        .filter(said -> fits.accepts(said.number))
        .toList();
  }

  private Said said(String number, Unit unit, boolean certain) {
    Unit own = Unit.of(symbol);
    BigDecimal value =
        new BigDecimal(number)
            .multiply(unit.factor)
            .divide(own.factor, DECIMALS, RoundingMode.HALF_UP)
            .stripTrailingZeros();
    return new Said(number + " " + unit.symbol, value.toPlainString(), certain);
  }

  private static String fold(String unit) {
    return unit.toLowerCase(Locale.ROOT);
  }

  /** The units that people type. Factors are to the first unit of the same sort. */
  private enum Unit {
    VOLT("V", "1", "v", "volt", "volts"),
    MILLIVOLT("mV", "0.001", "mv", "millivolt", "millivolts"),
    AMPERE("A", "1", "a", "amp", "amps", "ampere", "amperes"),
    MICROAMPERE("µA", "0.000001", "ua", "μa", "microamp", "microamps"),
    MILLIAMPERE("mA", "0.001", "ma", "milliamp", "milliamps", "milliampere", "milliamperes"),
    SECOND("s", "1", "sec", "second", "seconds"),
    MILLISECOND("ms", "0.001", "msec", "millisecond", "milliseconds"),
    MICROSECOND("µs", "0.000001", "us", "μs", "usec", "microsecond", "microseconds"),
    METRE("m", "1", "metre", "metres", "meter", "meters"),
    CENTIMETRE("cm", "0.01", "centimetre", "centimetres", "centimeter", "centimeters"),
    MILLIMETRE("mm", "0.001", "millimetre", "millimetres", "millimeter", "millimeters"),
    FOOT("ft", "0.3048", "foot", "feet", "'"),
    INCH("in", "0.0254", "inch", "inches", "\""),
    SQUARE_MILLIMETRE("mm²", "1", "mm2", "sqmm", "qmm"),
    MILLICANDELA("mcd", "1", "millicandela"),
    CANDELA("cd", "1000", "candela"),
    PERCENT("%", "1", "percent"),
    GAUGE("AWG", "1", "awg", "ga", "gauge"),
    BYTE("B", "1", "b", "byte", "bytes"),
    KILOBYTE("KB", "1024", "k", "kb", "kib"),
    MEGABYTE("MB", "1048576", "m", "mb", "mib");

    private static final List<List<Unit>> SORTS =
        List.of(
            List.of(VOLT, MILLIVOLT),
            List.of(AMPERE, MILLIAMPERE, MICROAMPERE),
            List.of(SECOND, MILLISECOND, MICROSECOND),
            List.of(METRE, CENTIMETRE, MILLIMETRE, FOOT, INCH),
            List.of(SQUARE_MILLIMETRE),
            List.of(MILLICANDELA, CANDELA),
            List.of(PERCENT),
            List.of(GAUGE),
            List.of(BYTE, KILOBYTE, MEGABYTE));

    /** Units that somebody may have in mind who writes none. */
    private static final List<Unit> LIKELY =
        List.of(MILLIVOLT, MILLIAMPERE, CENTIMETRE, MILLIMETRE, FOOT, SECOND, KILOBYTE);

    private final String symbol;
    private final BigDecimal factor;
    private final List<String> spellings;

    /** True where people mean more than one number by it. */
    private final boolean rough;

    Unit(String symbol, String factor, String... spellings) {
      this.symbol = symbol;
      this.factor = new BigDecimal(factor);
      List<String> all = new ArrayList<>(Arrays.asList(spellings));
      all.add(symbol);
      this.spellings = List.copyOf(all);
      this.rough = symbol.equals("KB") || symbol.equals("MB");
    }

    static Unit of(String symbol) {
      return Arrays.stream(values()).filter(u -> u.symbol.equals(symbol)).findFirst().orElseThrow();
    }

    static List<Unit> ofMeasure(Measure measure) {
      return SORTS.stream()
          .filter(sort -> sort.stream().anyMatch(u -> u.symbol.equals(measure.symbol)))
          .findFirst()
          .orElse(List.of());
    }
  }
}
