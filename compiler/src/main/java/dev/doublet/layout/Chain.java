package dev.doublet.layout;

import dev.doublet.source.Span;

/**
 * One chain of LEDs on a controller.
 *
 * @param name as the layout calls it
 * @param index its place among the controller's chains, from 0
 * @param part what the LEDs are
 * @param brightness percent of full drive, 1 to 100
 * @param night percent of full drive by night, 1 to {@code brightness}
 * @param leds how many LEDs hang on it, gaps included
 * @param supplyVolts volts of its supply; 0 when not given
 * @param supplyMilliamps what its supply can give; 0 when not given
 * @param span where it is declared
 */
public record Chain(
    String name,
    int index,
    Part part,
    int brightness,
    int night,
    int leds,
    double supplyVolts,
    int supplyMilliamps,
    Span span) {

  /** A chain that is as bright by night as by day. */
  public Chain(
      String name,
      int index,
      Part part,
      int brightness,
      int leds,
      double supplyVolts,
      int supplyMilliamps,
      Span span) {
    this(name, index, part, brightness, brightness, leds, supplyVolts, supplyMilliamps, span);
  }
}
