package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Mention.Kind;
import dev.doublet.source.Nearest;
import dev.doublet.source.Span;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeSet;

/** Makes aspects of their declarations, once every other name is known. */
final class AspectResolving {
  private final Scope scope;
  private final Set<String> figures = new TreeSet<>();
  private final Set<String> flashing = new TreeSet<>();
  private final Set<String> positions = new TreeSet<>();
  private final Map<String, Word> earlier = new HashMap<>();
  private final Map<Integer, Tree.Aspect> numbers = new HashMap<>();
  private final NumeralResolving numerals;
  private boolean lacksFigure;

  AspectResolving(Scope scope, List<Tree.Head> heads) {
    this.scope = scope;
    this.numerals = new NumeralResolving(scope);
    for (Tree.Head head : heads) {
      for (Tree.Figure figure : head.figures()) {
        figures.add(figure.name().text());
        if (figure.lit().stream().anyMatch(one -> !one.rhythm().isEmpty())) {
          flashing.add(figure.name().text());
        }
      }
      for (Tree.Position position : head.positions()) {
        figures.add(position.name().text());
        positions.add(position.name().text());
      }
      for (Tree.Masks masks : head.masks()) {
        // Of noughts before a number is told elsewhere.
        masks.figures().forEach(f -> figures.add(f.text().replaceFirst("^0+(?=.)", "")));
        if (masks.figures().isEmpty()) {
          scope.numbers().displays().forEach(d -> figures.add(d.look()));
        }
      }
    }
    if (heads.isEmpty()) {
      // A book without heads leaves open what shows a number.
      scope.numbers().displays().forEach(d -> figures.add(d.look()));
    }
  }

  List<Aspect> aspects(List<Tree.Aspect> trees, List<Tree.Plates> plates) {
    for (Tree.Aspect tree : trees) {
      scope.aspects.declare(tree.name(), aspect(tree));
    }
    List<Aspect> completed = new LikenessResolving(scope, plates, this).completed(trees);
    numerals.check(trees, completed);
    return completed;
  }

  private Aspect aspect(Tree.Aspect tree) {
    String name = tree.name().text();
    if (name.isBlank()) {
      scope.mistakes.cited(
          "empty-value",
          tree.name().span(),
          "an aspect's name cannot be empty",
          "every aspect is known by one name",
          "49 CFR 236.23(c)",
          "write its name.");
    }
    once(tree, "rule", tree.rules().stream().map(Word::span).toList());
    once(tree, "number", tree.numbers().stream().map(Word::span).toList());
    once(tree, "indication", tree.indications().stream().map(Word::span).toList());
    once(tree, "permission", tree.allows().stream().map(Tree.Allows::span).toList());
    once(tree, "likeness", tree.likenesses().stream().map(Tree.Likeness::span).toList());
    List<Pattern> patterns = new ArrayList<>();
    tree.shows().forEach(s -> patterns.addAll(patterns(s)));
    return new Aspect(
        name,
        was(tree),
        text(tree.rules()),
        number(tree),
        text(tree.indications()),
        permission(tree),
        patterns,
        numerals.of(tree),
        tree.name().span(),
        tree.allows().isEmpty() ? tree.name().span() : tree.allows().get(0).span());
  }

  /** Each earlier name belongs to one aspect: what is said of it then is compared with that one. */
  private List<String> was(Tree.Aspect tree) {
    List<String> names = new ArrayList<>();
    for (Word word : scope.distinct(tree.was(), "earlier name")) {
      String name = word.text();
      Word first = earlier.putIfAbsent(name, word);
      if (first != null) {
        scope.mistakes.duplicate(
            word.span(),
            "two aspects were called \"{name}\"",
            first.span(),
            "one name stood for one aspect.",
            "remove one of the two.",
            Datum.of("name", name));
      } else if (name.isBlank() || name.equals(tree.name().text())) {
        scope.mistakes.wrong(
            name.isBlank() ? "empty-value" : "contradiction",
            word.span(),
            name.isBlank()
                ? "an aspect's earlier name cannot be empty"
                : "the aspect is still called \"{name}\"",
            "diff compares an aspect with the one that it was.",
            "write the name that it had before, or leave the line out.",
            Datum.of("name", name));
      } else {
        names.add(name);
      }
    }
    return names;
  }

  private void once(Tree.Aspect tree, String what, List<Span> spans) {
    if (spans.size() > 1) {
      scope.mistakes.duplicate(
          spans.get(1),
          "the aspect \"{aspect}\" has more than one {fact}",
          spans.get(0),
          "an aspect has one of each.",
          "remove all but one.",
          Datum.of("aspect", tree.name().text()),
          Datum.of("fact", what));
    }
  }

  private static String text(List<Word> words) {
    return words.isEmpty() ? "" : words.get(0).text();
  }

  private int number(Tree.Aspect tree) {
    if (tree.numbers().isEmpty()) {
      return Aspect.NO_NUMBER;
    }
    Word word = tree.numbers().get(0);
    OptionalInt read =
        scope.number(word, "an aspect's number", 0, 255, "a command has eight bits for it.");
    if (read.isEmpty()) {
      scope.lose(tree.name());
      return Aspect.NO_NUMBER;
    }
    int number = read.getAsInt();
    int last = numerals.last(tree, number);
    if (last < number) {
      scope.lose(tree.name());
      return Aspect.NO_NUMBER;
    }
    int taken = number;
    while (taken < last && !numbers.containsKey(taken)) {
      numbers.put(taken++, tree);
    }
    Tree.Aspect first = numbers.putIfAbsent(taken, tree);
    if (first != null && first.name().text().equals(tree.name().text())) {
      // That the aspect is there twice is said of its name.
      return Aspect.NO_NUMBER;
    }
    if (first != null) {
      scope.mistakes.duplicate(
          word.span(),
          "number {number} already calls up \"{aspect}\"",
          first.numbers().get(0).span(),
          "one value of a command calls up one aspect.",
          "give one of the two another number.",
          Datum.of("number", taken),
          Datum.of("aspect", first.name().text()));
      scope.lose(tree.name());
      return Aspect.NO_NUMBER;
    }
    return number;
  }

  private Permission permission(Tree.Aspect tree) {
    Movement unread = new Movement.Unread(tree.name().span());
    if (tree.allows().isEmpty() && !tree.likenesses().isEmpty()) {
      return new Permission(unread, unread, unread);
    }
    if (tree.allows().isEmpty()) {
      scope.mistakes.add(
          Diagnostic.error(
                  "incomplete",
                  Tier.STRUCTURE,
                  tree.name().span(),
                  "the aspect \"{aspect}\" does not say what it allows",
                  Datum.of("aspect", tree.name().text()))
              .because("without it no aspect can be compared with another.")
              .help("add it, as in: allows stop, or: allows normal then slow."));
      return new Permission(unread, unread, unread);
    }
    return permission(tree.allows().get(0));
  }

  /** What is said of the three signals. */
  Permission permission(Tree.Allows allows) {
    return new Permission(
        scope.movement(allows.here()),
        allows.next().isEmpty() ? new Movement.Unsaid() : scope.movement(allows.next().get(0)),
        allows.atShortDistance(),
        allows.second().isEmpty() ? new Movement.Unsaid() : scope.movement(allows.second().get(0)));
  }

  /** Patterns of what is known; one of an unknown plate or display would be another pattern. */
  private List<Pattern> patterns(Tree.Shows shows) {
    List<Word> plateWords = scope.distinct(shows.plates(), "plate");
    List<String> plates = new ArrayList<>();
    plateWords.forEach(w -> scope.plates.find(w).ifPresent(p -> plates.add(p.name())));
    List<Form> forms = new ArrayList<>();
    scope.distinct(shows.forms(), "form").forEach(w -> scope.forms.find(w).ifPresent(forms::add));
    List<Pattern> patterns = new ArrayList<>();
    for (Tree.Pattern tree : shows.patterns()) {
      List<Choice> choices = tree.choices().stream().map(this::choice).toList();
      List<Form> unfit = forms.stream().filter(f -> !f.takes(choices.size())).toList();
      boolean read = knowsAll(tree);
      if (!unfit.isEmpty() && read) {
        scope.mistakes.add(headCount(tree.span(), choices.size(), unfit));
      }
      boolean known = plates.size() == plateWords.size() && read;
      forms.stream()
          .filter(f -> known && !unfit.contains(f))
          .forEach(
              f ->
                  patterns.add(
                      new Pattern(f, plates, f.everyHead(choices, tree.span()), tree.span())));
    }
    return patterns;
  }

  /** What to say of displays that are too many or too few for some forms. */
  static Diagnostic headCount(Span span, int shown, List<Form> unfit) {
    Form form = unfit.get(0);
    int places = form.places().size();
    int dark = form.usuallyDark().size();
    Diagnostic diagnostic =
        Diagnostic.error(
                "head-count",
                Tier.STRUCTURE,
                span,
                "the form \"{form}\" has {heads}"
                    + (dark == 0 ? "" : ", {dark} of them usually dark")
                    + ", but this pattern is for {shown}",
                Datum.of("form", form.name()),
                Datum.count("heads", places, "head"),
                Datum.of("dark", dark),
                Datum.count("shown", shown, "head"))
            .related(form.span(), "has {places}", Datum.of("places", form.places()));
    for (Form other : unfit.subList(1, unfit.size())) {
      diagnostic =
          diagnostic.related(other.span(), "has {places}", Datum.of("places", other.places()));
    }
    return diagnostic
        .because("heads are part of what the crew reads: none is left out and none is added.")
        .help(
            shown < places
                ? "say what every head shows, top to bottom, as in: … over dark, or over any."
                : "take the heads away that the form does not have, or name another form.");
  }

  /** True when every display of a pattern is known. */
  boolean knowsAll(Tree.Pattern tree) {
    boolean numbered = !scope.numbers().figures().isEmpty();
    return (numbered || tree.choices().stream().allMatch(c -> c.letter().isEmpty()))
        && tree.choices().stream()
            .flatMap(c -> c.displays().stream())
            .allMatch(
                d ->
                    d.rhythm().stream().allMatch(r -> scope.rhythms.knows(r.text()))
                        && knowsLook(d.look().text()));
  }

  private boolean knowsLook(String look) {
    return look.equals(Display.DARK.look())
        || scope.colours.declares(look)
        || figures.contains(look);
  }

  /** What one head may show; a look or rhythm that nothing declares is noted. */
  Choice choice(Tree.Choice tree) {
    if (!tree.letter().isEmpty()) {
      return numeral(tree.letter().get(0), tree.span());
    }
    List<Display> displays = new ArrayList<>();
    tree.displays().forEach(d -> displays.add(display(d)));
    return new Choice(displays.stream().distinct().toList(), tree.span());
  }

  private Choice numeral(Word letter, Span span) {
    List<Display> displays = scope.hasNumbers(letter) ? scope.numbers().displays() : List.of();
    Optional<Display> missing =
        displays.stream().filter(d -> !figures.contains(d.look())).findFirst();
    boolean known = missing.isEmpty() || scope.mayDeclare(Kind.FIGURE, missing.get().look());
    if (!known && !lacksFigure) {
      lacksFigure = true;
      scope.mistakes.wrong(
          "incomplete",
          span,
          "no head of the book shows the number {figure}",
          "a numeral is a figure of a head, which has a lamp for it or several.",
          "write a head for them, as in: head speed shows numbers in white.",
          Datum.of("figure", missing.get().look()));
    }
    return new Choice(displays, letter.text(), span);
  }

  private Display display(Tree.Display tree) {
    String look = tree.look().text();
    boolean dark = look.equals(Display.DARK.look());
    if (!dark) {
      useLook(tree.look());
    }
    if (tree.rhythm().isEmpty()) {
      return Display.steady(look);
    }
    Word rhythm = tree.rhythm().get(0);
    if (dark && scope.rhythms.find(rhythm).isPresent()) {
      scope.mistakes.wrong(
          "contradiction",
          rhythm.span(),
          "a dark head has no rhythm",
          "no lamp of it is lit.",
          "write dark alone, or name the colour that flashes.");
    }
    if (!dark) {
      scope.rhythms.find(rhythm);
    }
    if (flashing.contains(look)) {
      scope.mistakes.wrong(
          "contradiction",
          rhythm.span(),
          "the lamps of \"{figure}\" have rhythms of their own",
          "a lamp flashes in one rhythm.",
          "write {figure} alone, or light a figure without rhythms.",
          Datum.of("figure", look));
    }
    if (positions.contains(look)) {
      scope.mistakes.wrong(
          "contradiction",
          rhythm.span(),
          "\"{position}\" is a position of an arm, and has no rhythm",
          "an arm stands still, and its lamp is steady.",
          "write {position} alone, or name a colour that flashes.",
          Datum.of("position", look));
    }
    return new Display(look, rhythm.text());
  }

  /** Notes a colour or figure that nothing declares. */
  void useLook(Word look) {
    scope.colours.use(look.text());
    boolean elsewhere =
        scope.colours.has(look.text()) || scope.mayDeclare(Kind.FIGURE, look.text());
    if (elsewhere || knowsLook(look.text())) {
      return;
    }
    if (scope.rhythms.declares(look.text())) {
      scope.mistakes.add(
          Diagnostic.error(
                  "unknown-name",
                  Tier.NAMES,
                  look.span(),
                  "\"{rhythm}\" is a rhythm, and says nothing of the colour",
                  Datum.of("rhythm", look.text()))
              .because("a head shows a colour or a figure, perhaps in a rhythm.")
              .help("add the colour, as in: {rhythm} yellow.", Datum.of("rhythm", look.text())));
      return;
    }
    if (scope.mistakes.isUnknown("colour", look)) {
      scope.colours.find(look);
      return;
    }
    if (!scope.numbers().figures().isEmpty() && look.text().matches("[0-9]+")) {
      scope.unknownNumber(look);
      return;
    }
    Set<String> known = new TreeSet<>(scope.colours.all());
    known.addAll(figures);
    if (scope.lacks(Kind.FIGURE) && Nearest.to(look.text(), known).isEmpty()) {
      return;
    }
    if (!known.isEmpty()) {
      known.addAll(List.of("dark", "any"));
    }
    scope.mistakes.unknown(
        "colour or figure", look, known, "declare it, as a colour or as a figure of a head");
  }
}
