package dev.doublet.layout;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The drive values of colours that need no telling follow from the LED's primaries. */
class PartsTest {

  /**
   * Columns are red, green and blue: CIE 1931 x and y, and millicandelas. Data sheets of common
   * addressable LEDs give wavelengths and intensities; xy were computed with the colour matching
   * functions of 1931.
   */
  private static final double[][] PRIMARIES = {
    {0.6957, 0.3041, 405}, {0.1338, 0.7618, 690}, {0.1355, 0.0456, 190}
  };

  /** Aims are computed points; the yellow and the purple lie just outside what the LED can mix. */
  @ParameterizedTest(name = "{0}")
  @CsvSource({
    "red,    0.6957, 0.3041",
    "yellow, 0.5800, 0.4045",
    "amber,  0.5800, 0.4045",
    "green,  0.1343, 0.5518",
    "lunar,  0.3324, 0.3410",
    "white,  0.4476, 0.4074",
    "blue,   0.1400, 0.0800",
    "purple, 0.3000, 0.1200"
  })
  void aKnownColourIsDrivenSoThatItMeetsItsAim(String colour, double x, double y) {
    assertThat(driveOf(colour)).isEqualTo(mix(x, y));
  }

  private static List<Integer> driveOf(String colour) {
    String book =
        """
        rulebook "Test" edition 1
        speeds in mph { normal 60 }
        colours { %1$s }
        head lamp-head { lamp main shows %1$s }
        form one-head { top }
        aspect "Stop" { number 0  allows stop  on one-head show %1$s }
        """
            .formatted(colour);
    String layout =
        """
        layout: Test
        rulebook: book.aspects
        controllers:
          a: {flash: 1, ram: 1, chains: {main: {signals: [
            {name: A, form: one-head, heads: [lamp-head], by: aspect-number}]}}}
        """;
    Layout resolved =
        LayoutResolver.resolve(
                "layout.yaml", path -> new SourceFile(path, path.endsWith("yaml") ? layout : book))
            .value()
            .orElseThrow();
    return resolved.controllers().get(0).chains().get(0).part().drive().get(colour);
  }

  /** The mix of the primaries with a chromaticity: Cramer's rule, largest channel full. */
  private static List<Integer> mix(double x, double y) {
    double[][] matrix = new double[3][3];
    for (int i = 0; i < 3; i++) {
      double[] p = PRIMARIES[i];
      matrix[0][i] = p[2] * p[0] / p[1];
      matrix[1][i] = p[2];
      matrix[2][i] = p[2] * (1 - p[0] - p[1]) / p[1];
    }
    double[] aim = {x / y, 1, (1 - x - y) / y};
    double[] drive = new double[3];
    for (int i = 0; i < 3; i++) {
      double[][] replaced = new double[3][];
      for (int row = 0; row < 3; row++) {
        replaced[row] = matrix[row].clone();
        replaced[row][i] = aim[row];
      }
      drive[i] = determinant(replaced) / determinant(matrix);
    }
    double most = Math.max(drive[0], Math.max(drive[1], drive[2]));
    return List.of(level(drive[0] / most), level(drive[1] / most), level(drive[2] / most));
  }

  private static int level(double part) {
    return (int) Math.round(Math.max(0, part) * 255);
  }

  private static double determinant(double[][] m) {
    return m[0][0] * (m[1][1] * m[2][2] - m[1][2] * m[2][1])
        - m[0][1] * (m[1][0] * m[2][2] - m[1][2] * m[2][0])
        + m[0][2] * (m[1][0] * m[2][1] - m[1][1] * m[2][0]);
  }
}
