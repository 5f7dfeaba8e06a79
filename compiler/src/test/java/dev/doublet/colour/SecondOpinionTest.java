package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/**
 * Lightness and differences in u'v' against a colour library of another language, which passes the
 * 34 CIEDE2000 pairs of Sharma, Wu and Dalal 2005. It wants {@code npm install --no-save
 * --no-package-lock --prefix compiler/src/test/node culori@4.0.2}, run once.
 */
class SecondOpinionTest {
  private static final Path FOLDER = Path.of("src/test/node");

  @BeforeAll
  static void theLibraryIsThere() {
    assumeTrue(
        Files.exists(FOLDER.resolve("node_modules/culori")),
        "no second opinion: culori is not installed for node, see this test");
  }

  @Test
  void lightnessAndDifferencesAreTheirs() throws IOException, InterruptedException {
    List<Xyz> lights = lights();
    List<double[]> theirs = ask(lights);
    assertThat(theirs).hasSameSizeAs(lights);
    for (int i = 0; i < lights.size(); i++) {
      Xyz light = lights.get(i);
      assertThat(Lightness.of(light.y())).isCloseTo(theirs.get(i)[0], within(1e-6));
      Chromaticity one = light.chromaticity();
      Chromaticity first = lights.get(0).chromaticity();
      assertThat(one.u() - first.u()).isCloseTo(theirs.get(i)[1] - theirs.get(0)[1], within(1e-9));
      assertThat(one.v() - first.v()).isCloseTo(theirs.get(i)[2] - theirs.get(0)[2], within(1e-9));
    }
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

  private static List<double[]> ask(List<Xyz> lights) throws IOException, InterruptedException {
    Path asked = Files.createTempFile("lights", ".txt");
    Files.writeString(
        asked,
        lights.stream()
            .map(l -> l.x() + " " + l.y() + " " + l.z() + "\n")
            .collect(Collectors.joining()));
    Process node =
        new ProcessBuilder("node", "second-opinion.mjs")
            .directory(FOLDER.toFile())
            .redirectInput(asked.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    String answer = new String(node.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(node.waitFor()).isZero();
    Files.delete(asked);
    return answer
        .lines()
        .map(
            line ->
                java.util.Arrays.stream(line.split(" ")).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }
}
