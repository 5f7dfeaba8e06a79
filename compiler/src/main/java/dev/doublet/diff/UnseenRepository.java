package dev.doublet.diff;

/**
 * Something of which nothing is read, though it is another then and now: a repository within the
 * repository.
 *
 * @param path where it is
 * @param before what is taken of it in the earlier version; empty for nothing, or nothing known
 * @param after the same of the later version
 */
public record UnseenRepository(String path, String before, String after) {
  Event event() {
    return Event.of(
            Sort.NOT_COMPARED,
            Consequence.MORE,
            Subject.of("submodule", path),
            "was not compared: of another repository nothing is read")
        .from(said(before), said(after))
        .because("compare its revisions in that repository")
        .in(path);
  }

  private static String said(String commit) {
    return commit.isEmpty() ? "" : "commit " + commit;
  }
}
