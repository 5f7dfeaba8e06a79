package dev.doublet.layout.read;

/**
 * One key of a layout file.
 *
 * @param name as written
 * @param takes what its value may be
 * @param help what it says, in one sentence or a few words
 * @param needed true when its place must have it
 * @param since the release that has it first
 * @param <T> what its value is read as
 */
record Key<T>(String name, Takes<T> takes, String help, boolean needed, String since) {
  private static final String FIRST = "0.1";

  /** A key that may be left out. */
  static <T> Key<T> of(String name, Takes<T> takes, String help) {
    return new Key<>(name, takes, help, false, FIRST);
  }

  /** The same key where it may not be left out. */
  Key<T> need() {
    return new Key<>(name, takes, help, true, since);
  }

  @Override
  public String toString() {
    return name;
  }
}
