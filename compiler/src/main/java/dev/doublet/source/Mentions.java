package dev.doublet.source;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.function.Supplier;
import java.util.function.UnaryOperator;

/**
 * Every place where a name is written, whether or not the text around it could be read. They are
 * gathered when first asked for, since most readers of a text never ask.
 */
public final class Mentions {
  /** Of texts that name nothing. */
  public static final Mentions NONE = new Mentions(List::of);

  private final Supplier<List<Mention>> gatherer;
  private List<Mention> all;

  /**
   * Of some texts.
   *
   * @param gatherer finds them, in any order
   */
  public Mentions(Supplier<List<Mention>> gatherer) {
    this.gatherer = gatherer;
  }

  /** By file and place. */
  public synchronized List<Mention> all() {
    if (all == null) {
      all =
          gatherer.get().stream()
              .sorted(Comparator.comparing(Mention::span).thenComparing(Mention::kind))
              .distinct()
              .toList();
    }
    return all;
  }

  /** Where the same thing is named, the mention itself included. */
  public List<Mention> of(Mention name) {
    return all().stream().filter(name::isOf).toList();
  }

  /**
   * The name that is written at a place, of several the innermost; its end counts, as an editor's
   * cursor stands there.
   */
  public Optional<Mention> at(SourceFile file, int offset) {
    return all().stream()
        .filter(m -> m.span().file().name().equals(file.name()))
        .filter(m -> m.span().start() <= offset && offset <= m.span().end())
        .min(Comparator.comparingInt(m -> m.span().end() - m.span().start()));
  }

  /** The same with other names for some. */
  public Mentions with(UnaryOperator<Mention> change) {
    return new Mentions(() -> all().stream().map(change).toList());
  }

  /** These and others. */
  public Mentions and(Mentions others) {
    return new Mentions(
        () -> {
          List<Mention> both = new ArrayList<>(all());
          both.addAll(others.all());
          return both;
        });
  }
}
