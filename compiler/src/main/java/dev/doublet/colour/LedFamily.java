package dev.doublet.colour;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/**
 * A kind of addressable LED, named in neutral words of our own: wire protocol, channels, package
 * and what sets it apart.
 *
 * @param name such as {@code one-wire-rgb-5050}
 * @param dies in the order red, green, blue and, where it has one, white
 */
public record LedFamily(String name, List<Die> dies) {
  private static final List<LedFamily> PUBLISHED = read();

  /** Copies the list. */
  public LedFamily {
    dies = List.copyOf(dies);
  }

  /** All families that Doublet has figures for. */
  public static List<LedFamily> published() {
    return PUBLISHED;
  }

  /** The family of a name. */
  public static Optional<LedFamily> named(String name) {
    return PUBLISHED.stream().filter(f -> f.name.equals(name)).findFirst();
  }

  /**
   * This family with the die of the same channel replaced, so that a builder's own measurement
   * ({@link Die#measured}) takes the place of the maker's bins.
   */
  public LedFamily with(Die better) {
    return new LedFamily(
        name, dies.stream().map(d -> d.channel() == better.channel() ? better : d).toList());
  }

  /** The light of an LED from the middle of every bin; light adds, so there is no gamma in it. */
  public Xyz light(Drive drive) {
    Xyz sum = Xyz.DARK;
    for (int i = 0; i < dies.size(); i++) {
      sum = sum.plus(dies.get(i).middle().times(drive.level(i) / (double) Drive.FULL));
    }
    return sum;
  }

  /**
   * The light of LEDs from the corners of the bins: every corner of one lit die with every one of
   * the others.
   */
  public List<Xyz> corners(Drive drive) {
    List<Xyz> corners = List.of(Xyz.DARK);
    for (int i = 0; i < dies.size(); i++) {
      double share = drive.level(i) / (double) Drive.FULL;
      if (share > 0) {
        List<Xyz> more = new ArrayList<>();
        for (Xyz corner : corners) {
          dies.get(i).corners().forEach(die -> more.add(corner.plus(die.times(share))));
        }
        corners = more;
      }
    }
    return corners;
  }

  /** A family of one LED alone: the one from the middle of every bin. */
  public LedFamily middle() {
    return new LedFamily(
        name,
        dies.stream()
            .map(d -> new Die(d.channel(), List.of(d.middle()), d.middle(), d.evidence()))
            .toList());
  }

  /**
   * The colours of dies take a while to work out from their spectra, so they are kept in a table of
   * their own; a test works them out anew.
   */
  private static List<LedFamily> read() {
    Map<List<String>, List<String>> light = new HashMap<>();
    Rows.of("led-light.csv").forEach(row -> light.put(row.subList(0, 2), row));
    Map<String, List<Die>> families = new LinkedHashMap<>();
    for (List<String> row : Rows.of("led-families.csv")) {
      families
          .computeIfAbsent(row.get(0), name -> new ArrayList<>())
          .add(die(row, light.get(row.subList(0, 2))));
    }
    List<LedFamily> all = new ArrayList<>();
    families.forEach((name, dies) -> all.add(new LedFamily(name, dies)));
    return List.copyOf(all);
  }

  private static Die die(List<String> row, List<String> light) {
    return Die.of(
        Channel.valueOf(row.get(1).toUpperCase(Locale.ROOT)),
        colour(light, 2),
        colour(light, 4),
        colour(light, 6),
        number(row, 7),
        number(row, 8),
        row.get(9) + ": " + row.get(10));
  }

  private static Chromaticity colour(List<String> row, int column) {
    return new Chromaticity(number(row, column), number(row, column + 1));
  }

  private static double number(List<String> row, int column) {
    return Double.parseDouble(row.get(column));
  }
}
