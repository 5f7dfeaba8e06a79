package dev.doublet.layout;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import dev.doublet.source.Span;
import java.util.List;
import java.util.Optional;

/**
 * One signal that stands on the layout.
 *
 * @param name as the layout calls it
 * @param build how it is built; equal builds of one layout are the same object
 * @param mast how high its heads stand
 * @param note what to know of it on the layout; may be empty
 * @param fixed true when its addresses stay as they are wherever its module is carried
 * @param units one for the whole signal, or one a head where heads are commanded by themselves
 * @param span where it is declared
 */
public record Signal(
    String name, Build build, Mast mast, String note, boolean fixed, List<Unit> units, Span span) {

  /** Copies the list. */
  public Signal {
    units = List.copyOf(units);
  }

  /**
   * The name of the place of an arm; empty for a head commanded by itself, whose unit is named
   * after it.
   *
   * @param unit of this signal
   * @param servo what moves an arm of it
   */
  public Optional<String> place(Unit unit, Servo servo) {
    return unit.kind().isWholeSignal()
        ? Optional.of(build.form().places().get(servo.place()))
        : Optional.empty();
  }

  /**
   * How a signal is built, and what it was told to show.
   *
   * @param form its form
   * @param heads the make of head at each place, top to bottom
   * @param size how large it is
   * @param plates names of the plates it carries, sorted
   * @param wired indices of the places in chain order
   * @param feeds what lights its lamps, place of the chain by place; empty when each has an LED of
   *     its own
   * @param aspects the aspects it may show, in the order of its commands; empty where heads are
   *     commanded by themselves
   * @param asked true when the layout listed the aspects, false when they follow from the form
   */
  public record Build(
      Form form,
      List<HeadType> heads,
      Size size,
      List<String> plates,
      List<Integer> wired,
      List<Feed> feeds,
      List<Aspect> aspects,
      boolean asked) {

    /** Copies and sorts the lists. */
    public Build {
      heads = List.copyOf(heads);
      plates = plates.stream().sorted().toList();
      wired = List.copyOf(wired);
      feeds = List.copyOf(feeds);
      aspects = List.copyOf(aspects);
    }

    /** How many lamps it has. */
    public int lamps() {
      return heads.stream().mapToInt(h -> h.lamps().size()).sum();
    }

    /** Its lamps in the order of the chain. */
    public List<Lamp> lampsAlong() {
      return wired.stream().flatMap(place -> heads.get(place).lamps().stream()).toList();
    }

    /** The same, its lamps lit by so many LEDs and chips. */
    public Build lit(List<Feed> by) {
      return new Build(form, heads, size, plates, wired, by, aspects, asked);
    }

    /** What lights its lamps, place of the chain by place. */
    public List<Feed> places() {
      return feeds.isEmpty() ? Feed.leds(lamps()) : feeds;
    }
  }
}
