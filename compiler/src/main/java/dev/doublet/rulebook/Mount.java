package dev.doublet.rulebook;

/** How a signal is built to be read. */
public enum Mount {
  /** Heads one below another. */
  IN_LINE("in line"),
  /** Heads to the left and right of the mast in turn. */
  STAGGERED("staggered"),
  /** Low, beside the rail. */
  DWARF("dwarf"),
  /** On a bracket beside the mast. */
  BRACKET("bracket");

  private final String words;

  Mount(String words) {
    this.words = words;
  }

  /** As the language says it. */
  public String words() {
    return words;
  }
}
