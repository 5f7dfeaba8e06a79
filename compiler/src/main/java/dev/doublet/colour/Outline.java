package dev.doublet.colour;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * A closed line of straight sides in the CIE 1931 diagram, laid out for speed: the search for drive
 * values asks it millions of times how far a colour lies inside.
 *
 * <p>Sides that run along the rim of all colours (the spectral locus or the purple line) bound
 * nothing, since light cannot cross them.
 */
final class Outline {
  private static final List<Chromaticity> LOCUS = Observer.locus();
  private static final double EDGE = Region.EDGE;

  private static final Outline RIM = new Outline(LOCUS);

  private final List<Chromaticity> corners;
  private final int count;
  private final double[] x;
  private final double[] y;
  private final double[] dx;
  private final double[] dy;
  private final double[] perLength;
  private final boolean[] rim;

  private Outline(List<Chromaticity> corners) {
    this.corners = List.copyOf(corners);
    count = corners.size();
    x = corners.stream().mapToDouble(Chromaticity::x).toArray();
    y = corners.stream().mapToDouble(Chromaticity::y).toArray();
    dx = IntStream.range(0, count).mapToDouble(i -> x[(i + 1) % count] - x[i]).toArray();
    dy = IntStream.range(0, count).mapToDouble(i -> y[(i + 1) % count] - y[i]).toArray();
    perLength =
        IntStream.range(0, count).mapToDouble(i -> 1 / (dx[i] * dx[i] + dy[i] * dy[i])).toArray();
    rim = new boolean[count];
  }

  /** The rim of all colours. */
  static Outline rim() {
    return RIM;
  }

  /** An outline from its corners, in order round it either way; no two neighbours alike. */
  static Outline of(List<Chromaticity> corners) {
    List<Chromaticity> kept = new ArrayList<>();
    for (Chromaticity corner : corners) {
      if (kept.isEmpty() || kept.get(kept.size() - 1).distance(corner) > 0) {
        kept.add(corner);
      }
    }
    Outline outline = new Outline(kept);
    boolean[] near = new boolean[outline.count];
    for (int i = 0; i < outline.count; i++) {
      near[i] = RIM.isNear(outline.x[i], outline.y[i]);
    }
    for (int i = 0; i < outline.count; i++) {
      outline.rim[i] = near[i] && near[(i + 1) % outline.count] && RIM.isFollowedBy(outline, i);
    }
    return outline;
  }

  private boolean isFollowedBy(Outline other, int side) {
    for (double part = 0.25; part < 1; part += 0.25) {
      if (!isNear(other.x[side] + part * other.dx[side], other.y[side] + part * other.dy[side])) {
        return false;
      }
    }
    return true;
  }

  private boolean isNear(double px, double py) {
    for (int i = 0; i < count; i++) {
      if (square(i, px, py) <= EDGE * EDGE) {
        return true;
      }
    }
    return false;
  }

  List<Chromaticity> corners() {
    return corners;
  }

  /** What is left on the named side of all lines (Sutherland and Hodgman 1974). */
  Outline within(List<Line> lines) {
    List<Chromaticity> left = corners;
    for (Line line : lines) {
      left = within(left, line);
    }
    return of(left);
  }

  private static List<Chromaticity> within(List<Chromaticity> corners, Line line) {
    List<Chromaticity> kept = new ArrayList<>();
    for (int i = 0; i < corners.size(); i++) {
      Chromaticity from = corners.get(i);
      Chromaticity to = corners.get((i + 1) % corners.size());
      double dx = to.x() - from.x();
      double dy = to.y() - from.y();
      double before = line.a() * from.x() + line.b() * from.y() - line.c();
      double after = line.a() * (from.x() + dx) + line.b() * (from.y() + dy) - line.c();
      if (before <= 0) {
        kept.add(from);
      }
      if (before < 0 && after > 0 || before > 0 && after < 0) {
        double part = before / (before - after);
        kept.add(new Chromaticity(from.x() + part * dx, from.y() + part * dy));
      }
    }
    return kept;
  }

  /** How far inside a point lies, negative outside; see {@link Region#margin}. */
  double margin(double px, double py) {
    boolean inside = false;
    double border = Double.POSITIVE_INFINITY;
    double atRim = Double.POSITIVE_INFINITY;
    for (int i = 0; i < count; i++) {
      inside ^= crosses(i, px, py);
      double square = square(i, px, py);
      if (!rim[i]) {
        border = Math.min(border, square);
      } else {
        atRim = Math.min(atRim, square);
      }
    }
    if (inside) {
      return Math.sqrt(border);
    }
    return atRim <= EDGE * EDGE && atRim <= border
        ? marginOnRim(px, py)
        : -Math.sqrt(Math.min(atRim, border));
  }

  /** The distance to the nearest side that counts, from the place on the rim nearest the point. */
  private double marginOnRim(double px, double py) {
    int nearest = -1;
    for (int i = 0; i < count; i++) {
      if (rim[i] && (nearest < 0 || square(i, px, py) < square(nearest, px, py))) {
        nearest = i;
      }
    }
    double part = part(nearest, px, py);
    double rx = x[nearest] + part * dx[nearest];
    double ry = y[nearest] + part * dy[nearest];
    double border = Double.POSITIVE_INFINITY;
    for (int i = 0; i < count; i++) {
      if (!rim[i]) {
        border = Math.min(border, square(i, rx, ry));
      }
    }
    return Math.sqrt(border);
  }

  /** True when a ray from the point towards greater x crosses the side. */
  private boolean crosses(int i, double px, double py) {
    double above = y[i] - py;
    return above > 0 != above + dy[i] > 0 && px < x[i] - dx[i] * above / dy[i];
  }

  /** The square of the distance from the point to the side. */
  private double square(int i, double px, double py) {
    double part = part(i, px, py);
    double ex = px - x[i] - part * dx[i];
    double ey = py - y[i] - part * dy[i];
    return ex * ex + ey * ey;
  }

  /** How far along the side its place nearest the point lies, 0 to 1. */
  private double part(int i, double px, double py) {
    double part = ((px - x[i]) * dx[i] + (py - y[i]) * dy[i]) * perLength[i];
    return Math.max(0, Math.min(1, part));
  }
}
