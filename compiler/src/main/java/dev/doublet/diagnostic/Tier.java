package dev.doublet.diagnostic;

/** The depth at which a diagnostic was made; an error in one tier stops the later ones. */
public enum Tier {
  /** The text cannot be read. */
  SYNTAX,
  /** A name means nothing, or two things. */
  NAMES,
  /** The parts do not fit together. */
  STRUCTURE,
  /** What is said has a consequence that the author cannot want. */
  MEANING
}
