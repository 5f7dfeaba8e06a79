package dev.doublet.rulebook;

import dev.doublet.source.Mention;
import java.util.Set;

/**
 * What of a rulebook could not be read. A name that stands there is declared but not known whole:
 * nothing is said of its uses.
 *
 * @param any true when anything is wrong with the book, so that what it lacks proves nothing
 * @param names every name and text that stands in parts that could not be read, every name of
 *     something that is not known whole, and every name of which was said that nothing declares it
 * @param kinds what such parts may declare under names that do not stand there either
 */
public record Unread(boolean any, Set<String> names, Set<Mention.Kind> kinds) {
  /** Of a book that was read whole. */
  public static final Unread NOTHING = new Unread(false, Set.of(), Set.of());

  /** Copies the sets. */
  public Unread {
    names = Set.copyOf(names);
    kinds = Set.copyOf(kinds);
  }

  /** True when what could not be read may be of such a name. */
  public boolean mayDeclare(Mention.Kind kind, String name) {
    return kinds.contains(kind) || names.contains(name);
  }
}
