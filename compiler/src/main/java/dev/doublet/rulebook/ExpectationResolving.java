package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Gathers what a rulebook expects of itself, once all its aspects are known. */
final class ExpectationResolving {
  private final Scope scope;
  private final AspectResolving aspects;

  ExpectationResolving(Scope scope, AspectResolving aspects) {
    this.scope = scope;
    this.aspects = aspects;
  }

  List<Expectation> expectations(
      List<Tree.Meaning> meanings,
      List<Tree.Order> orders,
      List<Tree.Allowed> allowed,
      List<Tree.Precedence> precedences) {
    List<Expectation> all = new ArrayList<>();
    for (Tree.Allowed tree : allowed) {
      boolean known = scope.aspect(tree.aspect()).isPresent();
      Permission permission = aspects.permission(tree.allows());
      if (known && permission.isRead()) {
        all.add(new Expectation.Allowed(tree.aspect().text(), permission, tree.span()));
      }
    }
    for (Tree.Precedence tree : precedences) {
      boolean first = scope.aspect(tree.first()).isPresent();
      boolean second = scope.aspect(tree.second()).isPresent();
      if (first && second) {
        all.add(precedence(tree));
      }
    }
    meanings.forEach(tree -> all.addAll(meanings(tree)));
    for (Tree.Order tree : orders) {
      boolean first = scope.aspect(tree.first()).isPresent();
      boolean second = scope.aspect(tree.second()).isPresent();
      if (first && second) {
        all.add(order(tree));
      }
    }
    return all;
  }

  /** True when some picture shows the number of each letter that an aspect's name has. */
  private boolean showsLetters(Word aspect, List<List<Choice>> pictures) {
    if (scope.numbers().figures().isEmpty()) {
      return true;
    }
    List<String> missing = new ArrayList<>(Numerals.lettersOf(aspect.text()));
    pictures.forEach(p -> p.forEach(choice -> missing.remove(choice.letter())));
    if (!missing.isEmpty()) {
      scope.mistakes.wrong(
          "incomplete",
          aspect.span(),
          "nothing here shows {letter}",
          "in one expectation a letter stands for one number.",
          "write {letter} where a head shows it, or a number in the name.",
          Datum.of("letter", Numerals.words(missing.get(0))));
    }
    return missing.isEmpty();
  }

  /** One for each form. */
  private List<Expectation> meanings(Tree.Meaning tree) {
    List<List<Choice>> pictures =
        tree.pictures().stream()
            .map(p -> p.choices().stream().map(aspects::choice).toList())
            .toList();
    boolean known =
        tree.aspect().stream()
                .allMatch(a -> scope.aspect(a).isPresent() && showsLetters(a, pictures))
            && tree.pictures().stream().allMatch(aspects::knowsAll);
    List<String> plates = new ArrayList<>();
    List<Word> named = scope.distinct(tree.plates(), "plate");
    named.forEach(w -> scope.plates.find(w).ifPresent(p -> plates.add(p.name())));
    List<Form> forms = new ArrayList<>();
    scope.distinct(tree.forms(), "form").forEach(w -> scope.forms.find(w).ifPresent(forms::add));
    Set<Form> misfits = new HashSet<>();
    for (Tree.Pattern picture : tree.pictures()) {
      int heads = picture.choices().size();
      List<Form> unfit = forms.stream().filter(f -> !f.takes(heads)).toList();
      if (!unfit.isEmpty() && aspects.knowsAll(picture)) {
        scope.mistakes.add(AspectResolving.headCount(picture.span(), heads, unfit));
      }
      misfits.addAll(unfit);
    }
    boolean whole = known && plates.size() == named.size();
    String aspect = tree.aspect().isEmpty() ? "" : tree.aspect().get(0).text();
    return forms.stream()
        .filter(f -> whole && !misfits.contains(f))
        .<Expectation>map(
            f ->
                new Expectation.Meaning(
                    f,
                    plates,
                    pictures.stream().map(p -> f.everyHead(p, tree.span())).toList(),
                    aspect,
                    tree.span()))
        .toList();
  }

  private static Expectation precedence(Tree.Precedence tree) {
    boolean inOrder = tree.how().text().equals("before");
    Word before = inOrder ? tree.first() : tree.second();
    Word after = inOrder ? tree.second() : tree.first();
    return new Expectation.Precedence(before.text(), !tree.denied(), after.text(), tree.span());
  }

  private Expectation order(Tree.Order tree) {
    Permission.Standing standing =
        switch (tree.order().text()) {
          case "more" -> Permission.Standing.MORE_RESTRICTIVE;
          case "less" -> Permission.Standing.LESS_RESTRICTIVE;
          default -> Permission.Standing.UNKNOWN;
        };
    return new Expectation.Order(tree.first().text(), standing, tree.second().text(), tree.span());
  }
}
