package dev.doublet.syntax;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.List;
import org.antlr.v4.runtime.misc.ParseCancellationException;

/** Reads the language of .aspects files. */
public final class AspectsSyntax {
  private AspectsSyntax() {}

  /**
   * Reads one text.
   *
   * @return the tree, and every independent mistake in the grammar; with mistakes, the tree holds
   *     what could be read in spite of them
   */
  public static Outcome<Tree> parse(SourceFile file) {
    Words words = new Words(file);
    TreeBuilding building = new TreeBuilding(words);
    List<Tree.Declaration> declarations = new ArrayList<>();
    List<Diagnostic> mistakes = new ArrayList<>();
    Attempt attempt = new Attempt(words.tokens(), 0);
    try {
      while (!attempt.atEnd()) {
        declarations.add(building.declaration(attempt.declaration()));
      }
    } catch (ParseCancellationException failure) {
      var at = words.tokens().get(attempt.failedAt());
      mistakes.add(Diagnostic.error("syntax", Tier.SYNTAX, words.span(at), "unexpected word"));
    }
    return Outcome.of(new Tree(file, declarations, words.comments()), mistakes);
  }
}
