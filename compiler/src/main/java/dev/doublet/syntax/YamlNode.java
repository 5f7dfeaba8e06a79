package dev.doublet.syntax;

import dev.doublet.source.Span;
import java.util.List;

/**
 * One value of a YAML file, with its place. Where a text is broken, the tree says which parts of it
 * were not read; what is wrong with them has been said, so whoever reads the tree keeps silent.
 */
public sealed interface YamlNode {

  /** Where it is written. */
  Span span();

  /**
   * Keys with their values.
   *
   * @param entries in the order written, each key once
   * @param unread the lines among them that could not be read, so that nobody knows which keys they
   *     hold
   * @param span from the first key to the end of the last value, braces included
   */
  record Mapping(List<Entry> entries, List<Span> unread, Span span) implements YamlNode {
    /** Copies the lists. */
    public Mapping {
      entries = List.copyOf(entries);
      unread = List.copyOf(unread);
    }

    /** True when every key was read, so that a key that is not here was not written. */
    public boolean isWhole() {
      return unread.isEmpty();
    }
  }

  /**
   * A list of values.
   *
   * @param items in the order written
   * @param span from the first dash or bracket to the end of the last value
   */
  record Sequence(List<YamlNode> items, Span span) implements YamlNode {
    /** Copies the list. */
    public Sequence {
      items = List.copyOf(items);
    }
  }

  /**
   * A single value.
   *
   * @param text what it says, without quotes; empty where nothing is written
   * @param quoted true in quotes or in a block of text, where it can only be text
   * @param span where it is written, quotes included
   */
  record Scalar(String text, boolean quoted, Span span) implements YamlNode {

    /** True where a key has no value at all. */
    public boolean isNothing() {
      return !quoted && text.isEmpty();
    }
  }

  /**
   * A value that is written and could not be read: neither present nor absent.
   *
   * @param span where it is written
   */
  record Unread(Span span) implements YamlNode {}

  /**
   * A key with its value.
   *
   * @param key what stands before the colon
   * @param value what stands after it
   */
  record Entry(Scalar key, YamlNode value) {}
}
