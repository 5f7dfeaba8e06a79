package dev.doublet.layout.read;

/**
 * One key of a layout file.
 *
 * @param name as written
 * @param takes what its value may be
 * @param help what it says, in one sentence or a few words
 * @param needed true when its place must have it
 * @param instead the key that says as much where this one is missing; empty for none
 * @param since the release that has it first
 * @param <T> what its value is read as
 */
record Key<T>(
    String name, Takes<T> takes, String help, boolean needed, String instead, String since) {
  private static final String FIRST = "0.1";

  /** A key that may be left out. */
  static <T> Key<T> of(String name, Takes<T> takes, String help) {
    return new Key<>(name, takes, help, false, "", FIRST);
  }

  /** The same key where it may not be left out. */
  Key<T> need() {
    return new Key<>(name, takes, help, true, "", since);
  }

  /** The same key where it may be left out only when another says as much. */
  Key<T> needUnless(Key<?> other) {
    return new Key<>(name, takes, help, false, other.name(), since);
  }

  /** Each key is itself alone: places have keys of one name. Nothing is compared part by part. */
  @Override
  public boolean equals(Object other) {
    return this == other;
  }

  @Override
  public int hashCode() {
    return name.hashCode();
  }

  @Override
  public String toString() {
    return name;
  }
}
