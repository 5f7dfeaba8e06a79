package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The edge of the margin: the border of a region, and the rim of all colours. */
class OutlineTest {
  /** Far from the rim, with corners that doubles hold exactly, as 1/16 of the diagram's units. */
  private static final Outline SQUARE = Outline.of(List.of(at(4, 4), at(8, 4), at(8, 8), at(4, 8)));

  private static Chromaticity at(double x, double y) {
    return new Chromaticity(x / 16, y / 16);
  }

  @ParameterizedTest
  @CsvSource({"4, 6", "8, 6", "6, 4", "6, 8", "4, 4", "8, 4", "8, 8", "4, 8"})
  void theBorderItselfIsInside(double x, double y) {
    Region region = Region.ofCorners("any", SQUARE.corners(), "", "");
    assertThat(region.contains(at(x, y))).isTrue();
    assertThat(Math.abs(region.margin(at(x, y)))).isZero();
  }

  @ParameterizedTest
  @CsvSource({
    "5, 6, 1",
    "7.5, 6, 0.5",
    "6, 4.25, 0.25",
    "6, 6, 2",
    "3, 6, -1",
    "9, 6, -1",
    "6, 2, -2",
    "6, 11, -3",
    "1, 0, -5",
    "11, 12, -5"
  })
  void theMarginIsTheDistanceToTheBorderNegativeOutside(double x, double y, double margin) {
    assertThat(16 * SQUARE.margin(x / 16, y / 16)).isCloseTo(margin, within(1e-12));
  }

  /** The purple line is straight, so a step off it is so far from the rim: 0.001 is the edge. */
  @ParameterizedTest
  @ValueSource(doubles = {-0.0009, -0.0001, 0, 0.0001, 0.0009, 0.0011, 0.002})
  void lightMayLieBeyondTheRimByTheEdgeAndNoFarther(double beyond) {
    List<Chromaticity> locus = Observer.locus();
    Chromaticity violet = locus.get(0);
    Chromaticity red = locus.get(locus.size() - 1);
    double length = violet.distance(red);
    // To the right of the way from violet to red lies no light.
    double outX = (red.y() - violet.y()) / length;
    double outY = (violet.x() - red.x()) / length;
    Region purple =
        Region.ofLines("any", List.of(new Line(0, 1, 0.2), new Line(-1, 0, -0.3)), "", "");
    Chromaticity light =
        new Chromaticity(
            violet.x() + 0.4 * (red.x() - violet.x()) + beyond * outX,
            violet.y() + 0.4 * (red.y() - violet.y()) + beyond * outY);
    assertThat(purple.contains(light)).isEqualTo(beyond < 0.001);
    if (beyond > 0.001) {
      assertThat(purple.margin(light)).isCloseTo(-beyond, within(1e-9));
    }
  }

  /** Light on the rim is as deep inside as the nearest side that parts colours is far. */
  @Test
  void onTheRimOnlySidesAcrossTheDiagramCount() {
    List<Chromaticity> locus = Observer.locus();
    Chromaticity violet = locus.get(0);
    Chromaticity red = locus.get(locus.size() - 1);
    double middleX = (violet.x() + red.x()) / 2;
    double middleY = (violet.y() + red.y()) / 2;
    Region right = Region.ofLines("any", List.of(new Line(-1, 0, -0.4)), "", "");
    assertThat(right.margin(new Chromaticity(middleX, middleY)))
        .isCloseTo(middleX - 0.4, within(1e-9));
  }

  /** Where a side meets the rim: beyond that side lies no part of the rim that is of the region. */
  @Test
  void besideTheRimButNearerToAnotherSideIsOutside() {
    List<Chromaticity> locus = Observer.locus();
    Chromaticity violet = locus.get(0);
    Chromaticity red = locus.get(locus.size() - 1);
    Region right = Region.ofLines("any", List.of(new Line(-1, 0, -0.4)), "", "");
    double part = (0.4 - violet.x()) / (red.x() - violet.x());
    double y = violet.y() + part * (red.y() - violet.y()) + 0.0002;
    assertThat(right.contains(new Chromaticity(0.4 - 0.0005, y))).isFalse();
    assertThat(right.contains(new Chromaticity(0.4 + 0.0005, y))).isTrue();
  }
}
