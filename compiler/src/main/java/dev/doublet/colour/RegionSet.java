package dev.doublet.colour;

import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;

/**
 * The signal colour regions of one published standard, under a neutral name of our own.
 *
 * <p>No published region was found for lunar white and for warm white. Where a set has white, we
 * split it (a choice of ours): lunar is its part with x up to 0.36, about 4500 K and cooler; warm
 * white its part with x from 0.42. The gap keeps the two at least 0.03 apart in u'v', and is where
 * plain white is aimed at rather than there: the region is widest near orange, and white would look
 * it. Amber is another name for yellow. Purple is a choice of ours too, in a set of its own.
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

  private static final Map<String, List<Region>> BY_COLOUR =
      PUBLISHED.stream()
          .flatMap(set -> set.regions.stream())
          .collect(Collectors.groupingBy(Region::colour));

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
    String sought = sought(colour);
    return regions.stream().filter(r -> r.colour().equals(sought)).findFirst();
  }

  /** True for light that some set takes for a colour. */
  public static boolean anyTakes(Chromaticity light, String colour) {
    return BY_COLOUR.getOrDefault(sought(colour), List.of()).stream()
        .anyMatch(region -> region.contains(light));
  }

  private static String sought(String colour) {
    return colour.equals("amber") ? "yellow" : colour;
  }

  /** The names of the colours this set has. */
  public List<String> colours() {
    return regions.stream().map(Region::colour).toList();
  }

  private static List<RegionSet> read() {
    Map<List<String>, String> citations = new LinkedHashMap<>();
    for (List<String> row : Rows.of("region-sets.csv")) {
      citations.put(row.subList(0, 2), row.get(2));
    }
    Map<List<String>, Region> regions = new LinkedHashMap<>();
    for (List<List<String>> rows : gathered("region-corners.csv")) {
      List<Chromaticity> corners = new ArrayList<>();
      rows.forEach(r -> corners.add(new Chromaticity(number(r, 2), number(r, 3))));
      List<String> key = rows.get(0).subList(0, 2);
      String evidence = rows.get(0).get(4);
      regions.put(key, Region.ofCorners(key.get(1), corners, citation(citations, key), evidence));
    }
    for (List<List<String>> rows : gathered("region-lines.csv")) {
      List<Line> lines = new ArrayList<>();
      rows.forEach(r -> lines.add(new Line(number(r, 2), number(r, 3), number(r, 4))));
      List<String> key = rows.get(0).subList(0, 2);
      String evidence = rows.get(rows.size() - 1).get(6);
      regions.put(key, Region.ofLines(key.get(1), lines, citation(citations, key), evidence));
    }
    List<RegionSet> sets = new ArrayList<>();
    citations.forEach(
        (key, citation) -> {
          if (key.get(1).isEmpty()) {
            sets.add(new RegionSet(key.get(0), citation, ofSet(key.get(0), regions)));
          }
        });
    return List.copyOf(sets);
  }

  private static List<Region> ofSet(String name, Map<List<String>, Region> regions) {
    List<Region> own = new ArrayList<>();
    regions.forEach(
        (key, region) -> {
          if (key.get(0).equals(name)) {
            own.add(region);
          }
        });
    Optional<Region> white = own.stream().filter(r -> r.colour().equals("white")).findFirst();
    white.ifPresent(
        w ->
            own.add(w.chosen("lunar", new Line(1, 0, LUNAR_BELOW), "with x up to " + LUNAR_BELOW)));
    white.ifPresent(
        w ->
            own.add(
                w.chosen("warm-white", new Line(-1, 0, -WARM_ABOVE), "with x from " + WARM_ABOVE)));
    return own;
  }

  /** The part of a white between lunar and warm white; empty for any other colour. */
  static Optional<Region> neutral(Region region) {
    return region.colour().equals("white")
        ? Optional.of(
            region
                .chosen("white", new Line(-1, 0, -LUNAR_BELOW), "with x from " + LUNAR_BELOW)
                .chosen("white", new Line(1, 0, WARM_ABOVE), "and up to " + WARM_ABOVE))
        : Optional.empty();
  }

  /** The rows of each set and colour together. */
  private static Collection<List<List<String>>> gathered(String resource) {
    Map<List<String>, List<List<String>>> gathered = new LinkedHashMap<>();
    for (List<String> row : Rows.of(resource)) {
      gathered.computeIfAbsent(row.subList(0, 2), key -> new ArrayList<>()).add(row);
    }
    return gathered.values();
  }

  private static String citation(Map<List<String>, String> citations, List<String> key) {
    return citations.getOrDefault(key, citations.get(List.of(key.get(0), "")));
  }

  private static double number(List<String> row, int column) {
    return Double.parseDouble(row.get(column));
  }
}
