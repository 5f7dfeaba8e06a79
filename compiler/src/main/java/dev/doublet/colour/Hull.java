package dev.doublet.colour;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;

/** The smallest convex area of a plane that holds some points; it may be a line or a point. */
final class Hull {

  /** A place in the plane. */
  record Point(double x, double y) {

    Point minus(Point other) {
      return new Point(x - other.x, y - other.y);
    }

    /** Above 0 when {@code other} lies to the left, as seen from 0 towards this. */
    double across(Point other) {
      return x * other.y - y * other.x;
    }

    double along(Point other) {
      return x * other.x + y * other.y;
    }
  }

  private final List<Point> corners;

  private Hull(List<Point> corners) {
    this.corners = corners;
  }

  /** The hull of at least one point (monotone chain, Andrew 1979). */
  static Hull of(List<Point> points) {
    List<Point> sorted = new ArrayList<>(points);
    sorted.sort(Comparator.comparingDouble(Point::x).thenComparingDouble(Point::y));
    List<Point> corners = half(sorted);
    java.util.Collections.reverse(sorted);
    corners.addAll(half(sorted));
    return new Hull(corners.isEmpty() ? sorted.subList(0, 1) : corners);
  }

  /** The corners on one side, first to last but for the last, which begins the other side. */
  private static List<Point> half(List<Point> sorted) {
    List<Point> corners = new ArrayList<>();
    for (Point point : sorted) {
      while (corners.size() > 1 && !turnsLeft(corners, point)) {
        corners.remove(corners.size() - 1);
      }
      corners.add(point);
    }
    corners.remove(corners.size() - 1);
    return corners;
  }

  private static boolean turnsLeft(List<Point> corners, Point next) {
    Point last = corners.get(corners.size() - 1);
    return last.minus(corners.get(corners.size() - 2)).across(next.minus(last)) > 0;
  }

  /**
   * The distance between the nearest places of both, 0 when they meet: how far 0 is from the hull
   * of all differences.
   */
  double distance(Hull other) {
    List<Point> differences = new ArrayList<>();
    for (Point one : corners) {
      other.corners.forEach(two -> differences.add(one.minus(two)));
    }
    return of(differences).distanceFromZero();
  }

  private double distanceFromZero() {
    boolean inside = corners.size() > 2;
    double least = Double.POSITIVE_INFINITY;
    for (int i = 0; i < corners.size(); i++) {
      Point from = corners.get(i);
      Point side = corners.get((i + 1) % corners.size()).minus(from);
      inside &= from.across(side) >= 0;
      double length = side.along(side);
      double part = length == 0 ? 0 : Math.max(0, Math.min(1, -from.along(side) / length));
      Point nearest = new Point(from.x + part * side.x, from.y + part * side.y);
      least = Math.min(least, nearest.along(nearest));
    }
    return inside ? 0 : Math.sqrt(least);
  }
}
