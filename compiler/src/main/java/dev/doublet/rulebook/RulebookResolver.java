package dev.doublet.rulebook;

import dev.doublet.colour.RegionSet;
import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Shortlist;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.AspectsSyntax;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.SortedSet;
import java.util.TreeSet;

/** Reads a rulebook and everything it uses, and resolves every name in it. */
public final class RulebookResolver {
  /** A flash is lit for half of its time unless the book says otherwise. */
  private static final int HALF = 50;

  private static final String LEAVE_OUT = "leave out \"as\" and the name";
  private static final String PUBLISHED = "only the regions of these are known to the compiler.";

  private final List<Tree> trees;
  private final Scope scope;

  private RulebookResolver(List<Tree> trees, boolean broken) {
    this.trees = trees;
    this.scope = new Scope(Gaps.of(trees, broken));
  }

  /**
   * Reads a rulebook.
   *
   * @param path the file with the rulebook's first line
   * @param reader fetches that file and those it uses
   * @return always a rulebook: with errors, what could be read of it, where each mistake costs the
   *     declaration that it stands in and no other
   */
  public static Outcome<Rulebook> resolve(String path, SourceReader reader) {
    UsedFiles files = UsedFiles.read(path, reader);
    RulebookResolver resolver = new RulebookResolver(files.trees(), !files.mistakes().isEmpty());
    Rulebook book = resolver.resolve();
    if (resolver.scope.isSound()) {
      resolver.noteUnused();
      resolver.noteUnshown(book);
    }
    List<Diagnostic> said = new ArrayList<>(files.mistakes());
    said.addAll(resolver.scope.mistakes.all(resolver.scope.kinds()));
    return Outcome.of(book, Shortlist.of(said));
  }

  /**
   * A rulebook that could not be read: it may declare anything.
   *
   * @param path the file that it should be in
   */
  public static Rulebook unknown(String path) {
    Tree nothing = AspectsSyntax.nothing(new SourceFile(path, ""));
    return new RulebookResolver(List.of(nothing), true).resolve();
  }

  private Rulebook resolve() {
    String colourSet = declareColours();
    each(Tree.Rhythms.class).forEach(this::declare);
    each(Tree.Plates.class).forEach(this::declare);
    each(Tree.Form.class).forEach(this::declare);
    String unit = declareSpeeds();
    List<Tree.Numbers> numbers = each(Tree.Numbers.class);
    scope.declare(new NumeralResolving(scope).numbers(numbers), !numbers.isEmpty());
    HeadResolving heads = new HeadResolving(scope);
    for (Tree.Head tree : each(Tree.Head.class)) {
      Optional<HeadType> head =
          Optional.of(heads.head(tree)).filter(h -> h.isArm() || !h.lamps().isEmpty());
      scope.heads.declare(tree.name(), head);
    }
    reportClashes();
    reportOtherGlasses();
    BookLineResolving first = new BookLineResolving(scope);
    Tree.BookLine line = first.line(each(Tree.BookLine.class), trees.get(0));
    AspectResolving resolving = new AspectResolving(scope, each(Tree.Head.class));
    List<Aspect> aspects = resolving.aspects(each(Tree.Aspect.class), each(Tree.Plates.class));
    Failures failures =
        new FailureResolving(scope, resolving)
            .failures(each(Tree.Imperfect.class), each(Tree.Cover.class), each(Tree.Grave.class));
    List<Expectation> expectations =
        new ExpectationResolving(scope, resolving)
            .expectations(
                each(Tree.Meaning.class),
                each(Tree.Order.class),
                each(Tree.Allowed.class),
                each(Tree.Precedence.class));
    List<Acceptance> acceptances =
        new AcceptanceResolving(scope).acceptances(each(Tree.Accept.class));
    reportMissing(line);
    reportUnshown(line, aspects);
    return new Rulebook(
        line.title().text(),
        first.edition(line),
        first.effective(line),
        unit,
        colourSet,
        scope.speeds.values(),
        scope.numbers(),
        scope.colours.values(),
        scope.rhythms.values(),
        scope.heads.values(),
        scope.forms.values(),
        scope.plates.values(),
        aspects,
        failures,
        expectations,
        acceptances,
        scope.unread(),
        NameWalk.of(trees),
        line.span());
  }

  private <T extends Tree.Declaration> List<T> each(Class<T> kind) {
    return trees.stream()
        .flatMap(t -> t.declarations().stream())
        .filter(kind::isInstance)
        .map(kind::cast)
        .toList();
  }

  private String declareColours() {
    Word set = null;
    for (Tree.Colours tree : each(Tree.Colours.class)) {
      tree.colours().forEach(this::declare);
      for (Word said : tree.set()) {
        if (set == null) {
          set = said;
        } else if (!set.text().equals(said.text())) {
          scope.mistakes.add(
              Diagnostic.error(
                      "contradiction",
                      Tier.STRUCTURE,
                      said.span(),
                      "colours are as {set} above, and as {other-set}",
                      Datum.of("set", set.text()),
                      Datum.of("other-set", said.text()))
                  .related(set.span(), "here as {set}", Datum.of("set", set.text()))
                  .because("each set of published colours draws its own borders.")
                  .help("ask for one of the two everywhere."));
        }
      }
    }
    if (set != null && RegionSet.named(set.text()).isEmpty()) {
      List<String> known = RegionSet.published().stream().map(RegionSet::name).toList();
      scope.mistakes.unknown("set of published colours", set, known, LEAVE_OUT, PUBLISHED);
    }
    return set == null ? "" : set.text();
  }

  private void declare(Tree.Colour tree) {
    Word name = tree.name();
    for (Word published : tree.published()) {
      SortedSet<String> known = new TreeSet<>();
      RegionSet.published().forEach(s -> known.addAll(s.colours()));
      if (!known.contains(published.text())) {
        scope.mistakes.unknown("published colour", published, known, LEAVE_OUT, PUBLISHED);
        scope.lose(name);
      }
    }
    String published = tree.published().isEmpty() ? name.text() : tree.published().get(0).text();
    scope.colours.declare(name, new Colour(name.text(), published, name.span()));
  }

  private void declare(Tree.Rhythms tree) {
    for (Tree.Rhythm rhythm : tree.rhythms()) {
      OptionalInt rate =
          scope.number(
              rhythm.perMinute(),
              "a rhythm's rate",
              1,
              600,
              "a rhythm flashes, and nobody can read a faster one.");
      OptionalInt lit = OptionalInt.of(HALF);
      if (!rhythm.litPercent().isEmpty()) {
        Word percent = rhythm.litPercent().get(0);
        lit = scope.number(percent, "the lit part", 1, 99, "a flash is lit and then is not.");
      }
      Word name = rhythm.name();
      Optional<Rhythm> read =
          rate.isEmpty() || lit.isEmpty()
              ? Optional.empty()
              : Optional.of(
                  new Rhythm(
                      name.text(),
                      rate.getAsInt(),
                      lit.getAsInt(),
                      rhythm.startsDark(),
                      name.span()));
      scope.rhythms.declare(name, read);
    }
  }

  private void declare(Tree.Plates tree) {
    tree.names()
        .forEach(n -> scope.plates.declare(n, new Plate(n.text(), tree.withoutStop(), n.span())));
    if (tree.withoutStop()) {
      // It says something of the signals that carry it, whether or not a pattern asks for it.
      tree.names().forEach(n -> scope.plates.use(n.text()));
    }
  }

  private void declare(Tree.Form tree) {
    Names<Word> places =
        new Names<>("place", " of form " + tree.name().text(), "declare it", scope.mistakes);
    tree.places().forEach(p -> places.declare(p.name(), p.name()));
    Mount mount = Mount.valueOf(tree.mount().replace(' ', '_').toUpperCase(Locale.ROOT));
    Word name = tree.name();
    List<String> names = List.copyOf(places.all());
    List<String> dark =
        tree.places().stream().filter(Tree.Place::usuallyDark).map(p -> p.name().text()).toList();
    Form form = new Form(name.text(), mount, names, dark, tree.withoutStop(), name.span());
    boolean said = dark.size() < tree.places().size();
    if (!said) {
      scope.mistakes.wrong(
          "contradiction",
          name.span(),
          "every head of the form \"{form}\" is usually dark",
          "a pattern has to say at least one display.",
          "take usually dark away from the heads that aspects light.",
          Datum.of("form", name.text()));
    }
    boolean known = said && names.size() == tree.places().size();
    scope.forms.declare(name, known ? Optional.of(form) : Optional.empty());
  }

  private String declareSpeeds() {
    Word unit = null;
    for (Tree.Speeds speeds : each(Tree.Speeds.class)) {
      boolean written = speeds.unit().span().start() < speeds.unit().span().end();
      if (unit == null) {
        unit = written ? speeds.unit() : null;
      } else if (written && !unit.text().equals(speeds.unit().text())) {
        scope.mistakes.add(
            Diagnostic.error(
                    "contradiction",
                    Tier.STRUCTURE,
                    speeds.unit().span(),
                    "speeds are in {unit} above, and in {other-unit}",
                    Datum.of("unit", unit.text()),
                    Datum.of("other-unit", speeds.unit().text()))
                .related(unit.span(), "here in {unit}", Datum.of("unit", unit.text()))
                .because("figures are compared with one another as they stand.")
                .help("give every figure in the same unit."));
      }
      speeds.speeds().forEach(this::declare);
    }
    return unit == null ? "" : unit.text();
  }

  private void declare(Tree.Speed tree) {
    Word rank = tree.rank();
    switch (rank.text()) {
      case "maximum" -> declare(tree, Speed.Rank.MAXIMUM, OptionalInt.of(0));
      case "unranked" -> declare(tree, Speed.Rank.UNRANKED, OptionalInt.of(0));
      default ->
          declare(
              tree,
              Speed.Rank.FIGURE,
              scope.number(
                  rank, "a speed", 1, 999, "a train that may go on moves, and none is faster."));
    }
  }

  private void declare(Tree.Speed tree, Speed.Rank rank, OptionalInt figure) {
    Word name = tree.name();
    Optional<Speed> speed =
        figure.isEmpty()
            ? Optional.empty()
            : Optional.of(
                new Speed(name.text(), rank, figure.getAsInt(), tree.onSight(), name.span()));
    scope.speeds.declare(name, speed);
  }

  /** A display is a rhythm and a look, so no name may be both. */
  private void reportClashes() {
    for (String rhythm : scope.rhythms.all()) {
      Word second = scope.rhythms.word(rhythm);
      if (scope.colours.declares(rhythm)) {
        reportClash(second, "colour", scope.colours.word(rhythm).span());
      }
      for (HeadType head : scope.heads.values()) {
        head.figures().stream()
            .filter(f -> f.name().equals(rhythm))
            .forEach(f -> reportClash(second, "figure", f.span()));
      }
    }
  }

  /** Arms that share a position show it alike by night, so that patterns say what a crew sees. */
  private void reportOtherGlasses() {
    Map<String, Figure> first = new HashMap<>();
    for (HeadType arm : scope.heads.values().stream().filter(HeadType::isArm).toList()) {
      for (Figure position : arm.figures().stream().filter(f -> !f.lit().isEmpty()).toList()) {
        Figure other = first.putIfAbsent(position.name(), position);
        if (other != null && !other.lit().equals(position.lit())) {
          scope.mistakes.duplicate(
              position.span(),
              "\"{position}\" shows two colours by night, of two arms",
              other.span(),
              "a pattern that asks for it must say what a crew sees, by night as by day.",
              "give the position of one of the two arms another name.",
              Datum.of("position", position.name()));
        }
      }
    }
  }

  private void reportClash(Word rhythm, String kind, Span other) {
    scope.mistakes.duplicate(
        rhythm.span(),
        "\"{name}\" is both a rhythm and a {kind}",
        other,
        "in a display, such as flashing yellow, each word must say which of the two it is.",
        "give one of the two another name.",
        Datum.of("name", rhythm.text()),
        Datum.of("kind", kind));
  }

  private void reportMissing(Tree.BookLine line) {
    Tree root = trees.get(0);
    if (trees.stream().anyMatch(tree -> !tree.isWhole())) {
      return;
    }
    boolean untitled = each(Tree.BookLine.class).stream().noneMatch(l -> l == line);
    if (untitled) {
      String what = root.declarations().isEmpty() ? " declares nothing" : " has no rulebook line";
      scope.mistakes.add(
          Diagnostic.error(
                  "incomplete",
                  Tier.STRUCTURE,
                  line.span(),
                  "{file}" + what,
                  Datum.of("file", root.file().name()))
              .because("tables and findings name the rulebook that they come from.")
              .help(
                  "begin the file with its title, as in: rulebook \"Brackwater & Northern\", or"
                      + " give the file that uses this one."));
    } else if (each(Tree.Aspect.class).isEmpty()) {
      scope.mistakes.add(
          Diagnostic.error("incomplete", Tier.STRUCTURE, line.span(), "the rulebook has no aspects")
              .because("a signal has nothing to show.")
              .help("declare at least the one for stop, as in: aspect \"Stop\" { … }."));
    }
  }

  /** A rulebook may have aspects that no form of its own shows, but not those alone. */
  private void reportUnshown(Tree.BookLine line, List<Aspect> aspects) {
    boolean none = aspects.stream().allMatch(aspect -> aspect.patterns().isEmpty());
    if (scope.isSound() && none) {
      scope.mistakes.add(
          Diagnostic.error(
                  "incomplete", Tier.STRUCTURE, line.span(), "no aspect is shown on any form")
              .because("no signal can show any of them.")
              .help("say how each looks on the forms that have it, as in: on one-head show red."));
    }
  }

  private void noteUnshown(Rulebook book) {
    for (Aspect aspect : book.aspects()) {
      if (aspect.patterns().isEmpty()) {
        scope.mistakes.add(
            Diagnostic.note(
                    "incomplete",
                    Tier.STRUCTURE,
                    aspect.span(),
                    "the aspect \"{aspect}\" is not shown on any form",
                    Datum.of("aspect", aspect.name()))
                .because("no signal can show it.")
                .help("say how it looks, as in: on one-head show red."));
      }
    }
  }

  /** Files that several rulebooks use may well declare more than one of them needs. */
  private void noteUnused() {
    Tree root = trees.get(0);
    scope.speeds.noteUnused(root, "let an aspect allow it");
    scope.colours.noteUnused(root, "let a lamp show it");
    scope.rhythms.noteUnused(root, "let an aspect flash so");
    scope.forms.noteUnused(root, "say how an aspect is shown on it");
    scope.plates.noteUnused(root, "let a pattern ask for it");
  }
}
