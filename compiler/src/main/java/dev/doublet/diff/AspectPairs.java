package dev.doublet.diff;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Numerals;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission.Standing;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * Which aspect of one version is which of the next.
 *
 * @param pairs in the order of the next version
 * @param gone those that have no successor
 * @param added those that have no predecessor
 */
record AspectPairs(List<Pair> pairs, List<Aspect> gone, List<Aspect> added) {
  /** Enough to be the same: looks and one more respect, or three of the others. */
  private static final int ENOUGH = 5;

  private static final int LOOKS = 3;
  private static final int RESPECT = 2;

  /**
   * An aspect then and now.
   *
   * @param how why they were paired, where their names do not say it; else empty
   */
  record Pair(Aspect before, Aspect after, String how) {
    /** The aspect then, with the letters that it has now where it has as many. */
    Aspect then() {
      List<String> letters = after.numerals().letters();
      return before.numerals().letters().size() == letters.size()
          ? before.lettered(letters)
          : before;
    }
  }

  private record Likeness(Aspect before, Aspect after, int score) {}

  static AspectPairs of(Rulebook before, Rulebook after, Terms terms) {
    Map<String, Aspect> gone = new LinkedHashMap<>();
    before.aspects().forEach(a -> gone.put(a.name(), a));
    Map<String, Pair> found = new HashMap<>();
    for (Aspect aspect : after.aspects()) {
      earlier(aspect, before)
          .filter(old -> gone.remove(old.name()) != null)
          .ifPresent(
              old ->
                  found.put(aspect.name(), new Pair(old, aspect, "compared by its \"was\" line")));
    }
    for (Aspect aspect : after.aspects()) {
      Aspect old = found.containsKey(aspect.name()) ? null : gone.remove(aspect.name());
      if (old != null) {
        found.put(aspect.name(), new Pair(old, aspect, ""));
      }
    }
    for (Aspect aspect : after.aspects()) {
      if (aspect.numerals().isOpen() && !found.containsKey(aspect.name())) {
        List<Aspect> alike =
            gone.values().stream()
                .filter(old -> Numerals.plain(old.name()).equals(Numerals.plain(aspect.name())))
                .toList();
        if (alike.size() == 1) {
          Aspect old = gone.remove(alike.get(0).name());
          found.put(
              aspect.name(), new Pair(old, aspect, "compared as the same but for its letters"));
        }
      }
    }
    List<Aspect> added =
        new ArrayList<>(
            after.aspects().stream().filter(a -> !found.containsKey(a.name())).toList());
    for (Likeness like : matches(gone.values(), added, terms)) {
      gone.remove(like.before().name());
      added.remove(like.after());
      Pair pair =
          new Pair(
              like.before(), like.after(), "compared as the best match; no \"was\" line says so");
      found.put(like.after().name(), pair);
    }
    List<Pair> pairs = new ArrayList<>();
    after.aspects().stream()
        .map(a -> found.get(a.name()))
        .filter(p -> p != null)
        .forEach(pairs::add);
    return new AspectPairs(List.copyOf(pairs), List.copyOf(gone.values()), List.copyOf(added));
  }

  /** A line that stood there before tells of an earlier change. */
  private static Optional<Aspect> earlier(Aspect aspect, Rulebook before) {
    List<String> told = before.aspect(aspect.name()).map(Aspect::was).orElse(List.of());
    return aspect.was().stream()
        .filter(name -> !told.contains(name))
        .flatMap(name -> before.aspect(name).stream())
        .findFirst();
  }

  private static List<Likeness> matches(Iterable<Aspect> gone, List<Aspect> added, Terms terms) {
    List<Likeness> all = new ArrayList<>();
    for (Aspect old : gone) {
      Map<String, List<String>> looks = looks(old, terms);
      for (Aspect aspect : added) {
        int score = score(old, looks, aspect, terms);
        if (score >= ENOUGH) {
          all.add(new Likeness(old, aspect, score));
        }
      }
    }
    all.sort(Comparator.comparingInt(like -> -like.score()));
    List<Likeness> matches = new ArrayList<>();
    Set<String> taken = new LinkedHashSet<>();
    for (Likeness like : all) {
      boolean rival =
          all.stream()
              .anyMatch(
                  other ->
                      other != like
                          && other.score() == like.score()
                          && (other.before() == like.before() || other.after() == like.after()));
      boolean free =
          !taken.contains("before " + like.before().name())
              && !taken.contains("after " + like.after().name());
      if (free) {
        taken.add("before " + like.before().name());
        taken.add("after " + like.after().name());
        if (!rival) {
          matches.add(like);
        }
      }
    }
    return matches;
  }

  private static int score(Aspect old, Map<String, List<String>> looks, Aspect now, Terms terms) {
    boolean sameLooks = !looks.isEmpty() && looks.equals(looks(now, null));
    boolean samePermission =
        terms.permission(old.permission()).against(now.permission()) == Standing.SAME;
    boolean sameNumber = old.number() != Aspect.NO_NUMBER && old.number() == now.number();
    return (sameLooks ? LOOKS : 0)
        + (samePermission ? RESPECT : 0)
        + (sameNumber ? RESPECT : 0)
        + (same(old.rule(), now.rule()) ? RESPECT : 0)
        + (same(old.indication(), now.indication()) ? RESPECT : 0);
  }

  private static boolean same(String one, String other) {
    return !one.isEmpty() && one.equals(other);
  }

  /**
   * The patterns of an aspect in words, in their order, by form and plates.
   *
   * @param termsOrNull the words to say them in; null for its own
   */
  static Map<String, List<String>> looks(Aspect aspect, Terms termsOrNull) {
    Map<String, List<String>> looks = new TreeMap<>();
    for (Pattern pattern : aspect.patterns()) {
      looks
          .computeIfAbsent(place(pattern, termsOrNull), p -> new ArrayList<>())
          .add(termsOrNull == null ? pattern.words() : termsOrNull.words(pattern));
    }
    return looks;
  }

  /** "two-head", "two-head with DV plate". */
  static String place(Pattern pattern, Terms termsOrNull) {
    String form = pattern.form().name();
    return termsOrNull == null
        ? place(form, pattern.plates())
        : place(termsOrNull.form(form), termsOrNull.plates(pattern.plates()));
  }

  static String place(String form, List<String> plates) {
    return plates.isEmpty() ? form : form + " with " + String.join(" and ", plates) + " plate";
  }

  /** What the aspects of the earlier version are called in the next. */
  Map<String, String> names() {
    Map<String, String> names = new TreeMap<>();
    pairs.forEach(p -> names.put(p.before().name(), p.after().name()));
    return names;
  }
}
