package dev.doublet.colour;

import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What the search finds for one of the families that Doublet has figures for, worked out once and
 * kept in a table, since a search of every set takes longer than everything else that a short run
 * does. A test searches anew.
 */
final class SolvedDrives {
  private final Map<String, Row> rows;

  private record Row(Drive drive, double margin) {}

  private SolvedDrives(Map<String, Row> rows) {
    this.rows = rows;
  }

  /** What is known of a family with all its bins, or of its middle alone; of others nothing. */
  static SolvedDrives of(LedFamily family) {
    Optional<LedFamily> known = LedFamily.named(family.name());
    if (known.filter(family::equals).isPresent()) {
      return read(family.name(), "all");
    }
    return known.map(LedFamily::middle).filter(family::equals).isPresent()
        ? read(family.name(), "middle")
        : new SolvedDrives(Map.of());
  }

  private static SolvedDrives read(String family, String bins) {
    Map<String, Row> rows = new HashMap<>();
    for (List<String> row : Rows.of("solved/" + family + ".csv")) {
      if (row.get(0).equals(bins)) {
        int[] levels = Arrays.stream(row.get(3).split(" ")).mapToInt(Integer::parseInt).toArray();
        rows.put(
            row.get(1) + " " + row.get(2),
            new Row(Drive.of(levels), Double.parseDouble(row.get(4))));
      }
    }
    return new SolvedDrives(rows);
  }

  /** The drive whose worst LED lies deepest inside a region, where it is known. */
  Optional<DriveSearch.Found> found(LedFamily family, String set, String colour) {
    return Optional.ofNullable(rows.get(set + " " + colour))
        .map(row -> new DriveSearch.Found(row.drive, row.margin, family.light(row.drive).y()));
  }
}
