package dev.doublet.rulebook;

import java.util.List;

/** The words of random rulebooks, for tests that set them in their own way. */
public final class RandomWords {
  private RandomWords() {}

  /** Declarations of a correct rulebook, each as its words and marks in order. */
  public static List<List<String>> of(long start) {
    return new Handwriting(start).declarations(new RandomBook(start).book());
  }
}
