package dev.doublet.colour;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
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

  /** A family of one LED alone: the one from the middle of every bin. */
  public LedFamily middle() {
    return new LedFamily(
        name,
        dies.stream()
            .map(d -> new Die(d.channel(), List.of(d.middle()), d.middle(), d.evidence()))
            .toList());
  }

  private static List<LedFamily> read() {
    Map<String, List<Die>> families = new LinkedHashMap<>();
    for (List<String> row : Rows.of("led-families.csv")) {
      families.computeIfAbsent(row.get(0), name -> new ArrayList<>()).add(die(row));
    }
    List<LedFamily> all = new ArrayList<>();
    families.forEach((name, dies) -> all.add(new LedFamily(name, dies)));
    return List.copyOf(all);
  }

  private static Die die(List<String> row) {
    String evidence = row.get(9) + ": " + row.get(10);
    if (row.get(1).equals(Channel.WHITE.toString())) {
      return Die.ofTemperatures(
          number(row, 5), number(row, 6), number(row, 7), number(row, 8), evidence);
    }
    Channel channel =
        row.get(1).equals(Channel.RED.toString())
            ? Channel.RED
            : row.get(1).equals(Channel.GREEN.toString()) ? Channel.GREEN : Channel.BLUE;
    return Die.ofWavelengths(
        channel,
        number(row, 2),
        number(row, 3),
        number(row, 4),
        number(row, 7),
        number(row, 8),
        evidence);
  }

  private static double number(List<String> row, int column) {
    return Double.parseDouble(row.get(column));
  }
}
