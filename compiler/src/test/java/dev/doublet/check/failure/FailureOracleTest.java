package dev.doublet.check.failure;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Failures.Imperfect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Permission.Standing;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Collection;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

/**
 * The evaluation of faults against one that counts out every picture: a dark head is replaced by
 * each display there is, in turn, and the reading of each is looked up.
 */
class FailureOracleTest {
  private static final List<Display> ALL =
      SmallBook.DISPLAYS.stream()
          .map(d -> d.split(" "))
          .map(d -> d.length == 1 ? Display.steady(d[0]) : new Display(d[1], d[0]))
          .toList();

  @Property(tries = 100, seed = "1957")
  void everyFaultIsWeighedAsByCountingOutEveryPicture(@ForAll long start) {
    Rulebook book = new SmallBook(start).book();
    Set<String> found = new TreeSet<>();
    for (Site site : Site.of(book)) {
      for (Case one : site.cases()) {
        found.add(
            line(
                site.crew().form(),
                site.plates(),
                one.meant(),
                one.shown().picture(),
                one.trial().seen().stream().map(Glimpse::display).toList(),
                one.trial().plates(),
                verdict(one.standing())));
      }
    }
    assertThat(found).isEqualTo(expected(book));
  }

  private static Set<String> expected(Rulebook book) {
    Set<String> expected = new TreeSet<>();
    for (Form form : book.forms()) {
      Set<List<String>> carried = new LinkedHashSet<>(List.of(List.of()));
      patterns(book, form).forEach(p -> carried.add(p.plates()));
      for (List<String> plates : carried) {
        for (List<Display> picture : pictures(form.places().size())) {
          for (Aspect meant : shownBy(book, form, plates, picture)) {
            expect(book, form, plates, meant, picture, expected);
          }
        }
      }
    }
    return expected;
  }

  /** What a pattern puts up: one of its choices at each head, and dark where it takes anything. */
  private static Set<Aspect> shownBy(
      Rulebook book, Form form, List<String> plates, List<Display> picture) {
    Set<Aspect> shown = new LinkedHashSet<>();
    for (Aspect aspect : book.aspects()) {
      for (Pattern pattern : winners(book, form, plates, picture)) {
        boolean put = aspect.patterns().stream().anyMatch(p -> p == pattern);
        for (int head = 0; head < picture.size(); head++) {
          put &= !pattern.choices().get(head).isAny() || picture.get(head).equals(Display.DARK);
        }
        if (put) {
          shown.add(aspect);
        }
      }
    }
    return shown;
  }

  private static void expect(
      Rulebook book,
      Form form,
      List<String> plates,
      Aspect meant,
      List<Display> picture,
      Set<String> expected) {
    Set<List<Display>> faults = new LinkedHashSet<>();
    for (int mask = 1; mask < 1 << picture.size(); mask++) {
      List<Display> steady = new ArrayList<>(picture);
      List<Display> dark = new ArrayList<>(picture);
      boolean flashing = true;
      int flashers = 0;
      for (int head = 0; head < picture.size(); head++) {
        boolean flashes = !picture.get(head).rhythm().isEmpty();
        flashers += flashes ? 1 : 0;
        if ((mask >> head & 1) == 1) {
          steady.set(head, Display.steady(picture.get(head).look()));
          dark.set(head, Display.DARK);
          flashing &= flashes;
        }
      }
      int size = Integer.bitCount(mask);
      if (flashing && (size == 1 || size == flashers)) {
        faults.add(steady);
        faults.add(dark);
      }
      if (size == 1 && !dark.equals(picture)) {
        faults.add(dark);
      }
    }
    faults.forEach(
        seen ->
            expected.add(
                line(
                    form,
                    plates,
                    meant,
                    picture,
                    seen,
                    plates,
                    verdict(book, form, plates, plates, meant, seen))));
    for (String lost : plates) {
      List<String> left = plates.stream().filter(p -> !p.equals(lost)).toList();
      expected.add(
          line(
              form,
              plates,
              meant,
              picture,
              picture,
              left,
              verdict(book, form, plates, left, meant, picture)));
    }
  }

  private static String verdict(
      Rulebook book,
      Form form,
      List<String> carried,
      List<String> left,
      Aspect meant,
      List<Display> seen) {
    Set<Aspect> reads = aspects(book, winners(book, form, left, seen));
    long lit = seen.stream().filter(d -> !d.equals(Display.DARK)).count();
    Imperfect rule = book.failures().imperfect();
    if (reads.isEmpty() && lit > 0 && rule != Imperfect.MOST_RESTRICTIVE) {
      for (List<Display> picture : pictures(seen.size())) {
        boolean fits = true;
        for (int head = 0; head < seen.size(); head++) {
          Display there = seen.get(head);
          fits &= there.equals(Display.DARK) || there.equals(picture.get(head));
        }
        if (fits) {
          reads.addAll(aspects(book, winners(book, form, left, picture)));
        }
      }
      if (rule == Imperfect.MOST_RESTRICTIVE_FITTING) {
        reads = leastPermitting(reads);
      } else {
        List<Display> alone = seen.stream().filter(d -> !d.equals(Display.DARK)).toList();
        for (Form shorter : book.forms()) {
          if (alone.size() < seen.size()
              && shorter.mount() == form.mount()
              && shorter.places().size() == alone.size()) {
            reads.addAll(aspects(book, winners(book, shorter, left, alone)));
          }
        }
      }
    }
    if (reads.isEmpty()) {
      Set<Aspect> shows = new LinkedHashSet<>();
      for (List<Display> picture : pictures(seen.size())) {
        shows.addAll(shownBy(book, form, carried, picture));
      }
      reads = leastPermitting(shows);
    }
    Set<String> verdicts = new TreeSet<>();
    reads.forEach(r -> verdicts.add(verdict(r.permission().against(meant.permission()))));
    return verdicts.contains("less") ? "less" : verdicts.contains("unknown") ? "unknown" : "safe";
  }

  private static Set<Aspect> leastPermitting(Set<Aspect> among) {
    Set<Aspect> least = new LinkedHashSet<>(among);
    least.removeIf(
        a ->
            among.stream()
                .anyMatch(
                    b -> b.permission().against(a.permission()) == Standing.MORE_RESTRICTIVE));
    return least;
  }

  /** The patterns that a picture is read by: those that cover it and no more specific one does. */
  private static List<Pattern> winners(
      Rulebook book, Form form, Collection<String> plates, List<Display> picture) {
    List<Pattern> covering = new ArrayList<>();
    for (Pattern pattern : patterns(book, form)) {
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

  private static List<Pattern> patterns(Rulebook book, Form form) {
    List<Pattern> patterns = new ArrayList<>();
    for (Aspect aspect : book.aspects()) {
      aspect.patterns().stream()
          .filter(p -> p.form().name().equals(form.name()))
          .forEach(patterns::add);
    }
    return patterns;
  }

  private static Set<Aspect> aspects(Rulebook book, List<Pattern> patterns) {
    Set<Aspect> aspects = new LinkedHashSet<>();
    for (Aspect aspect : book.aspects()) {
      if (aspect.patterns().stream().anyMatch(p -> patterns.stream().anyMatch(o -> o == p))) {
        aspects.add(aspect);
      }
    }
    return aspects;
  }

  private static List<List<Display>> pictures(int heads) {
    List<List<Display>> pictures = new ArrayList<>(List.of(List.of()));
    for (int head = 0; head < heads; head++) {
      List<List<Display>> longer = new ArrayList<>();
      for (List<Display> picture : pictures) {
        for (Display display : ALL) {
          List<Display> next = new ArrayList<>(picture);
          next.add(display);
          longer.add(next);
        }
      }
      pictures = longer;
    }
    return pictures;
  }

  private static String verdict(Standing standing) {
    return switch (standing) {
      case LESS_RESTRICTIVE -> "less";
      case UNKNOWN -> "unknown";
      case SAME, MORE_RESTRICTIVE -> "safe";
    };
  }

  private static String line(
      Form form,
      List<String> plates,
      Aspect meant,
      List<Display> picture,
      List<Display> seen,
      List<String> left,
      String verdict) {
    return String.join(
        " | ",
        form.name() + plates,
        meant.name(),
        picture.toString(),
        "seen as " + seen + left,
        verdict);
  }
}
