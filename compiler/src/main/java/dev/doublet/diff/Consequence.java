package dev.doublet.diff;

/** What a change leads to, worst first. */
public enum Consequence {
  /** A crew may go faster, further or without a stop where it could not before. */
  MORE("more", "a crew may do more"),
  /** What a crew sees, or what it is to make of it, is something else. */
  SEEN("seen", "a crew sees something else"),
  /** Somebody has to solder, wire, set a command station or load a table. */
  WORK("work", "must be re-soldered or re-sent"),
  /** Nobody sees anything of it but who reads the text. */
  TEXT("text", "text only");

  private final String word;
  private final String words;

  Consequence(String word, String words) {
    this.word = word;
    this.words = words;
  }

  /** In a word, for options and programs. */
  public String word() {
    return word;
  }

  /** In words, for people. */
  public String words() {
    return words;
  }

  /** The worse of two. */
  public Consequence or(Consequence other) {
    return compareTo(other) <= 0 ? this : other;
  }

  /** True when this is as bad as another or worse. */
  public boolean isAtLeast(Consequence other) {
    return compareTo(other) <= 0;
  }
}
