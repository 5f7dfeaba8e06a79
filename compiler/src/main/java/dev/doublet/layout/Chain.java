package dev.doublet.layout;

import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

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

  /**
   * LEDs that one supply feeds.
   *
   * @param from the first, from 1
   * @param to the last
   * @param supply what feeds them
   * @param feeds where power is led in
   */
  public record Section(int from, int to, Supply supply, List<Integer> feeds) {

    /** Copies the list. */
    public Section {
      feeds = List.copyOf(feeds);
    }
  }

  /** The same chain with another cable or other feeds. */
  public Chain wired(Cable other, List<Integer> fedAt) {
    return new Chain(name, index, part, brightness, night, leds, supply, other, fedAt, span);
  }

  /** The same chain on another supply. */
  public Chain on(Supply other) {
    return new Chain(name, index, part, brightness, night, leds, other, cable, feeds, span);
  }

  /** Its sections, one a supply, from its start; a further supply's begins where it is led in. */
  public List<Section> sections() {
    List<Section> sections = new ArrayList<>();
    Supply by = supply;
    int from = 1;
    List<Integer> of = new ArrayList<>();
    for (int feed : feeds) {
      Optional<Supply> other = cable.lay().feed(feed).flatMap(Lay.Feed::supply);
      if (other.isPresent()) {
        sections.add(new Section(from, feed - 1, by, of));
        by = other.get();
        from = feed;
        of = new ArrayList<>();
      }
      of.add(feed);
    }
    sections.add(new Section(from, leds, by, of));
    return sections;
  }
}
