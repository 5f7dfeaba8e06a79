package dev.doublet.rulebook;

import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.List;
import java.util.stream.Stream;

/** Gathers the warnings that a rulebook lives with, once all its names are known. */
final class AcceptanceResolving {
  private final Scope scope;

  AcceptanceResolving(Scope scope) {
    this.scope = scope;
  }

  List<Acceptance> acceptances(List<Tree.Accept> trees) {
    return trees.stream().map(this::acceptance).toList();
  }

  /** Whether there is such a check, only the checks know. */
  private Acceptance acceptance(Tree.Accept tree) {
    if (tree.reason().text().isBlank()) {
      scope.mistakes.wrong(
          "empty-value",
          tree.reason().span(),
          "an acceptance needs a reason",
          "whoever reads the rulebook has to know why the warning may stay.",
          "say why it may.");
    }
    List<Word> named = scope.distinct(tree.aspects(), "aspect");
    List<Word> rhythms = scope.distinct(tree.names(), "rhythm");
    List<Word> forms = scope.distinct(tree.forms(), "form");
    named.forEach(scope::aspect);
    rhythms.forEach(this::rhythm);
    forms.forEach(scope.forms::find);
    return new Acceptance(
        tree.check().text(),
        Stream.of(named, rhythms, forms).flatMap(List::stream).map(Word::text).toList(),
        tree.reason().text(),
        tree.span());
  }

  private void rhythm(Word word) {
    String name = word.text();
    if (scope.rhythms.declares(name)) {
      scope.rhythms.use(name);
    } else if (scope.aspects.declares(name)) {
      scope.mistakes.add(
          noRhythm(
                  word,
                  "an aspect stands in quotation marks: \"{aspect}\"",
                  Datum.of("aspect", name))
              .help("write \"{aspect}\".", Datum.of("aspect", name))
              .fix("write it in quotation marks", word.span(), "\"" + name + "\"", true));
    } else if (scope.forms.declares(name)) {
      scope.mistakes.add(
          noRhythm(word, "a form stands after \"on\": on {form}", Datum.of("form", name))
              .help("name it there, behind all else that the warning is about."));
    } else {
      scope.rhythms.find(word);
    }
  }

  private static Diagnostic noRhythm(Word word, String message, Datum... data) {
    return Diagnostic.error("unknown-name", Tier.NAMES, word.span(), message, data)
        .because("a name that stands here by itself is a rhythm's.");
  }
}
