package dev.doublet.failure;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import java.util.List;

/** Something that would remove a hazard. */
public sealed interface Remedy {

  /**
   * Each of some colours by an LED of its own: no colour can then lose half of its light, it goes
   * dark instead.
   *
   * @param colours at least one
   */
  record OwnLed(List<String> colours) implements Remedy {

    /** Copies the list. */
    public OwnLed {
      colours = List.copyOf(colours);
    }
  }

  /**
   * Two lamps at once for what a head shows by one.
   *
   * @param shown at least one
   */
  record TwoLamps(List<HeadLook> shown) implements Remedy {

    /** Copies the list. */
    public TwoLamps {
      shown = List.copyOf(shown);
    }

    /**
     * What one head shows.
     *
     * @param look a colour or figure
     * @param place the head's place in its form
     */
    public record HeadLook(String look, String place) {}
  }

  /** Another picture for the aspect. */
  record OtherPicture(List<Display> picture) implements Remedy {

    /** Copies the list. */
    public OtherPicture {
      picture = List.copyOf(picture);
    }
  }

  /** Another rule of the book for signals that are imperfectly displayed. */
  record OtherRule(Imperfect rule) implements Remedy {}
}
