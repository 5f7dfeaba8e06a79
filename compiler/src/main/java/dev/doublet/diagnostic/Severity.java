package dev.doublet.diagnostic;

/** How much a diagnostic matters. Errors and warnings are findings; a note never fails a run. */
public enum Severity {
  /** Nothing can be built until this is mended. */
  ERROR,
  /** A table can be built, but somebody should decide first. */
  WARNING,
  /** Worth knowing. */
  NOTE;

  /** The word shown to people. */
  public String word() {
    return name().toLowerCase(java.util.Locale.ROOT);
  }
}
