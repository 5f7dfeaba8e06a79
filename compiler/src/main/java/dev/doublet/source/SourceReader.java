package dev.doublet.source;

/** Fetches texts by name, so that only the command line touches the disk. */
@FunctionalInterface
public interface SourceReader {

  /**
   * Fetches one text.
   *
   * @param path a path with forward slashes, relative to where the command runs, or absolute
   * @throws Unreadable when there is no such file or it is not text; the message is for people
   */
  SourceFile read(String path) throws Unreadable;

  /** Why a text could not be fetched, in words for people ("there is no such file"). */
  final class Unreadable extends Exception {
    private static final long serialVersionUID = 1L;

    /** Gives the reason. */
    public Unreadable(String reason) {
      super(reason);
    }
  }
}
