package dev.doublet.rulebook;

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

  List<Expectation> expectations(List<Tree.Meaning> meanings, List<Tree.Order> orders) {
    List<Expectation> all = new ArrayList<>();
    meanings.forEach(tree -> all.addAll(meanings(tree)));
    for (Tree.Order tree : orders) {
      boolean first = scope.aspects.find(tree.first()).isPresent();
      boolean second = scope.aspects.find(tree.second()).isPresent();
      if (first && second) {
        all.add(order(tree));
      }
    }
    return all;
  }

  /** One for each form. */
  private List<Expectation> meanings(Tree.Meaning tree) {
    List<List<Choice>> pictures =
        tree.pictures().stream()
            .map(p -> p.choices().stream().map(aspects::choice).toList())
            .toList();
    boolean known =
        tree.aspect().stream().allMatch(a -> scope.aspects.find(a).isPresent())
            && tree.pictures().stream().allMatch(aspects::knowsAll);
    List<String> plates = new ArrayList<>();
    List<Word> named = scope.distinct(tree.plates(), "plate");
    named.forEach(w -> scope.plates.find(w).ifPresent(p -> plates.add(p.name())));
    List<Form> forms = new ArrayList<>();
    scope.distinct(tree.forms(), "form").forEach(w -> scope.forms.find(w).ifPresent(forms::add));
    Set<Form> misfits = new HashSet<>();
    for (Tree.Pattern picture : tree.pictures()) {
      int heads = picture.choices().size();
      List<Form> unfit = forms.stream().filter(f -> f.places().size() != heads).toList();
      if (!unfit.isEmpty() && aspects.knowsAll(picture)) {
        scope.mistakes.add(AspectResolving.headCount(picture.span(), heads, unfit));
      }
      misfits.addAll(unfit);
    }
    boolean whole = known && plates.size() == named.size();
    String aspect = tree.aspect().isEmpty() ? "" : tree.aspect().get(0).text();
    return forms.stream()
        .filter(f -> whole && !misfits.contains(f))
        .<Expectation>map(f -> new Expectation.Meaning(f, plates, pictures, aspect, tree.span()))
        .toList();
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
