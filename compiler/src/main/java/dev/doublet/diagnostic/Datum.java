package dev.doublet.diagnostic;

import java.math.BigDecimal;
import java.util.List;

/** One named value of a diagnostic for programs to read, so that none has to take words apart. */
public sealed interface Datum {

  /** What it is, in a word or two: "needed", "signals". */
  String name();

  /**
   * Words: names of things, or a picture.
   *
   * @param values in order
   */
  record Words(String name, List<String> values) implements Datum {
    /** Copies the list. */
    public Words {
      values = List.copyOf(values);
    }
  }

  /**
   * One number.
   *
   * @param unit what it counts or measures, in the singular: "byte", "mA"; empty for a plain number
   */
  record Number(String name, BigDecimal value, String unit) implements Datum {}

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
  }
}
