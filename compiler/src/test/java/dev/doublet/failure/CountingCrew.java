package dev.doublet.failure;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Mount;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Proviso;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collection;
import java.util.Collections;
import java.util.HashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * A crew that reads a signal by counting out every picture there is: what cannot be told is
 * replaced by each display in turn, and the meaning of each picture is looked up.
 *
 * @param book the rulebook
 * @param form the form of the signal
 * @param shows the aspects that the signal can show
 * @param displays every display there is, dark among them
 * @param known what it has counted out before
 */
record CountingCrew(
    Rulebook book,
    Form form,
    Collection<Aspect> shows,
    List<Display> displays,
    Map<Object, Map<List<Display>, Set<Aspect>>> known) {

  CountingCrew(Rulebook book, Form form, Collection<Aspect> shows, List<Display> displays) {
    this(book, form, shows, displays, new HashMap<>());
  }

  /**
   * What is seen of one head.
   *
   * @param exactly the display that it shows, or null when what is lit is none
   * @param maybe what it may be a part of; empty when nothing can be made out
   * @param contrary true when lights that can be told apart are part of no display
   * @param words what tells it from others
   * @param shines its colours, "?" for one that nobody knows, or its figure
   */
  record Seen(
      Display exactly, Set<Display> maybe, boolean contrary, String words, Set<String> shines) {

    static Seen of(Display display) {
      boolean dark = display.equals(Display.DARK);
      return new Seen(
          display,
          dark ? Set.of() : Set.of(display),
          false,
          display.words(),
          dark ? Set.of() : Set.of(display.look()));
    }

    private boolean isLit() {
      return !maybe.isEmpty();
    }
  }

  /** Everything that it may take a picture for. */
  Set<Aspect> reads(List<Seen> seen, Collection<String> plates) {
    if (seen.stream().allMatch(s -> s.exactly() != null)) {
      List<Display> picture = seen.stream().map(Seen::exactly).toList();
      Set<Aspect> reads = meanings(form, plates).get(picture);
      if (reads != null) {
        return new LinkedHashSet<>(reads);
      }
    }
    for (Proviso proviso : book.failures().provisos()) {
      boolean applies =
          proviso.alone() ? showsAlone(seen, proviso.looks()) : shows(seen, proviso.looks());
      if (applies && seen.stream().noneMatch(Seen::contrary)) {
        return Set.of(book.aspect(proviso.aspect()).orElseThrow());
      }
    }
    Set<Aspect> reads = new LinkedHashSet<>();
    Imperfect rule = book.failures().imperfect();
    boolean looks =
        rule != Imperfect.UNSAID
            && rule != Imperfect.MOST_RESTRICTIVE
            && seen.stream().noneMatch(Seen::contrary);
    if (looks && seen.stream().anyMatch(Seen::isLit)) {
      meanings(form, plates)
          .forEach(
              (picture, aspects) -> {
                boolean fits = true;
                for (int head = 0; head < seen.size(); head++) {
                  Seen there = seen.get(head);
                  fits &=
                      there.isLit()
                          ? there.maybe().contains(picture.get(head))
                          : rule != Imperfect.AS_LIT || picture.get(head).equals(Display.DARK);
                }
                if (fits) {
                  reads.addAll(aspects);
                }
              });
      if (rule == Imperfect.MOST_RESTRICTIVE_FITTING && !reads.isEmpty()) {
        return leastPermitting(reads);
      }
      if (rule == Imperfect.AS_LIT) {
        reads.addAll(withoutDarkHeads(seen.stream().filter(Seen::isLit).toList(), seen, plates));
      }
    }
    return reads.isEmpty() ? leastPermitting(shows) : reads;
  }

  private boolean shows(List<Seen> seen, List<String> looks) {
    return seen.stream()
        .flatMap(s -> s.shines().stream())
        .anyMatch(light -> looks.contains(light) || !Collections.disjoint(colours(light), looks));
  }

  private boolean showsAlone(List<Seen> seen, List<String> looks) {
    List<Set<String>> lit = seen.stream().map(Seen::shines).filter(s -> !s.isEmpty()).toList();
    return lit.size() == 1
        && lit.get(0).stream()
            .allMatch(
                light ->
                    looks.contains(light)
                        || !colours(light).isEmpty() && looks.containsAll(colours(light)));
  }

  /** The colours in which some head lights a figure. */
  private Set<String> colours(String figure) {
    Set<String> colours = new LinkedHashSet<>();
    for (HeadType head : book.heads()) {
      head.figures().stream()
          .filter(f -> f.name().equals(figure))
          .forEach(f -> f.lit().forEach(lit -> colours.add(lit.colour())));
    }
    return colours;
  }

  /** True when a picture means an aspect, perhaps among others. */
  boolean means(List<Seen> seen, Collection<String> plates, Aspect aspect) {
    List<Display> picture = seen.stream().map(Seen::exactly).toList();
    return meanings(form, plates).getOrDefault(picture, Set.of()).contains(aspect);
  }

  private Set<Aspect> withoutDarkHeads(List<Seen> lit, List<Seen> seen, Collection<String> plates) {
    Set<Aspect> reads = new LinkedHashSet<>();
    for (Form shorter : book.forms()) {
      if (lit.size() == seen.size()
          || shorter.mount() != form.mount()
              && (shorter.mount() == Mount.DWARF || form.mount() == Mount.DWARF)
          || shorter.places().size() != lit.size()) {
        continue;
      }
      meanings(shorter, plates)
          .forEach(
              (picture, aspects) -> {
                boolean fits = true;
                for (int head = 0; head < lit.size(); head++) {
                  fits &= lit.get(head).maybe().contains(picture.get(head));
                }
                if (fits) {
                  reads.addAll(aspects);
                }
              });
    }
    return reads;
  }

  /** Of some readings, those that permit more than was meant, or of which nobody can say. */
  static Set<Aspect> hazards(Set<Aspect> reads, Aspect meant) {
    Set<Aspect> hazards = new LinkedHashSet<>(reads);
    hazards.removeIf(r -> isNoMore(r, meant));
    return hazards;
  }

  /** True when one aspect is known to permit no more than another. */
  static boolean isNoMore(Aspect one, Aspect other) {
    return Worlds.isNoMore(one.permission(), other.permission());
  }

  /** The worst of some hazards, in a word. */
  static String verdict(Set<Aspect> hazards, Aspect meant) {
    return hazards.stream().anyMatch(h -> Worlds.isMore(h.permission(), meant.permission()))
        ? "less"
        : hazards.isEmpty() ? "safe" : "unknown";
  }

  private static Set<Aspect> leastPermitting(Collection<Aspect> among) {
    Set<Aspect> least = new LinkedHashSet<>(among);
    least.removeIf(a -> among.stream().anyMatch(b -> isNoMore(b, a) && !isNoMore(a, b)));
    return least;
  }

  /** Every picture that means something, with its meaning. */
  private Map<List<Display>, Set<Aspect>> meanings(Form on, Collection<String> plates) {
    Object key = List.of(on.name(), plates);
    if (!known.containsKey(key)) {
      Map<List<Display>, Set<Aspect>> meanings = new HashMap<>();
      for (List<Display> picture : pictures(on.places().size())) {
        Set<Aspect> aspects = aspects(winners(on, plates, picture));
        if (!aspects.isEmpty()) {
          meanings.put(picture, aspects);
        }
      }
      known.put(key, meanings);
    }
    return known.get(key);
  }

  /** The patterns that a picture is read by: those that cover it and no more specific one does. */
  List<Pattern> winners(Form on, Collection<String> plates, List<Display> picture) {
    List<Pattern> covering = new ArrayList<>();
    for (Pattern pattern : patterns(book, on)) {
      boolean covers = plates.containsAll(pattern.plates());
      for (int head = 0; head < picture.size(); head++) {
        var choice = pattern.choices().get(head);
        covers &= choice.isAny() || choice.displays().contains(picture.get(head));
      }
      if (covers) {
        covering.add(pattern);
      }
    }
    List<Pattern> winners = new ArrayList<>(covering);
    winners.removeIf(
        p ->
            covering.stream()
                .anyMatch(
                    o ->
                        o.plates().containsAll(p.plates())
                            && o.plates().size() > p.plates().size()));
    return winners;
  }

  static List<Pattern> patterns(Rulebook book, Form form) {
    List<Pattern> patterns = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      aspect.patterns().stream()
          .filter(p -> p.form().name().equals(form.name()))
          .forEach(patterns::add);
    }
    return patterns;
  }

  private Set<Aspect> aspects(List<Pattern> patterns) {
    Set<Aspect> aspects = new LinkedHashSet<>();
    for (Aspect aspect : book.aspects()) {
      if (aspect.patterns().stream().anyMatch(p -> patterns.stream().anyMatch(o -> o == p))) {
        aspects.add(aspect);
      }
    }
    return aspects;
  }

  List<List<Display>> pictures(int heads) {
    List<List<Display>> pictures = new ArrayList<>(List.of(List.of()));
    for (int head = 0; head < heads; head++) {
      List<List<Display>> longer = new ArrayList<>();
      for (List<Display> picture : pictures) {
        for (Display display : displays) {
          List<Display> next = new ArrayList<>(picture);
          next.add(display);
          longer.add(next);
        }
      }
      pictures = longer;
    }
    return pictures;
  }
}
