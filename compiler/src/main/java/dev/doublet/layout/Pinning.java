package dev.doublet.layout;

import dev.doublet.diagnostic.Fix;
import dev.doublet.source.Span;
import java.util.List;
import java.util.stream.Stream;

/**
 * Which addresses and values a layout's file says, and which follow from the order of its signals
 * and from its rulebook, so that they move when those change.
 *
 * @param pinned true when the file is to say them all
 * @param saying says in the file that it is pinned; empty when it is
 * @param automatic those that it does not say, by place
 */
public record Pinning(boolean pinned, List<Fix.Edit> saying, List<Automatic> automatic) {

  /** Copies the lists. */
  public Pinning {
    saying = List.copyOf(saying);
    automatic = List.copyOf(automatic);
  }

  /** The change that pins it: all is written that the file does not say. */
  public List<Fix.Edit> edits() {
    return Stream.concat(saying.stream(), automatic.stream().flatMap(a -> a.edits().stream()))
        .toList();
  }

  /**
   * What one signal, head or kind does not say.
   *
   * @param addresses how many it takes that follow from the order of signals
   * @param values how many values follow from a list or from the rulebook
   * @param writing would write all of it: "address: 102"
   * @param edits write it
   * @param span what it is missing of
   */
  public record Automatic(
      int addresses, int values, String writing, List<Fix.Edit> edits, Span span) {

    /** Copies the list. */
    public Automatic {
      edits = List.copyOf(edits);
    }
  }
}
