package dev.doublet.rulebook;

import dev.doublet.source.Mention.Kind;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Finds out which names the broken parts of a rulebook may declare. */
final class Gaps {
  private Gaps() {}

  /**
   * What could not be read of some files.
   *
   * @param broken true when anything is wrong with them
   */
  static Unread of(List<Tree> trees, boolean broken) {
    Set<String> names = new HashSet<>();
    Set<Kind> kinds = EnumSet.noneOf(Kind.class);
    for (Tree tree : trees) {
      for (Tree.Broken part : tree.broken()) {
        part.words().stream().map(Word::text).forEach(names::add);
        if (part.nameless()) {
          kinds.addAll(kinds(part));
        }
        if (part.mended().stream().anyMatch(Tree.Head.class::isInstance)) {
          kinds.add(Kind.FIGURE);
        }
      }
    }
    return new Unread(broken, names, kinds);
  }

  private static Set<Kind> kinds(Tree.Broken part) {
    if (part.mended().isEmpty()) {
      return EnumSet.allOf(Kind.class);
    }
    Tree.Declaration declaration = part.mended().get(0);
    if (declaration instanceof Tree.Speeds) {
      return EnumSet.of(Kind.SPEED);
    } else if (declaration instanceof Tree.Colours) {
      return EnumSet.of(Kind.COLOUR);
    } else if (declaration instanceof Tree.Rhythms) {
      return EnumSet.of(Kind.RHYTHM);
    } else if (declaration instanceof Tree.Head) {
      return EnumSet.of(Kind.HEAD);
    } else if (declaration instanceof Tree.Form) {
      return EnumSet.of(Kind.FORM);
    } else if (declaration instanceof Tree.Plates) {
      return EnumSet.of(Kind.PLATE);
    } else if (declaration instanceof Tree.Aspect) {
      return EnumSet.of(Kind.ASPECT);
    } else if (declaration instanceof Tree.Use use && use.path().text().isBlank()) {
      return EnumSet.allOf(Kind.class);
    }
    return EnumSet.noneOf(Kind.class);
  }
}
