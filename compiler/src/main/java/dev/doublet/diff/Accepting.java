package dev.doublet.diff;

import dev.doublet.diagnostic.Acceptance;

/** Acceptances in words. */
final class Accepting {
  private Accepting() {}

  static String words(Acceptance acceptance) {
    return acceptance.check()
        + " of "
        + String.join(", ", acceptance.of())
        + " because \""
        + acceptance.reason()
        + "\"";
  }
}
