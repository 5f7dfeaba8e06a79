package dev.doublet.page;

import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * Where the lamps of a head are drawn. A book names the places of its lamps and measures none, so
 * names that say a direction are taken at their word; lamps of any other head stand in a column in
 * the order in which they are declared, or in rows when they are many.
 *
 * @param lamps the middle of each lamp, in spacings, right of and below the middle of the head
 */
record LampPlaces(List<Place> lamps) {

  /** A place, in spacings between neighbouring lamps. */
  record Place(double right, double down) {}

  /** The most lamps of a column (a choice of ours); more stand in about as many rows as columns. */
  private static final int LONGEST = 9;

  private static final Map<String, Place> STEPS =
      Map.ofEntries(
          Map.entry("n", new Place(0, -1)),
          Map.entry("north", new Place(0, -1)),
          Map.entry("top", new Place(0, -1)),
          Map.entry("upper", new Place(0, -1)),
          Map.entry("above", new Place(0, -1)),
          Map.entry("s", new Place(0, 1)),
          Map.entry("south", new Place(0, 1)),
          Map.entry("bottom", new Place(0, 1)),
          Map.entry("lower", new Place(0, 1)),
          Map.entry("below", new Place(0, 1)),
          Map.entry("w", new Place(-1, 0)),
          Map.entry("west", new Place(-1, 0)),
          Map.entry("left", new Place(-1, 0)),
          Map.entry("e", new Place(1, 0)),
          Map.entry("east", new Place(1, 0)),
          Map.entry("right", new Place(1, 0)),
          Map.entry("c", new Place(0, 0)),
          Map.entry("centre", new Place(0, 0)),
          Map.entry("center", new Place(0, 0)),
          Map.entry("middle", new Place(0, 0)),
          Map.entry("pivot", new Place(0, 0)),
          Map.entry("ne", new Place(1, -1)),
          Map.entry("nw", new Place(-1, -1)),
          Map.entry("se", new Place(1, 1)),
          Map.entry("sw", new Place(-1, 1)));

  /** The places of a head's lamps. */
  static LampPlaces of(HeadType head) {
    List<Place> told = new ArrayList<>();
    for (Lamp lamp : head.lamps()) {
      direction(lamp.name()).ifPresent(told::add);
    }
    boolean apart = new HashSet<>(told).size() == head.lamps().size();
    // A column of lamps called upper, centre and something else is a column still.
    boolean sideways = told.stream().anyMatch(place -> place.right() != 0);
    return apart && sideways ? new LampPlaces(centred(told)) : inOrder(head.lamps().size());
  }

  private static Optional<Place> direction(String name) {
    double right = 0;
    double down = 0;
    for (String word : name.split("-")) {
      Place step = STEPS.get(word);
      if (step == null) {
        return Optional.empty();
      }
      right += step.right();
      down += step.down();
    }
    return Optional.of(new Place(right, down));
  }

  private static LampPlaces inOrder(int lamps) {
    int across = lamps > LONGEST ? (int) Math.ceil(Math.sqrt(lamps)) : 1;
    List<Place> places = new ArrayList<>();
    for (int i = 0; i < lamps; i++) {
      places.add(new Place(i % across, i / across));
    }
    return new LampPlaces(centred(places));
  }

  private static List<Place> centred(List<Place> places) {
    double right = (least(places, true) + most(places, true)) / 2;
    double down = (least(places, false) + most(places, false)) / 2;
    return places.stream().map(p -> new Place(p.right() - right, p.down() - down)).toList();
  }

  /** How far the outermost lamps are apart from left to right, in spacings. */
  double width() {
    return most(lamps, true) - least(lamps, true);
  }

  /** How far they are apart from top to bottom, in spacings. */
  double height() {
    return most(lamps, false) - least(lamps, false);
  }

  private static double least(List<Place> places, boolean across) {
    return places.stream().mapToDouble(p -> across ? p.right() : p.down()).min().orElse(0);
  }

  private static double most(List<Place> places, boolean across) {
    return places.stream().mapToDouble(p -> across ? p.right() : p.down()).max().orElse(0);
  }
}
