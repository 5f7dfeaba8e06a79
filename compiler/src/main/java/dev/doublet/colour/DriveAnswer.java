package dev.doublet.colour;

import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/** Whether an LED family can show a colour so that it lies in its published region. */
public sealed interface DriveAnswer {
  /**
   * What to send when it must be something: the drive that reaches the colour; or with which an LED
   * from the middle of the bins reaches it; or that reaches it in another set, with every LED or
   * with the one from the middle; or the nearest. Empty when no set has such a colour within reach
   * of this family.
   */
  Optional<Drive> closest();

  /**
   * The colour is reached by every LED of the bins.
   *
   * @param region the region it lies in
   * @param drive what to send
   * @param margin distance in x and y between the border and the LED of the bins that is nearest to
   *     it, 0 or more
   * @param light the light of an LED from the middle of the bins; Y in millicandela
   */
  record Reached(String colour, String set, Region region, Drive drive, double margin, Xyz light)
      implements DriveAnswer {
    @Override
    public Optional<Drive> closest() {
      return Optional.of(drive);
    }
  }

  /**
   * No drive brings every LED of the bins into the region.
   *
   * @param region the region that is missed
   * @param nearest the drive that misses by least
   * @param shortfall distance in x and y between the border and the LED of the bins that is
   *     farthest out, above 0
   * @param light the light of an LED from the middle of the bins at that drive
   * @param instead the same colour in other published sets that can be reached, widest margin first
   * @param middle what an LED from the middle of the bins can reach, in this set and the others,
   *     widest margin first: worth knowing for who measures the LEDs in hand
   */
  record OutOfReach(
      String colour,
      String set,
      Region region,
      Drive nearest,
      double shortfall,
      Xyz light,
      List<Reached> instead,
      List<Reached> middle)
      implements DriveAnswer {
    /** Copies the lists. */
    public OutOfReach {
      instead = List.copyOf(instead);
      middle = List.copyOf(middle);
    }

    /** What an LED from the middle of the bins reaches in the set asked for. */
    public Optional<Reached> ofMiddle() {
      return middle.stream().filter(one -> one.set().equals(set)).findFirst();
    }

    @Override
    public Optional<Drive> closest() {
      return Stream.of(ofMiddle().stream().toList(), instead, middle)
          .flatMap(List::stream)
          .map(Reached::drive)
          .findFirst()
          .or(() -> Optional.of(nearest));
    }
  }

  /**
   * The set has no region of that name.
   *
   * @param instead the colour in other sets that can be reached, widest margin first
   */
  record NotInSet(String colour, String set, List<Reached> instead) implements DriveAnswer {
    /** Copies the list. */
    public NotInSet {
      instead = List.copyOf(instead);
    }

    @Override
    public Optional<Drive> closest() {
      return instead.stream().map(Reached::drive).findFirst();
    }
  }
}
