package dev.doublet.diff;

import java.util.Optional;

/**
 * A file then and now; one of the two may be missing.
 *
 * @param beforeOrNull the earlier version
 * @param afterOrNull the later version
 */
public record Pair(Version beforeOrNull, Version afterOrNull) {
  /** The earlier version; empty for a new file. */
  public Optional<Version> before() {
    return Optional.ofNullable(beforeOrNull);
  }

  /** The later version; empty for a file that is gone. */
  public Optional<Version> after() {
    return Optional.ofNullable(afterOrNull);
  }

  /** Its file, by the new name where there is one. */
  public String path() {
    return afterOrNull == null ? beforeOrNull.path() : afterOrNull.path();
  }
}
