package dev.doublet.colour;

import java.util.List;

/**
 * The colours that a signal light of one name may have: an area of the CIE 1931 diagram with
 * straight sides. It need not be convex (published whites have an inner corner).
 */
public final class Region {
  /**
   * How far published corners and light at the very rim may stray from our 5 nm rim of all colours
   * (a choice of ours; red LEDs lie 0.0002 from it).
   */
  public static final double EDGE = 1e-3;

  private final String colour;
  private final Outline outline;
  private final String citation;
  private final String evidence;

  private Region(String colour, Outline outline, String citation, String evidence) {
    this.colour = colour;
    this.outline = outline;
    this.citation = citation;
    this.evidence = evidence;
  }

  /**
   * A region from its corners, in order round it either way.
   *
   * @param colour its name in our words, such as {@code red} or {@code green-deficient}
   * @param citation where it is published
   * @param evidence how the figures were come by: SEEN in the source, SECONDARY for a summary of
   *     it, COMPUTED from the printed lines, MEMORY, or CHOICE for our own
   */
  public static Region ofCorners(
      String colour, List<Chromaticity> corners, String citation, String evidence) {
    return new Region(colour, Outline.of(corners), citation, evidence);
  }

  /** Every colour that light can have and that lies on the named side of all lines. */
  static Region ofLines(String colour, List<Line> lines, String citation, String evidence) {
    return new Region(colour, Outline.rim().within(lines), citation, evidence);
  }

  /** What is left of this region; right as long as the line does not cut it in more than two. */
  Region within(String name, Line line, String newEvidence) {
    return new Region(name, outline.within(List.of(line)), citation, newEvidence);
  }

  /** Its name in our words. */
  public String colour() {
    return colour;
  }

  /** Where it is published. */
  public String citation() {
    return citation;
  }

  /** How its figures were come by. */
  public String evidence() {
    return evidence;
  }

  /** Its corners, in order round it. */
  public List<Chromaticity> corners() {
    return outline.corners();
  }

  /** True when the colour lies inside or on the border. */
  public boolean contains(Chromaticity light) {
    return margin(light) >= 0;
  }

  /**
   * How far inside the border a colour lies, as a distance in x and y; negative outside. Sides that
   * run along the rim of all colours (the spectral locus, the purple line) do not count, since
   * light cannot cross them, and a colour up to {@link #EDGE} beyond such a side is taken as lying
   * on it.
   */
  public double margin(Chromaticity light) {
    return outline.margin(light.x(), light.y());
  }

  Outline outline() {
    return outline;
  }
}
