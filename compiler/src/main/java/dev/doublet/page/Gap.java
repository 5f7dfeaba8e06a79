package dev.doublet.page;

import java.util.List;

/**
 * What is wrong with the place of some aspects in the sequence.
 *
 * @param aspects their names, at least one; beside the first the words are drawn
 * @param words what is wrong, as a finding says it
 */
public record Gap(List<String> aspects, String words) {
  /** Copies the list. */
  public Gap {
    aspects = List.copyOf(aspects);
  }
}
