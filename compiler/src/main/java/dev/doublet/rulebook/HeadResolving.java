package dev.doublet.rulebook;

import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Tier;
import dev.doublet.source.Mention;
import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;

/** Makes heads of their declarations, once all colours are known. */
final class HeadResolving {
  private final Scope scope;

  HeadResolving(Scope scope) {
    this.scope = scope;
  }

  HeadType head(Tree.Head head) {
    return head.positions().isEmpty() ? ofLamps(head) : arm(head);
  }

  /** An arm, whose positions are figures of its lamp where it has one. */
  private HeadType arm(Tree.Head arm) {
    String owner = " of arm " + arm.name().text();
    Names<Figure> positions = new Names<>("position", owner, "declare it", scope.mistakes);
    List<Word> written =
        arm.positions().stream().flatMap(p -> p.colour().stream()).distinct().toList();
    Map<String, Colour> colours = new LinkedHashMap<>();
    for (Tree.Position position : arm.positions()) {
      List<Lit> lit = new ArrayList<>();
      for (Word word : position.colour()) {
        Optional<Colour> colour = scope.colours.find(word);
        colour.ifPresent(c -> colours.put(c.name(), c));
        colour.ifPresent(c -> lit.add(new Lit(0, c.name())));
      }
      Word name = position.name();
      boolean whole = lit.size() == position.colour().size();
      positions.declare(
          name, whole ? Optional.of(new Figure(name.text(), lit, name.span())) : Optional.empty());
    }
    List<Figure> figures = positions.values();
    if (arm.positions().size() == 1) {
      incomplete(
          arm.name(),
          "the arm \"{arm}\" has one position",
          "an arm tells something only by how it moves.",
          "name its positions in the order in which it moves, first the one to which it falls.",
          Datum.of("arm", arm.name().text()));
      scope.lose(Mention.Kind.FIGURE);
    }
    Optional<Tree.Position> dark =
        arm.positions().stream().filter(p -> p.colour().isEmpty()).findFirst();
    if (!written.isEmpty() && dark.isPresent()) {
      incomplete(
          dark.get().name(),
          "nothing says what \"{position}\" shows by night",
          "the lamp of an arm shines in every position.",
          "say its colour there, as in: level in red; or name none at all.",
          Datum.of("position", dark.get().name().text()));
    }
    if (figures.size() < arm.positions().size()) {
      scope.lose(arm.name());
    }
    List<Lamp> lamps =
        written.isEmpty()
            ? List.of()
            : List.of(new Lamp("lamp", List.copyOf(colours.values()), arm.name().span()));
    return new HeadType(
        arm.name().text(),
        lamps,
        figures.stream().sorted(Comparator.comparing(Figure::name)).toList(),
        false,
        "",
        arm.positions().stream().map(p -> p.name().text()).distinct().toList(),
        arm.name().span());
  }

  private void incomplete(Word at, String message, String why, String help, Datum of) {
    scope.mistakes.add(
        Diagnostic.error("incomplete", Tier.STRUCTURE, at.span(), message, of)
            .because(why)
            .help(help));
  }

  private HeadType ofLamps(Tree.Head head) {
    String owner = " of head " + head.name().text();
    Names<Lamp> lamps =
        new Names<>("lamp", owner, "give the head a lamp of that name", scope.mistakes);
    Set<String> dim = new HashSet<>();
    for (Tree.Lamps row : head.lamps()) {
      List<Colour> colours = colours(row.colours());
      row.names().forEach(n -> lamps.declare(n, new Lamp(n.text(), colours, n.span())));
      if (!row.colours().stream().allMatch(c -> scope.colours.declares(c.text()))) {
        row.names().forEach(n -> dim.add(n.text()));
      }
    }
    for (Tree.Masks masks : head.masks()) {
      masks(masks).forEach((figure, lamp) -> lamps.declare(figure, lamp));
    }
    Names<Figure> figures = new Names<>("figure", owner, "declare it", scope.mistakes);
    Set<String> unable = new HashSet<>();
    for (Tree.Figure figure : head.figures()) {
      figures.declare(
          figure.name(),
          lamps.all().isEmpty() ? Optional.empty() : figure(figure, lamps, dim, unable));
    }
    if (!head.masks().isEmpty()) {
      List<Lamp> behind = lamps.values();
      for (int i = 0; i < behind.size(); i++) {
        Lamp lamp = behind.get(i);
        List<Lit> lit = List.of(new Lit(i, lamp.colours().get(0).name()));
        figures.declare(
            new Word(lamp.name(), lamp.span()), new Figure(lamp.name(), lit, lamp.span()));
      }
    }
    if (!dim.isEmpty() || figures.values().size() < figures.all().size()) {
      scope.lose(head.name());
    }
    if (lamps.all().isEmpty() && head.masks().isEmpty()) {
      incomplete(
          head.name(),
          "the head \"{head}\" has no lamp",
          "a head shows something only with its lamps.",
          "give it one, as in: lamp main shows red, green.",
          Datum.of("head", head.name().text()));
    }
    List<Figure> sorted =
        figures.values().stream().sorted(Comparator.comparing(Figure::name)).toList();
    return new HeadType(
        head.name().text(),
        lamps.values(),
        sorted,
        head.filament(),
        vane(head, lamps.values()),
        List.of(),
        head.name().span());
  }

  /** A lamp behind a mask for each number, in the order written or declared. */
  private Map<Word, Lamp> masks(Tree.Masks masks) {
    Optional<Colour> colour = scope.colours.find(masks.colour());
    List<Word> figures =
        masks.figures().isEmpty()
            ? scope.numbers().figures().stream()
                .map(n -> new Word(Integer.toString(n), masks.span()))
                .toList()
            : masks.figures();
    if (figures.isEmpty()) {
      scope.hasNumbers(new Word("n", masks.span()));
    }
    Map<Word, Lamp> lamps = new LinkedHashMap<>();
    for (Word figure : figures) {
      OptionalInt number = scope.figure(figure, 0, 999);
      if (colour.isPresent() && number.isPresent()) {
        Word name = new Word(Integer.toString(number.getAsInt()), figure.span());
        lamps.put(name, new Lamp(name.text(), List.of(colour.get()), figure.span()));
      }
    }
    return lamps;
  }

  /** The colour in the middle of a head's vane; empty without a vane. */
  private String vane(Tree.Head head, List<Lamp> lamps) {
    if (head.vanes().isEmpty()) {
      return "";
    }
    Word middle = head.vanes().get(0);
    for (Word other : head.vanes().subList(1, head.vanes().size())) {
      scope.mistakes.duplicate(
          other.span(),
          "the head \"{head}\" has two vanes",
          middle.span(),
          "a vane has one colour in its middle.",
          "remove one of the two.",
          Datum.of("head", head.name().text()));
    }
    boolean known = scope.colours.find(middle).isPresent();
    boolean dim =
        head.lamps().stream()
            .flatMap(row -> row.colours().stream())
            .anyMatch(c -> !scope.colours.declares(c.text()));
    if (known && !dim && lamps.stream().noneMatch(lamp -> lamp.shows(middle.text()))) {
      scope.mistakes.wrong(
          "wrong-colour",
          middle.span(),
          "no lamp of the head shows {colour}, so its vane cannot pass it",
          "a vane carries colours that its lamp shows.",
          "name one of the lamp's colours.",
          Datum.of("colour", middle.text()));
    }
    return known ? middle.text() : "";
  }

  private List<Colour> colours(List<Word> words) {
    List<Colour> colours = new ArrayList<>();
    for (Word word : words) {
      Optional<Colour> colour = scope.colours.find(word);
      if (colour.isPresent() && colours.contains(colour.get())) {
        scope.mistakes.duplicate(
            word.span(),
            "the lamp shows \"{colour}\" twice",
            first(words, word).span(),
            "a lamp shows a colour or does not.",
            "remove one of the two.",
            Datum.of("colour", word.text()));
      } else {
        colour.ifPresent(colours::add);
      }
    }
    return colours;
  }

  /**
   * A figure; empty when part of it could not be read, since the rest would be another one.
   *
   * @param dim lamps of which not all colours are known
   * @param unable colours that were found to be asked of lamps which cannot show them
   */
  private Optional<Figure> figure(
      Tree.Figure figure, Names<Lamp> lamps, Set<String> dim, Set<String> unable) {
    boolean whole = true;
    List<Lit> lit = new ArrayList<>();
    List<Word> seen = new ArrayList<>();
    for (Tree.Lit one : withIn(figure.lit(), lamps)) {
      Optional<Lamp> lamp = lamps.find(one.lamp());
      boolean known = one.colour().stream().allMatch(c -> scope.colours.find(c).isPresent());
      if (lamp.isEmpty() || !known || dim.contains(one.lamp().text())) {
        whole = false;
        continue;
      }
      if (seen.stream().anyMatch(w -> w.text().equals(one.lamp().text()))) {
        scope.mistakes.duplicate(
            one.lamp().span(),
            "the figure \"{figure}\" lights \"{lamp}\" twice",
            first(seen, one.lamp()).span(),
            "one lamp shows one colour at a time.",
            "remove one of the two.",
            Datum.of("figure", figure.name().text()),
            Datum.of("lamp", one.lamp().text()));
        continue;
      }
      seen.add(one.lamp());
      int index = lamps.values().indexOf(lamp.get());
      Optional<String> colour = litColour(one, lamp.get(), unable);
      Optional<Rhythm> rhythm = one.rhythm().stream().findFirst().flatMap(scope.rhythms::find);
      colour.ifPresent(c -> lit.add(new Lit(index, c, rhythm.map(Rhythm::name).orElse(""))));
      whole &= colour.isPresent() && rhythm.isPresent() == !one.rhythm().isEmpty();
    }
    lit.sort(Comparator.comparingInt(Lit::lamp));
    return whole
        ? Optional.of(new Figure(figure.name().text(), lit, figure.name().span()))
        : Optional.empty();
  }

  /**
   * Takes "main green", of a lamp and a colour, as one in the other, and "upper lower" as two
   * lamps, after saying so: a rhythm stands before its lamp.
   */
  private List<Tree.Lit> withIn(List<Tree.Lit> lit, Names<Lamp> lamps) {
    List<Tree.Lit> mended = new ArrayList<>();
    for (Tree.Lit one : lit) {
      Word first = one.rhythm().isEmpty() ? one.lamp() : one.rhythm().get(0);
      boolean lamp = !one.rhythm().isEmpty() && lamps.has(first.text());
      if (!lamp || scope.rhythms.declares(first.text())) {
        mended.add(one);
      } else if (!lamps.has(one.lamp().text()) && scope.colours.declares(one.lamp().text())) {
        lamps.find(one.lamp());
        mended.add(new Tree.Lit(List.of(), first, List.of(one.lamp())));
      } else {
        scope.mistakes.wrong(
            "malformed-value",
            one.lamp().span(),
            "no comma stands between \"{first}\" and \"{second}\"",
            "without one, the first of two names is the rhythm of the other.",
            "write {first}, {second}.",
            Datum.of("first", first.text()),
            Datum.of("second", one.lamp().text()));
        mended.add(new Tree.Lit(List.of(), first, List.of()));
        mended.add(new Tree.Lit(List.of(), one.lamp(), one.colour()));
      }
    }
    return mended;
  }

  private Optional<String> litColour(Tree.Lit one, Lamp lamp, Set<String> unable) {
    List<String> able = lamp.colours().stream().map(Colour::name).sorted().toList();
    if (one.colour().isEmpty()) {
      if (able.size() > 1) {
        scope.mistakes.wrong(
            "wrong-colour",
            one.lamp().span(),
            "the lamp \"{lamp}\" can show {colours}: which does the figure light?",
            "a lamp of several colours shows one of them at a time.",
            "say which, as in: {lamp} in {first}.",
            Datum.of("lamp", lamp.name()),
            Datum.of("colours", able),
            Datum.of("first", able.get(0)));
        return Optional.empty();
      }
      return able.stream().findFirst();
    }
    Word colour = one.colour().get(0);
    if (!lamp.shows(colour.text())) {
      if (unable.add(colour.text())) {
        scope.mistakes.wrong(
            "wrong-colour",
            colour.span(),
            "the lamp \"{lamp}\" cannot show {colour}",
            "the figure could never be lit.",
            able.isEmpty()
                ? "let the lamp show it."
                : "let the lamp show it, or light it in what it can show: {colours}.",
            Datum.of("lamp", lamp.name()),
            Datum.of("colour", colour.text()),
            Datum.of("colours", able));
      }
      return Optional.empty();
    }
    return Optional.of(colour.text());
  }

  private static Word first(List<Word> words, Word same) {
    return words.stream().filter(w -> w.text().equals(same.text())).findFirst().orElseThrow();
  }
}
