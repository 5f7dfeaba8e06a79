package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * The tables of what takes long to work out are what it comes to. {@code -Ddoublet.update=true}
 * writes them anew: first the light of the dies, then, run again, the drives that follow from it.
 */
class SolvedDrivesTest {
  private static final Path RESOURCES = Path.of("src/main/resources/dev/doublet/colour");

  static Stream<String> families() {
    return Rows.of("led-families.csv").stream().map(row -> row.get(0)).distinct();
  }

  @Test
  void theLightOfTheDiesFollowsFromTheirDataSheets() throws IOException {
    String table =
        "# The colours of led-families.csv, CIE 1931 xy, worked out from its figures by a test.\n"
            + "family,channel,low_x,low_y,high_x,high_y,middle_x,middle_y\n"
            + Rows.of("led-families.csv").stream()
                .map(SolvedDrivesTest::light)
                .collect(Collectors.joining());
    verify(RESOURCES.resolve("led-light.csv"), table);
  }

  private static String light(List<String> row) {
    boolean white = row.get(1).equals("white");
    double low = Double.parseDouble(row.get(white ? 5 : 2));
    double high = Double.parseDouble(row.get(white ? 6 : 3));
    return Stream.of(low, high, (low + high) / 2)
        .map(
            figure ->
                white
                    ? Planck.look(figure).chromaticity()
                    : Spectrum.dominant(figure, Double.parseDouble(row.get(4))))
        .map(colour -> "," + colour.x() + "," + colour.y())
        .collect(Collectors.joining("", row.get(0) + "," + row.get(1), "\n"));
  }

  @Tag("slow")
  @ParameterizedTest
  @MethodSource("families")
  void theDrivesOfAFamilyAreWhatASearchFinds(String name) throws IOException {
    LedFamily family = LedFamily.named(name).orElseThrow();
    String table =
        "# The drive deepest inside each region, for all bins and for their middle alone, and the\n"
            + "# margin of its worst LED. Found by the search, which a test repeats.\n"
            + "bins,set,colour,drive,margin\n"
            + found("all", family)
            + found("middle", family.middle());
    verify(RESOURCES.resolve("solved/" + name + ".csv"), table);
  }

  private static String found(String bins, LedFamily family) {
    DriveSolver solver = new DriveSolver(family);
    return RegionSet.published().stream()
        .flatMap(set -> set.regions().stream().map(region -> new Wanted(set, region)))
        .parallel()
        .map(wanted -> bins + "," + wanted.row(solver.search(wanted.region)))
        .collect(Collectors.joining());
  }

  private record Wanted(RegionSet set, Region region) {
    String row(DriveSearch.Candidate found) {
      return set.name()
          + ","
          + region.colour()
          + ","
          + found.drive().toString().replace(',', ' ')
          + ","
          + found.margin()
          + "\n";
    }
  }

  private static void verify(Path path, String actual) throws IOException {
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.createDirectories(path.getParent());
      Files.writeString(path, actual);
    }
    assertThat(actual).isEqualTo(Files.readString(path));
  }

  @Test
  void otherLedsThanTheBinnedOnesAreSearchedFor() {
    LedFamily family = LedFamily.published().get(0);
    assertThat(SolvedDrives.of(family).found(family, "road", "yellow")).isPresent();
    LedFamily measured =
        family.with(Die.measured(Channel.RED, new Chromaticity(0.6957, 0.3041), 405));
    assertThat(SolvedDrives.of(measured).found(measured, "road", "yellow")).isEmpty();
  }
}
