package dev.doublet.source;

/**
 * A place in a text as an editor counts it.
 *
 * @param line from 1
 * @param column from 1, in Unicode code points unless another counting was asked for
 */
public record Position(int line, int column) {

  /** What columns count. */
  public enum Counting {
    /** Unicode code points, as people and most terminals count. */
    CODE_POINTS,
    /** Units of UTF-16, of which characters outside the basic plane have two. */
    UTF_16
  }
}
