package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;

/** Gathers what a rulebook says of signals that fail, once forms and aspects are known. */
final class FailureResolving {
  private final Scope scope;
  private final AspectResolving aspects;

  FailureResolving(Scope scope, AspectResolving aspects) {
    this.scope = scope;
    this.aspects = aspects;
  }

  Failures failures(
      List<Tree.Imperfect> imperfect, List<Tree.Cover> covers, List<Tree.Grave> grave) {
    if (imperfect.size() > 1) {
      scope.mistakes.duplicate(
          imperfect.get(1).span(),
          "the rulebook says twice how imperfect signals are read",
          imperfect.get(0).span(),
          "a crew reads them one way.",
          "remove all but one.");
    }
    Set<Fault> errors = EnumSet.noneOf(Fault.class);
    grave.forEach(g -> errors.addAll(faults(g.faults())));
    return new Failures(
        imperfect.isEmpty() ? List.of() : provisos(imperfect.get(0)),
        imperfect.isEmpty() ? Imperfect.UNSAID : readAs(imperfect.get(0)),
        covers.stream().map(this::cover).flatMap(Optional::stream).toList(),
        errors);
  }

  private List<Proviso> provisos(Tree.Imperfect tree) {
    List<Proviso> provisos = new ArrayList<>();
    for (Tree.Proviso one : tree.provisos()) {
      List<Word> looks = scope.distinct(one.looks(), "colour");
      looks.forEach(aspects::useLook);
      Optional<Aspect> read = scope.aspect(one.aspect());
      if (read.isPresent() && read.get().numerals().isOpen()) {
        scope.mistakes.wrong(
            "incomplete",
            one.aspect().span(),
            "\"{aspect}\" is of many numbers, and this does not say which",
            "no head shows a number that the whole signal is to be read as.",
            "name one, as in: \"{one}\".",
            Datum.of("aspect", read.get().name()),
            Datum.of("one", read.get().each().get(0).name()));
      } else if (read.isPresent()) {
        List<String> names = looks.stream().map(Word::text).toList();
        provisos.add(new Proviso(one.aspect().text(), names, one.alone(), one.span()));
      }
    }
    return provisos;
  }

  private static Imperfect readAs(Tree.Imperfect tree) {
    return Arrays.stream(Imperfect.values())
        .filter(i -> i.words().equals(tree.readAs()))
        .findFirst()
        .orElseThrow();
  }

  /** A cover; empty when part of it is not known, since without its forms it would cover all. */
  private Optional<Cover> cover(Tree.Cover tree) {
    if (tree.reason().text().isBlank()) {
      scope.mistakes.wrong(
          "empty-value",
          tree.reason().span(),
          "a cover needs a reason",
          "whoever reads the rulebook has to know what keeps the crew safe.",
          "say what covers the fault in practice.");
    }
    List<Form> forms = new ArrayList<>();
    tree.forms().forEach(w -> scope.forms.find(w).ifPresent(forms::add));
    Cover cover = new Cover(faults(tree.faults()), forms, tree.reason().text(), tree.span());
    return forms.size() < tree.forms().size() ? Optional.empty() : Optional.of(cover);
  }

  private Set<Fault> faults(List<Word> words) {
    Set<String> known = new TreeSet<>();
    Arrays.stream(Fault.values()).forEach(f -> known.add(f.words()));
    Set<Fault> faults = EnumSet.noneOf(Fault.class);
    boolean formSaid = false;
    for (Word word : words) {
      boolean form = scope.forms.declares(word.text());
      if (form && formSaid) {
        continue;
      }
      formSaid |= form;
      if (known.contains(word.text())) {
        Arrays.stream(Fault.values())
            .filter(f -> f.words().equals(word.text()))
            .forEach(faults::add);
      } else {
        scope.mistakes.unknown(
            "fault", word, known, "name one that is tried", "no other faults are tried.");
      }
    }
    return faults;
  }
}
