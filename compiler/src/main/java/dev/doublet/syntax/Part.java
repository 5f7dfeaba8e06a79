package dev.doublet.syntax;

/**
 * A rule of the grammar of .aspects files that tells where white space may stand, named as the
 * grammar names it; and {@link #FACT}, which is whatever a block holds.
 */
public enum Part {
  DECLARATION,
  EDITION,
  EFFECTIVE,
  SPEED,
  COLOUR,
  RHYTHM,
  HEAD,
  LAMPS,
  FIGURE,
  LIT,
  FORM,
  PLATES,
  ASPECT,
  REFERENCE,
  NUMBER,
  AHEAD,
  SECOND,
  MOVEMENT,
  SHOWS,
  PATTERN,
  PROVISO,
  NAME,
  LOOK,
  /** What stands between braces beside others of its sort. */
  FACT
}
