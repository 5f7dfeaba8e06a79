package dev.doublet.layout;

import dev.doublet.colour.LedFamily;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * A kind of addressable LED.
 *
 * @param name as the layout calls it
 * @param order the order in which channels are sent, such as {@code GRB} or {@code RGBW}; each
 *     letter once
 * @param family what its dies shine, a builder's own measurements included
 * @param drive for each colour by name: how hard each channel is driven, 0 to 255, in the order
 *     red, green, blue, white, as many as the part has channels
 * @param milliampsPerChannel current of one channel fully driven
 * @param milliampsAtRest current of a dark LED
 * @param latchMicros how long the line must rest before the LEDs take what was sent
 * @param minimumVolts the least supply at which it works
 * @param maximumVolts the largest supply that it bears
 * @param span where it is declared, or the layout's first line for the built-in one
 */
public record Part(
    String name,
    String order,
    LedFamily family,
    SortedMap<String, List<Integer>> drive,
    double milliampsPerChannel,
    double milliampsAtRest,
    int latchMicros,
    double minimumVolts,
    double maximumVolts,
    Span span) {

  /** Copies the map. */
  public Part {
    SortedMap<String, List<Integer>> copy = new TreeMap<>();
    for (Map.Entry<String, List<Integer>> entry : drive.entrySet()) {
      copy.put(entry.getKey(), List.copyOf(entry.getValue()));
    }
    drive = java.util.Collections.unmodifiableSortedMap(copy);
  }

  /** Bytes sent for each LED: 3 or 4. */
  public int channels() {
    return order.length();
  }
}
