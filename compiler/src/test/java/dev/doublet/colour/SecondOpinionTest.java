package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Our sums of colour against others': lightness and differences in u'v' by one library of another
 * language, which passes the 34 CIEDE2000 pairs of Sharma, Wu and Dalal 2005; cones by a second
 * (public domain, CC0-1.0); the standard observer by the table that Debian's colord-data brings
 * (GPL-2 or later), which is only read here. The libraries want {@code npm install --no-save
 * --no-package-lock --prefix compiler/src/test/node culori@4.0.2 color-space@3.1.0}, run once.
 */
class SecondOpinionTest {
  private static final Path FOLDER = Path.of("src/test/node");
  private static final Path OBSERVER = Path.of("/usr/share/colord/cmf/CIE1931-2deg-XYZ.cmf");

  private static void assumeLibrary(String name) {
    assumeTrue(
        Files.exists(FOLDER.resolve("node_modules").resolve(name)),
        "no second opinion: " + name + " is not installed for node, see this test");
  }

  /** Why the library's word counts: another fails 22 of these pairs. */
  @Test
  void theLibraryPassesThePublishedPairsOfCiede2000() throws IOException, InterruptedException {
    assumeLibrary("culori");
    List<String[]> pairs =
        Files.readAllLines(Path.of("src/test/resources/facts/colour/ciede2000.csv")).stream()
            .skip(1)
            .map(line -> line.split(","))
            .toList();
    assertThat(pairs).hasSize(34);
    List<double[]> theirs =
        askLines(
            "ciede2000.mjs",
            pairs.stream().map(p -> String.join(" ", Arrays.asList(p).subList(1, 7))).toList());
    for (int i = 0; i < pairs.size(); i++) {
      assertThat(theirs.get(i)[0])
          .as("pair %s", pairs.get(i)[0])
          .isCloseTo(Double.parseDouble(pairs.get(i)[7]), within(0.5e-4));
    }
  }

  @Test
  void differencesAreTheirs() throws IOException, InterruptedException {
    assumeLibrary("culori");
    List<Xyz> lights = lights();
    List<double[]> theirs = ask("second-opinion.mjs", lights);
    assertThat(theirs).hasSameSizeAs(lights);
    for (int i = 0; i < lights.size(); i++) {
      Xyz light = lights.get(i);
      Chromaticity one = light.chromaticity();
      Chromaticity first = lights.get(0).chromaticity();
      assertThat(one.u() - first.u()).isCloseTo(theirs.get(i)[1] - theirs.get(0)[1], within(1e-9));
      assertThat(one.v() - first.v()).isCloseTo(theirs.get(i)[2] - theirs.get(0)[2], within(1e-9));
    }
  }

  /**
   * What Brettel, Vienot and Mollon 1997 say of eyes without one kind of cone, and nothing else:
   * the answers of the other two stay, and what is seen lies in the half plane of neutral light and
   * one of two wavelengths.
   */
  @ParameterizedTest
  @CsvSource({"PROTAN, 0, 575, 475", "DEUTAN, 1, 575, 475", "TRITAN, 2, 660, 485"})
  void withoutOneConeTheOthersAnswerAndTwoHuesAreSeen(
      Eye eye, int missing, double longNm, double shortNm)
      throws IOException, InterruptedException {
    assumeLibrary("color-space");
    List<Xyz> asked = new ArrayList<>(lights());
    int count = asked.size();
    for (int i = 0; i < count; i++) {
      asked.add(eye.sees(asked.get(i)));
    }
    asked.addAll(List.of(new Xyz(1, 1, 1), Observer.at(longNm), Observer.at(shortNm)));
    List<double[]> cones = ask("cones.mjs", asked);
    double[] neutral = cones.get(2 * count);
    int ofLong = 0;
    for (int i = 0; i < count; i++) {
      double[] light = cones.get(i);
      double[] seen = cones.get(count + i);
      for (int cone = 0; cone < 3; cone++) {
        if (cone != missing) {
          assertThat(seen[cone]).isCloseTo(light[cone], within(1e-9));
        }
      }
      boolean isLong = isMixture(seen, neutral, cones.get(2 * count + 1));
      boolean isShort = isMixture(seen, neutral, cones.get(2 * count + 2));
      assertThat(isLong != isShort).as("%s", asked.get(i)).isTrue();
      ofLong += isLong ? 1 : 0;
    }
    assertThat(ofLong).isBetween(count / 10, count - count / 10);
  }

  /** True when light is some of the other, with or without as much of one as may be. */
  private static boolean isMixture(double[] light, double[] one, double[] other) {
    double[] plane = across(one, other);
    double size = Math.sqrt(along(plane, plane) * along(light, light));
    return Math.abs(along(plane, light)) < 1e-7 * size && along(across(one, light), plane) > 0;
  }

  private static double[] across(double[] a, double[] b) {
    return new double[] {
      a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]
    };
  }

  private static double along(double[] a, double[] b) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
  }

  @Test
  void theStandardObserverIsTheirs() throws IOException {
    List<double[]> theirs = observer();
    for (int nm = 380; nm <= 700; nm += 5) {
      int row = (nm - 360) / 5;
      assertThat(Observer.at(nm).x()).as("%d nm", nm).isCloseTo(theirs.get(0)[row], within(5e-6));
      assertThat(Observer.at(nm).y()).as("%d nm", nm).isCloseTo(theirs.get(1)[row], within(5e-6));
      assertThat(Observer.at(nm).z()).as("%d nm", nm).isCloseTo(theirs.get(2)[row], within(5e-6));
    }
  }

  /** Our table ends at 700 nm; what it goes on with is a fraction of a percent of all it holds. */
  @Test
  void theFarEndOfTheObserverIsNearlyTheirs() throws IOException {
    List<double[]> theirs = observer();
    double ours = 0;
    double known = 0;
    for (int nm = 705; nm <= 780; nm += 5) {
      double x = theirs.get(0)[(nm - 360) / 5];
      assertThat(Observer.at(nm).x() / x).as("%d nm", nm).isCloseTo(1, within(0.08));
      ours += Observer.at(nm).x();
      known += x;
    }
    assertThat(ours / known).isCloseTo(1, within(0.01));
    assertThat(known / Arrays.stream(theirs.get(0)).sum()).isLessThan(0.002);
  }

  /** Three rows of the observer, every 5 nm from 360 to 830. */
  private static List<double[]> observer() throws IOException {
    assumeTrue(
        Files.exists(OBSERVER), "no second opinion: colord-data is not installed, see this test");
    List<String> lines = Files.readAllLines(OBSERVER);
    assertThat(lines).contains("SPECTRAL_START_NM\t360.0", "SPECTRAL_END_NM\t830.0");
    List<double[]> rows =
        lines.subList(lines.indexOf("BEGIN_DATA") + 1, lines.indexOf("END_DATA")).stream()
            .map(line -> numbers(line.trim().split("\\s+")))
            .toList();
    assertThat(rows).hasSize(3).allMatch(row -> row.length == 95);
    return rows;
  }

  /** Mixes of every family, from the darkest to the brightest, as parts of its full light. */
  private static List<Xyz> lights() {
    Random random = new Random(1);
    List<Xyz> lights = new ArrayList<>();
    for (LedFamily family : LedFamily.published()) {
      double full = family.dies().stream().mapToDouble(d -> d.middle().y()).sum();
      for (int i = 0; i < 50; i++) {
        List<Integer> levels = family.dies().stream().map(d -> random.nextInt(256)).toList();
        Drive drive = new Drive(levels);
        if (drive.lit() > 0) {
          lights.add(family.light(drive).times(1 / full));
          lights.add(family.light(drive).times(0.005 / full));
        }
      }
    }
    return lights;
  }

  private static List<double[]> ask(String script, List<Xyz> lights)
      throws IOException, InterruptedException {
    return askLines(script, lights.stream().map(l -> l.x() + " " + l.y() + " " + l.z()).toList());
  }

  private static List<double[]> askLines(String script, List<String> lines)
      throws IOException, InterruptedException {
    Path asked = Files.createTempFile("lines", ".txt");
    Files.write(asked, lines);
    Process node =
        new ProcessBuilder("node", script)
            .directory(FOLDER.toFile())
            .redirectInput(asked.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    String answer = new String(node.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(node.waitFor()).isZero();
    Files.delete(asked);
    return answer.lines().map(line -> numbers(line.split(" "))).toList();
  }

  private static double[] numbers(String[] words) {
    return Arrays.stream(words).mapToDouble(Double::parseDouble).toArray();
  }
}
