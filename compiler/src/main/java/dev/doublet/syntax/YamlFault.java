package dev.doublet.syntax;

import dev.doublet.diagnostic.Diagnostic;

/** Carries what the parser stopped at. */
final class YamlFault extends Exception {
  private static final long serialVersionUID = 1L;
  private final transient Diagnostic diagnostic;
  private final int at;
  private final int from;

  /**
   * Describes one fault.
   *
   * @param at the index where it was noticed
   * @param from where the thing begins that was being read, where that tells more; else the same
   */
  YamlFault(Diagnostic diagnostic, int at, int from) {
    super(diagnostic.message(), null, false, false);
    this.diagnostic = diagnostic;
    this.at = at;
    this.from = from;
  }

  Diagnostic diagnostic() {
    return diagnostic;
  }

  int at() {
    return at;
  }

  int from() {
    return from;
  }
}
