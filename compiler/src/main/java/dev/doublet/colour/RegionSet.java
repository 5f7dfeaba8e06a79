package dev.doublet.colour;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * The signal colour regions of one published standard, under a neutral name of our own.
 *
 * <p>No published region was found for lunar white and for warm white. Where a set has white, we
 * split it (a choice of ours): lunar is its part with x up to 0.36, about 4500 K and cooler; warm
 * white its part with x from 0.42. The gap keeps the two at least 0.03 apart in u'v'. Amber is
 * another name for yellow. Purple is a choice of ours too, in a set of its own.
 *
 * @param name such as {@code marine}
 * @param citation the standard
 * @param regions in the order of the data
 */
public record RegionSet(String name, String citation, List<Region> regions) {
  /** Greatest x of lunar white. */
  static final double LUNAR_BELOW = 0.36;

  /** Least x of warm white. */
  static final double WARM_ABOVE = 0.42;

  /**
   * The set that colours are aimed at when nobody asks for one: of those made for LEDs, the one
   * whose green is kept from yellow for colour-deficient eyes, and whose red, yellow and green
   * every family reaches with an LED from the middle of its bins. A choice of ours.
   */
  private static final String USUAL = "road";

  private static final List<RegionSet> PUBLISHED = read();

  /** Copies the list. */
  public RegionSet {
    regions = List.copyOf(regions);
  }

  /** All sets that Doublet knows. */
  public static List<RegionSet> published() {
    return PUBLISHED;
  }

  /** The set of a name. */
  public static Optional<RegionSet> named(String name) {
    return PUBLISHED.stream().filter(set -> set.name.equals(name)).findFirst();
  }

  /** The set of a name, or the usual one where the name is empty or none is called so. */
  public static RegionSet aimedAt(String name) {
    return named(name).or(() -> named(USUAL)).orElseThrow();
  }

  /** The region of a colour; empty when this set has none. */
  public Optional<Region> region(String colour) {
    String sought = colour.equals("amber") ? "yellow" : colour;
    return regions.stream().filter(r -> r.colour().equals(sought)).findFirst();
  }

  /** The names of the colours this set has. */
  public List<String> colours() {
    return regions.stream().map(Region::colour).toList();
  }

  private static List<RegionSet> read() {
    Map<String, String> citations = new LinkedHashMap<>();
    for (List<String> row : Rows.of("region-sets.csv")) {
      citations.put(row.get(0) + "," + row.get(1), row.get(2));
    }
    Map<String, Region> regions = new LinkedHashMap<>();
    readCorners(citations, regions);
    readLines(citations, regions);
    List<RegionSet> sets = new ArrayList<>();
    for (Map.Entry<String, String> entry : citations.entrySet()) {
      if (entry.getKey().endsWith(",")) {
        String name = entry.getKey().substring(0, entry.getKey().length() - 1);
        sets.add(new RegionSet(name, entry.getValue(), ofSet(name, regions)));
      }
    }
    return List.copyOf(sets);
  }

  private static List<Region> ofSet(String name, Map<String, Region> regions) {
    List<Region> own = new ArrayList<>();
    for (Map.Entry<String, Region> entry : regions.entrySet()) {
      if (entry.getKey().startsWith(name + ",")) {
        own.add(entry.getValue());
      }
    }
    Optional<Region> white = own.stream().filter(r -> r.colour().equals("white")).findFirst();
    white.ifPresent(w -> own.add(w.within("lunar", new Line(1, 0, LUNAR_BELOW), "CHOICE")));
    white.ifPresent(w -> own.add(w.within("warm-white", new Line(-1, 0, -WARM_ABOVE), "CHOICE")));
    return own;
  }

  private static void readCorners(Map<String, String> citations, Map<String, Region> regions) {
    Map<String, List<List<String>>> corners = new LinkedHashMap<>();
    for (List<String> row : Rows.of("region-corners.csv")) {
      corners.computeIfAbsent(row.get(0) + "," + row.get(1), key -> new ArrayList<>()).add(row);
    }
    corners.forEach(
        (key, rows) ->
            regions.put(
                key,
                Region.ofCorners(
                    rows.get(0).get(1),
                    rows.stream().map(r -> new Chromaticity(number(r, 2), number(r, 3))).toList(),
                    citation(citations, rows.get(0)),
                    rows.get(0).get(4))));
  }

  private static void readLines(Map<String, String> citations, Map<String, Region> regions) {
    Map<String, List<List<String>>> lines = new LinkedHashMap<>();
    for (List<String> row : Rows.of("region-lines.csv")) {
      lines.computeIfAbsent(row.get(0) + "," + row.get(1), key -> new ArrayList<>()).add(row);
    }
    lines.forEach(
        (key, rows) ->
            regions.put(
                key,
                Region.ofLines(
                    rows.get(0).get(1),
                    rows.stream()
                        .map(r -> new Line(number(r, 2), number(r, 3), number(r, 4)))
                        .toList(),
                    citation(citations, rows.get(0)),
                    rows.get(rows.size() - 1).get(6))));
  }

  private static String citation(Map<String, String> citations, List<String> row) {
    String own = row.get(0) + "," + row.get(1);
    return citations.getOrDefault(own, citations.get(row.get(0) + ","));
  }

  private static double number(List<String> row, int column) {
    return Double.parseDouble(row.get(column));
  }
}
