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

  private static final String CHOICE = "CHOICE";

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

  /**
   * A choice of ours: what is left of this region on one side of a line, which must not cut it in
   * more than two.
   *
   * @param words the part, for people: "with x up to 0.36"
   */
  Region chosen(String name, Line line, String words) {
    String ours = "our choice: the " + colour + " of " + citation + " " + words;
    return new Region(name, outline.within(List.of(line)), ours, CHOICE);
  }

  /** Its name in our words. */
  public String colour() {
    return colour;
  }

  /** Where it is published, or what was chosen. */
  public String citation() {
    return citation;
  }

  /** True when nobody published it, and the borders are ours. */
  public boolean isChosen() {
    return evidence.equals(CHOICE);
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
