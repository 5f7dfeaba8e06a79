package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Deque;
import java.util.HashMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;

/**
 * Completes the aspects that look like another one with a plate: each pattern of the other that no
 * exception names, with the plate, and unless it says itself what it allows, what the plate makes
 * of the other's permission. An aspect's own patterns come first.
 */
final class LikenessResolving {
  private final Scope scope;
  private final AspectResolving resolving;
  private final Map<String, Map<Movement, Movement>> changes = new HashMap<>();
  private final Map<String, Tree.Aspect> trees = new LinkedHashMap<>();
  private final Map<String, Aspect> complete = new HashMap<>();

  /** Aspects of which more patterns may be meant than are known. */
  private final Set<String> partial = new HashSet<>();

  private final List<Diagnostic> idle = new ArrayList<>();

  /** Learns what plates change. */
  LikenessResolving(Scope scope, List<Tree.Plates> plates, AspectResolving resolving) {
    this.scope = scope;
    this.resolving = resolving;
    plates.forEach(this::learn);
  }

  /** Every aspect with all its patterns and its permission, in the order declared. */
  List<Aspect> completed(List<Tree.Aspect> declared) {
    declared.forEach(tree -> trees.putIfAbsent(tree.name().text(), tree));
    trees.keySet().forEach(this::complete);
    if (scope.isSound()) {
      // With other mistakes, a pattern may be missing only because it was not understood.
      idle.forEach(scope.mistakes::add);
    }
    return trees.keySet().stream().map(complete::get).toList();
  }

  private void learn(Tree.Plates plates) {
    Map<Movement, Movement> learnt = new HashMap<>();
    Map<Movement, Tree.Change> first = new HashMap<>();
    for (Tree.Change change : plates.changes()) {
      Movement from = scope.movement(change.from());
      Tree.Change other = first.putIfAbsent(from, change);
      if (other == null) {
        learnt.put(from, scope.movement(change.to()));
      } else {
        scope.mistakes.duplicate(
            change.from().span(),
            "the plate already turns \"{movement}\" into something else",
            other.from().span(),
            "one thing read two ways tells the crew nothing.",
            "remove one of the two.",
            Datum.of("movement", from.words()));
      }
    }
    plates.names().forEach(name -> changes.putIfAbsent(name.text(), learnt));
  }

  /** Completes first what an aspect is like, without calling itself: a chain may be long. */
  private void complete(String name) {
    Deque<Tree.Aspect> path = new ArrayDeque<>();
    Set<String> passed = new HashSet<>();
    String at = name;
    while (trees.containsKey(at) && !complete.containsKey(at)) {
      Tree.Aspect tree = trees.get(at);
      if (!passed.add(at)) {
        breakCycle(path, tree);
        break;
      }
      path.push(tree);
      if (tree.likenesses().isEmpty()) {
        break;
      }
      at = tree.likenesses().get(0).aspect().text();
    }
    for (Tree.Aspect tree : path) {
      complete.computeIfAbsent(tree.name().text(), key -> completed(tree));
    }
  }

  private Aspect completed(Tree.Aspect tree) {
    Aspect own = scope.aspects.find(tree.name()).orElseThrow();
    if (tree.likenesses().isEmpty()) {
      return own;
    }
    Tree.Likeness likeness = tree.likenesses().get(0);
    Optional<Plate> plate = scope.plates.find(likeness.plate());
    List<Form> forms = new ArrayList<>();
    List<Word> words = scope.distinct(likeness.forms(), "form");
    words.forEach(w -> scope.forms.find(w).ifPresent(forms::add));
    List<Exempt> exceptions = likeness.exceptions().stream().map(this::exempt).toList();
    boolean known = scope.aspects.find(likeness.aspect()).isPresent();
    boolean exact = likeness.exceptions().stream().allMatch(resolving::knowsAll);
    if (!known || plate.isEmpty() || forms.size() < words.size() || !exact) {
      partial.add(own.name());
      return own;
    }
    Aspect other = complete.get(likeness.aspect().text());
    for (int i = 0; i < forms.size(); i++) {
      boolean shown =
          !other.patternsOn(forms.get(i)).isEmpty() || names(likeness.aspect(), words.get(i));
      if (!shown && !partial.contains(other.name())) {
        scope.mistakes.add(notShown(other, words.get(i)));
      }
    }
    List<Pattern> like =
        other.patterns().stream().filter(p -> words.isEmpty() || forms.contains(p.form())).toList();
    List<Pattern> kept =
        like.stream().filter(p -> exceptions.stream().noneMatch(e -> e.covers(p))).toList();
    exceptions.forEach(e -> e.mistake(other, like).ifPresent(idle::add));
    if (kept.isEmpty() && !like.isEmpty()) {
      idle.add(nothingLeft(other, likeness));
    }
    List<Pattern> patterns = new ArrayList<>(own.patterns());
    kept.forEach(p -> patterns.add(p.with(plate.get(), likeness.span())));
    boolean says = !tree.allows().isEmpty();
    return own.completed(
        patterns,
        says ? own.permission() : permission(other, likeness),
        says ? own.permissionSpan() : likeness.span());
  }

  private Permission permission(Aspect other, Tree.Likeness likeness) {
    String plate = likeness.plate().text();
    Map<Movement, Movement> change = changes.get(plate);
    Permission was = other.permission();
    boolean known =
        change.keySet().stream().noneMatch(Movement.Unread.class::isInstance)
            && !(was.here() instanceof Movement.Unread);
    if (!known) {
      Movement unread = new Movement.Unread(likeness.span());
      return new Permission(unread, unread, unread);
    }
    Permission now =
        new Permission(
            change.getOrDefault(was.here(), was.here()),
            change.getOrDefault(was.next(), was.next()),
            was.atShortDistance(),
            change.getOrDefault(was.second(), was.second()));
    if (now.equals(was)) {
      scope.mistakes.cited(
          "idle-plate",
          likeness.span(),
          "the {plate} plate changes nothing of what \"{aspect}\" allows",
          "aspects that ask for the same action share one name",
          "49 CFR 236.23(c)",
          "say what the plate changes where it is declared, as in: plate {plate} turns slow into diverging, or what this aspect allows.",
          Datum.of("plate", plate),
          Datum.of("aspect", other.name()));
    }
    return now;
  }

  private Exempt exempt(Tree.Pattern tree) {
    return new Exempt(tree.choices().stream().map(resolving::choice).toList(), tree.span());
  }

  private static Diagnostic nothingLeft(Aspect other, Tree.Likeness likeness) {
    return Diagnostic.error(
            "unfit-exception",
            Tier.STRUCTURE,
            likeness.span(),
            "the exceptions leave no pattern of \"{aspect}\"",
            Datum.of("aspect", other.name()))
        .because("there is no pattern to be like.")
        .help("take one of them away, or write this aspect's own patterns.");
  }

  /** True when an aspect's own patterns name a form, if only with a mistake already said. */
  private boolean names(Word aspect, Word form) {
    return trees.get(aspect.text()).shows().stream()
        .flatMap(s -> s.forms().stream())
        .anyMatch(w -> w.text().equals(form.text()));
  }

  private static Diagnostic notShown(Aspect other, Word form) {
    return Diagnostic.error(
            "incomplete",
            Tier.STRUCTURE,
            form.span(),
            "the aspect \"{aspect}\" is not shown on form {form}",
            Datum.of("aspect", other.name()),
            Datum.of("form", form.text()))
        .related(other.span(), "declared here")
        .because("there is no pattern to be like.")
        .help(
            "take this form away, or say how it looks, as in: on {form} show red.",
            Datum.of("form", form.text()));
  }

  /** Reports a circle and leaves the aspects in it as they are. */
  private void breakCycle(Deque<Tree.Aspect> path, Tree.Aspect first) {
    List<Tree.Likeness> round = new ArrayList<>();
    for (Tree.Aspect tree : path) {
      complete.put(tree.name().text(), scope.aspects.find(tree.name()).orElseThrow());
      round.add(0, tree.likenesses().get(0));
      if (tree == first) {
        break;
      }
    }
    List<String> circle = new ArrayList<>(List.of(first.name().text()));
    round.forEach(link -> circle.add(link.aspect().text()));
    Diagnostic diagnostic =
        Diagnostic.error(
            "aspect-cycle",
            Tier.STRUCTURE,
            round.get(0).span(),
            round.size() == 1
                ? "\"{aspect}\" looks like itself"
                : "aspects look like one another in a circle: \"{circle}\"",
            Datum.of("aspect", circle.get(0)),
            Datum.chain("circle", "like", circle));
    for (Tree.Likeness link : round.subList(1, round.size())) {
      diagnostic =
          diagnostic.related(
              link.span(), "like \"{aspect}\"", Datum.of("aspect", link.aspect().text()));
    }
    scope.mistakes.add(
        diagnostic
            .because("one of them must say with patterns of its own how it looks.")
            .help("write that one's patterns, as in: on two-head show red over green."));
  }
}
