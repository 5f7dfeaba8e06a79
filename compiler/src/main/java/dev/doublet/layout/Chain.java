package dev.doublet.layout;

import dev.doublet.source.Span;
import java.util.List;

/**
 * One chain of LEDs on a controller.
 *
 * @param name as the layout calls it
 * @param index its place among the controller's chains, from 0
 * @param part what the LEDs are
 * @param brightness percent of full drive, 1 to 100
 * @param night percent of full drive by night, 1 to {@code brightness}
 * @param leds how many LEDs hang on it, gaps included
 * @param supply what feeds it; chains that share one have the same
 * @param cable the cable along it
 * @param feeds LEDs at which power is led in, counted from 1 and sorted; 0 is the cable's start
 * @param span where it is declared
 */
public record Chain(
    String name,
    int index,
    Part part,
    int brightness,
    int night,
    int leds,
    Supply supply,
    Cable cable,
    List<Integer> feeds,
    Span span) {

  /** Bit time of the single-wire chains, 800 kbit/s (makers' data sheets). */
  private static final double MICROS_A_BIT = 1.25;

  /** Copies and sorts the list. */
  public Chain {
    feeds = feeds.stream().distinct().sorted().toList();
  }

  /** How long it takes to send it once, in microseconds, with the rest after it. */
  public double refreshMicros() {
    return leds * microsAnLed() + part.latchMicros();
  }

  /** How many of its LEDs can be sent in so many microseconds, with the rest after them. */
  public int ledsSentIn(double micros) {
    return (int) Math.max(0, Math.floor((micros - part.latchMicros()) / microsAnLed()));
  }

  private double microsAnLed() {
    return part.channels() * 8 * MICROS_A_BIT;
  }
}
