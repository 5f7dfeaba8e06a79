package dev.doublet.colour;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.colour.Hull.Point;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

/** Convex areas: their distances, by hand and against every triangle of their points. */
class HullTest {

  @Test
  void distancesAreThoseOfAreasAndNotOfCorners() {
    Hull square = Hull.of(points(0, 0, 4, 0, 4, 4, 0, 4, 2, 2, 4, 0));
    assertThat(square.distance(Hull.of(points(6, 2)))).isEqualTo(2);
    assertThat(square.distance(Hull.of(points(7, 8)))).isEqualTo(5);
    assertThat(square.distance(Hull.of(points(1, 1)))).isZero();
    assertThat(square.distance(Hull.of(points(-1, 2, 5, 2)))).isZero();
    assertThat(square.distance(Hull.of(points(5, -9, 5, 1, 5, 9)))).isEqualTo(1);
    assertThat(Hull.of(points(1, 1, 1, 1)).distance(Hull.of(points(1, 3)))).isEqualTo(2);
  }

  /** Two areas meet where triangles of their points do; else sides are nearest to corners. */
  @Property(tries = 500, seed = "1957")
  void distancesAgreeWithEveryTriangle(@ForAll long seed) {
    Random random = new Random(seed);
    List<Point> a = scattered(random, 0);
    List<Point> b = scattered(random, random.nextInt(10));
    double nearest = Double.POSITIVE_INFINITY;
    for (Point p : a) {
      nearest = Math.min(nearest, toTriangles(p, b));
    }
    for (Point p : b) {
      nearest = Math.min(nearest, toTriangles(p, a));
    }
    nearest = cross(a, b) ? 0 : nearest;
    assertThat(Hull.of(a).distance(Hull.of(b))).isCloseTo(nearest, within(1e-9));
    assertThat(Hull.of(b).distance(Hull.of(a))).isCloseTo(nearest, within(1e-9));
  }

  /** Small whole numbers, so that points fall on lines and on one another. */
  private static List<Point> scattered(Random random, int right) {
    List<Point> points = new ArrayList<>();
    int count = 1 + random.nextInt(6);
    for (int i = 0; i < count; i++) {
      points.add(new Point(right + random.nextInt(6), random.nextInt(6)));
    }
    return points;
  }

  private static double toTriangles(Point p, List<Point> points) {
    double nearest = Double.POSITIVE_INFINITY;
    for (Point a : points) {
      for (Point b : points) {
        nearest = Math.min(nearest, toSide(p, a, b));
        for (Point c : points) {
          double first = b.minus(a).across(p.minus(a));
          double second = c.minus(b).across(p.minus(b));
          double third = a.minus(c).across(p.minus(c));
          if (first > 0 && second > 0 && third > 0) {
            return 0;
          }
        }
      }
    }
    return nearest;
  }

  private static double toSide(Point p, Point a, Point b) {
    Point side = b.minus(a);
    double length = side.along(side);
    double part = length == 0 ? 0 : p.minus(a).along(side) / length;
    double held = Math.min(1, Math.max(0, part));
    return Math.hypot(a.x() + held * side.x() - p.x(), a.y() + held * side.y() - p.y());
  }

  private static boolean cross(List<Point> ones, List<Point> others) {
    for (Point a : ones) {
      for (Point b : ones) {
        for (Point c : others) {
          for (Point d : others) {
            if (b.minus(a).across(c.minus(a)) * b.minus(a).across(d.minus(a)) < 0
                && d.minus(c).across(a.minus(c)) * d.minus(c).across(b.minus(c)) < 0) {
              return true;
            }
          }
        }
      }
    }
    return false;
  }

  private static List<Point> points(double... xy) {
    List<Point> points = new ArrayList<>();
    for (int i = 0; i < xy.length; i += 2) {
      points.add(new Point(xy[i], xy[i + 1]));
    }
    return points;
  }
}
