package dev.doublet.layout;

import dev.doublet.source.Span;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A kind of driver chip: one place of a chain, whose outputs light an ordinary LED each. The
 * current of an output is held constant by the chip (common practice, from memory; a chip that only
 * switches is not provided for).
 *
 * @param name as the layout calls it
 * @param outputs names of its outputs, in the order in which it takes their bytes, 3 or 4
 * @param milliamps current of an output fully driven
 * @param milliampsAtRest what the chip itself takes
 * @param diodes the LEDs at its outputs by the colour that they show, as far as they are known
 * @param span where it is declared
 */
public record Chip(
    String name,
    List<String> outputs,
    double milliamps,
    double milliampsAtRest,
    SortedMap<String, Diode> diodes,
    Span span) {

  /** Copies list and map. */
  public Chip {
    outputs = List.copyOf(outputs);
    diodes = Collections.unmodifiableSortedMap(new TreeMap<>(diodes));
  }

  /** What is known of the LED that shows a colour. */
  public Diode diode(String colour) {
    return diodes.getOrDefault(colour, Diode.UNSAID);
  }

  /** Current through the LED that shows a colour when its output is fully driven. */
  public double milliamps(String colour) {
    return isLimited(colour) ? diode(colour).milliamps() : milliamps;
  }

  /** True when the LED that shows a colour is to have less than an output gives: by a resistor. */
  public boolean isLimited(String colour) {
    double wanted = diode(colour).milliamps();
    return wanted > 0 && wanted < milliamps;
  }
}
