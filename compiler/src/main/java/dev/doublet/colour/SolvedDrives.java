package dev.doublet.colour;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;

/**
 * What the search finds for one of the families that Doublet has figures for, worked out once and
 * kept in a table, since a search of every set takes longer than everything else that a short run
 * does. A test searches anew.
 */
final class SolvedDrives {
  private final List<List<String>> rows;

  private SolvedDrives(List<List<String>> rows) {
    this.rows = rows;
  }

  /** What is known of a family with all its bins; of one that was measured, nothing. */
  static SolvedDrives of(LedFamily family) {
    return of(family, "all");
  }

  /** What is known of the LED from the middle of a family's bins. */
  static SolvedDrives ofMiddle(LedFamily family) {
    return of(family, "middle");
  }

  private static SolvedDrives of(LedFamily family, String bins) {
    boolean known = LedFamily.published().stream().anyMatch(f -> f == family);
    return new SolvedDrives(
        known
            ? Rows.of("solved/" + family.name() + ".csv").stream()
                .filter(row -> row.get(0).equals(bins))
                .toList()
            : List.of());
  }

  /** The drive whose worst LED lies deepest inside a region, where it is known. */
  Optional<DriveSearch.Candidate> found(LedFamily family, String set, String colour) {
    for (List<String> row : rows) {
      if (row.get(1).equals(set) && row.get(2).equals(colour)) {
        int[] levels = Arrays.stream(row.get(3).split(" ")).mapToInt(Integer::parseInt).toArray();
        Drive drive = Drive.of(levels);
        double margin = Double.parseDouble(row.get(4));
        return Optional.of(new DriveSearch.Candidate(drive, margin, family.light(drive).y()));
      }
    }
    return Optional.empty();
  }
}
