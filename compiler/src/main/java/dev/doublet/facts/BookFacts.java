package dev.doublet.facts;

import dev.doublet.diagnostic.Words;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * What the checks of a rulebook share.
 *
 * @param book the rulebook
 * @param looks for each way a signal can be built to be read, the patterns seen on it
 * @param asked what the run asks of the checks
 */
public record BookFacts(Rulebook book, List<Look> looks, CheckOptions asked) {

  /** Works out the facts. */
  public static BookFacts of(Rulebook book, CheckOptions asked) {
    Map<Key, List<Form>> forms = new TreeMap<>();
    for (Form form : book.forms()) {
      forms
          .computeIfAbsent(new Key(form.mount(), form.places().size()), k -> new ArrayList<>())
          .add(form);
    }
    List<Look> looks = new ArrayList<>();
    forms.forEach((key, alike) -> looks.add(new Look(alike, shownOn(book, alike))));
    return new BookFacts(book, List.copyOf(looks), asked);
  }

  /**
   * Forms that a crew cannot tell apart: equal in mount and number of heads.
   *
   * @param forms one or more, by name
   * @param shown the patterns on them
   */
  public record Look(List<Form> forms, List<AspectPattern> shown) {

    /** "form two-head", or "forms a and b, which look alike". */
    public String words() {
      List<String> names = forms.stream().map(Form::name).toList();
      return names.size() == 1
          ? "form " + names.get(0)
          : "forms " + Words.list(names) + ", which look alike";
    }

    /** How many heads. */
    public int heads() {
      return forms.get(0).places().size();
    }
  }

  /**
   * One pattern with the aspect it shows.
   *
   * @param aspect the aspect
   * @param pattern one of its patterns
   */
  public record AspectPattern(Aspect aspect, Pattern pattern) {}

  private record Key(Mount mount, int heads) implements Comparable<Key> {
    @Override
    public int compareTo(Key other) {
      return Comparator.comparing(Key::mount).thenComparing(Key::heads).compare(this, other);
    }
  }

  private static List<AspectPattern> shownOn(Rulebook book, List<Form> forms) {
    List<AspectPattern> shown = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : aspect.patterns()) {
        if (forms.contains(pattern.form())) {
          shown.add(new AspectPattern(aspect, pattern));
        }
      }
    }
    return List.copyOf(shown);
  }
}
