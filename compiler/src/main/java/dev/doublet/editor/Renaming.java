package dev.doublet.editor;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Numerals;
import dev.doublet.source.Mention;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Span;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.TreeSet;

/**
 * A name given another everywhere.
 *
 * @param edits what is written where
 * @param refusal why it is not done, in a sentence; empty when it is
 */
public record Renaming(Map<Span, String> edits, String refusal) {

  /** Copies the map. */
  public Renaming {
    edits = java.util.Collections.unmodifiableMap(new TreeMap<>(edits));
  }

  /**
   * Every place where a name is written, in all rulebooks and layouts that know it by the same
   * declaration.
   */
  public static List<Span> places(Collection<Root> roots, SourceFile file, int offset) {
    TreeSet<Span> places = new TreeSet<>();
    for (Root root : roots) {
      root.nameAt(file, offset).ifPresent(name -> places.addAll(places(roots, root, name)));
    }
    return List.copyOf(places);
  }

  private static List<Span> places(Collection<Root> roots, Root root, Mention name) {
    List<Span> declared = root.declarations(name).stream().map(Mention::span).toList();
    List<Span> places = new ArrayList<>();
    for (Root other : roots) {
      boolean same =
          other.declarations(name).stream()
              .anyMatch(d -> declared.stream().anyMatch(span -> isSame(span, d.span())));
      if (same) {
        other.names().of(name).forEach(m -> places.add(m.span()));
      }
    }
    return places;
  }

  /** True where one text gives several signals their names. */
  private static boolean isShared(Collection<Root> roots, SourceFile file, int offset) {
    for (Root root : roots) {
      List<Span> declared =
          root.nameAt(file, offset).stream()
              .flatMap(name -> root.declarations(name).stream())
              .map(Mention::span)
              .toList();
      long names =
          root.names().all().stream()
              .filter(m -> m.declares() && declared.contains(m.span()))
              .map(Mention::name)
              .distinct()
              .count();
      if (names > 1) {
        return true;
      }
    }
    return false;
  }

  private static boolean isSame(Span one, Span other) {
    return one.file().name().equals(other.file().name()) && one.start() == other.start();
  }

  /**
   * Gives the name at a place another. The changed texts are read again: a new name that makes an
   * error which was not there is refused.
   *
   * @param roots all that may know the name
   * @param texts what they were read from
   */
  public static Renaming of(
      Collection<Root> roots, Texts texts, SourceFile file, int offset, String name) {
    List<Span> places = places(roots, file, offset);
    if (places.isEmpty()) {
      return refused("there is no name of a rulebook or layout here");
    }
    if (!Visible.line(name).equals(name) || !name.equals(name.strip()) || name.isEmpty()) {
      return refused("a name is one line of letters that are seen, without blanks at its ends");
    }
    if (isShared(roots, file, offset)) {
      return refused("several signals have their names from one line; write that line anew");
    }
    Map<Span, String> edits = new HashMap<>();
    Numerals numerals = numerals(roots, file, offset);
    places.forEach(
        place -> edits.put(place, NameText.at(place, numerals.moved(unquoted(place), name))));
    families(roots, file, offset)
        .forEach((place, letter) -> edits.put(place, lettered(place, letter, name)));
    edits.putAll(numbered(roots, file, offset, places, name));
    Texts changed = texts;
    Map<String, SourceFile> files = new TreeMap<>();
    edits.keySet().forEach(place -> files.put(place.file().name(), place.file()));
    for (SourceFile one : files.values()) {
      changed = changed.with(new SourceFile(one.name(), text(one, edits)));
    }
    for (Root root : roots) {
      List<Diagnostic> errors = errors(Root.quick(root.path(), changed).findings());
      if (errors.size() > errors(root.findings()).size()) {
        return refused(
            errors.stream().filter(e -> isNew(e, root)).findFirst().orElse(errors.get(0)));
      }
    }
    return new Renaming(edits, "");
  }

  /** Of the aspect at a place, whose uses may say numbers for its letters. */
  private static Numerals numerals(Collection<Root> roots, SourceFile file, int offset) {
    for (Root root : roots) {
      Optional<Numerals> found =
          root.nameAt(file, offset)
              .filter(name -> name.kind() == Mention.Kind.ASPECT)
              .flatMap(name -> root.book().flatMap(book -> book.aspect(name.name())))
              .map(Aspect::numerals);
      if (found.isPresent()) {
        return found.get();
      }
    }
    return Numerals.NONE;
  }

  /**
   * Where an aspect is named whole, by its letters, while the place is one of its letters. An
   * expectation has letters of its own.
   *
   * @return the letter of each place
   */
  private static Map<Span, String> families(Collection<Root> roots, SourceFile file, int offset) {
    Map<Span, String> families = new HashMap<>();
    for (Root root : roots) {
      List<Mention> all = root.names().all();
      List<Mention> letters = all.stream().filter(m -> m.kind() == Mention.Kind.LETTER).toList();
      root.nameAt(file, offset).filter(letters::contains).stream()
          .flatMap(letter -> root.declarations(letter).stream())
          .forEach(
              letter ->
                  all.stream()
                      .filter(m -> m.declares() && m.kind() == Mention.Kind.ASPECT)
                      .filter(m -> isIn(letter, m.span()))
                      .flatMap(family -> root.names().of(family).stream())
                      .map(Mention::span)
                      .filter(place -> letters.stream().noneMatch(l -> isIn(l, place)))
                      .forEach(place -> families.put(place, letter.name())));
    }
    return families;
  }

  /** Names of aspects that say the number at a place, with another number in them. */
  private static Map<Span, String> numbered(
      Collection<Root> roots, SourceFile file, int offset, List<Span> places, String name) {
    Map<Span, String> numbered = new HashMap<>();
    boolean isFigure =
        roots.stream()
            .flatMap(root -> root.nameAt(file, offset).stream())
            .anyMatch(mention -> mention.kind() == Mention.Kind.FIGURE);
    for (Root root : roots) {
      List<Mention> all = root.names().all();
      boolean knows =
          all.stream()
              .anyMatch(m -> m.declares() && places.stream().anyMatch(p -> isSame(p, m.span())));
      for (Mention one : isFigure && knows ? all : List.<Mention>of()) {
        if (one.kind() == Mention.Kind.ASPECT) {
          Span place = one.span();
          String old = unquoted(place);
          root.book()
              .flatMap(book -> book.aspect(one.name()))
              .map(aspect -> aspect.numerals().renumbered(old, places.get(0).text(), name))
              .filter(now -> !now.equals(old))
              .ifPresent(now -> numbered.put(place, NameText.at(place, now)));
        }
      }
    }
    return numbered;
  }

  private static boolean isIn(Mention name, Span place) {
    return name.span().file().name().equals(place.file().name())
        && place.start() <= name.span().start()
        && name.span().end() <= place.end();
  }

  private static String lettered(Span place, String letter, String other) {
    return place.text().replace("{" + letter + "}", "{" + other + "}");
  }

  private static String unquoted(Span place) {
    return place.text().replaceAll("^[\"']|[\"']$", "");
  }

  private static boolean isNew(Diagnostic error, Root before) {
    return before.findings().stream().noneMatch(d -> d.message().equals(error.message()));
  }

  private static Renaming refused(Diagnostic error) {
    return refused(error.message());
  }

  private static Renaming refused(String why) {
    return new Renaming(Map.of(), why);
  }

  private static List<Diagnostic> errors(List<Diagnostic> findings) {
    return findings.stream().filter(d -> d.severity() == Severity.ERROR).toList();
  }

  private static String text(SourceFile file, Map<Span, String> edits) {
    StringBuilder text = new StringBuilder();
    int from = 0;
    for (Map.Entry<Span, String> edit : new TreeMap<>(edits).entrySet()) {
      if (edit.getKey().file().name().equals(file.name())) {
        text.append(file.text(), from, edit.getKey().start()).append(edit.getValue());
        from = edit.getKey().end();
      }
    }
    return text.append(file.text().substring(from)).toString();
  }
}
