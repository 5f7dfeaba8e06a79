package dev.doublet.failure;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * The forms of a rulebook as they may stand on any layout: with any of their plates, with heads of
 * any make wired in any order, and on LEDs that may be left with any light when a die of them dies,
 * as a layout can measure and drive LEDs in its own way.
 */
public final class AnyLayout {
  /** A form with more heads or plates than anybody builds is not looked at. */
  private static final int MOST = 8;

  private AnyLayout() {}

  /** True when a form is too large to look at everything that may be made of it. */
  public static boolean isTooLarge(Rulebook book, Form form) {
    return form.places().size() > MOST || plates(book, form).size() > MOST;
  }

  /** Each set of the plates that matter on a form. */
  public static List<List<String>> plateSets(Rulebook book, Form form) {
    List<String> plates = plates(book, form);
    List<List<String>> sets = new ArrayList<>();
    for (int set = 0; set < 1 << plates.size(); set++) {
      List<String> carried = new ArrayList<>();
      for (int plate = 0; plate < plates.size(); plate++) {
        if ((set >> plate & 1) == 1) {
          carried.add(plates.get(plate));
        }
      }
      sets.add(carried);
    }
    return sets;
  }

  /** Everything that can fail, and fail together, on some layout while one picture is shown. */
  public static List<Failure> failures(Site site, List<Display> picture) {
    List<Failure> failures = new ArrayList<>(SiteFailures.failures(site, picture));
    failures.addAll(SiteFailures.diesOut(site, picture, Dies.supposed(site.crew().book())));
    failures.addAll(chainsBroken(site, picture));
    return failures;
  }

  /** The same with everything that can be stuck, which is tried alone. */
  public static List<Failure> faults(Site site, List<Display> picture) {
    List<Failure> faults = new ArrayList<>(failures(site, picture));
    for (int head = 0; head < picture.size(); head++) {
      Set<HeadType> makes = new LinkedHashSet<>(site.places().get(head).makes());
      makes.addAll(site.types(head, picture.get(head)));
      for (HeadType make : makes) {
        SiteFailures.stuck(site, picture, head, make, faults);
      }
    }
    faults.addAll(SiteFailures.diesStuck(site, picture, Dies.supposed(site.crew().book())));
    return faults;
  }

  /**
   * A chain broken in any head, or between two. Whichever heads are wired before the break stay as
   * they are, and the others are dark, so that it is enough to take each set of them once.
   */
  private static List<Failure> chainsBroken(Site site, List<Display> picture) {
    List<HeadType> makes = new ArrayList<>();
    List<Integer> lit = new ArrayList<>();
    for (int head = 0; head < picture.size(); head++) {
      makes.add(site.types(head, picture.get(head)).get(0));
      if (!picture.get(head).equals(Display.DARK)) {
        lit.add(head);
      }
    }
    List<Failure> failures = new ArrayList<>();
    for (int set = 0; set < (1 << lit.size()) - 1; set++) {
      List<Integer> before = new ArrayList<>();
      List<Integer> after = new ArrayList<>();
      for (int head = 0; head < picture.size(); head++) {
        int place = lit.indexOf(head);
        (place >= 0 && (set >> place & 1) == 1 ? before : after).add(head);
      }
      failures.add(brokenIn(makes, before, after, 0));
      for (int head : after) {
        for (HeadType make : site.types(head, picture.get(head))) {
          List<HeadType> these = new ArrayList<>(makes);
          these.set(head, make);
          List<Integer> order = new ArrayList<>(List.of(head));
          after.stream().filter(h -> h != head).forEach(order::add);
          make.lights(picture.get(head).look()).orElseThrow().stream()
              .map(Lit::lamp)
              .filter(lamp -> lamp > 0)
              .forEach(lamp -> failures.add(brokenIn(these, before, order, lamp)));
        }
      }
    }
    return failures;
  }

  private static Failure brokenIn(
      List<HeadType> makes, List<Integer> before, List<Integer> after, int lamp) {
    List<Integer> wired = new ArrayList<>(before);
    wired.addAll(after);
    int passed = before.stream().mapToInt(head -> makes.get(head).lamps().size()).sum();
    int all = makes.stream().mapToInt(m -> m.lamps().size()).sum();
    Set<Integer> dark =
        IntStream.range(passed + lamp, all).boxed().collect(Collectors.toUnmodifiableSet());
    return new Failure.ChainBroken(List.copyOf(makes), wired, passed + lamp, all, dark);
  }

  /** The plates that patterns of a form name, or of one that it may be read as without a head. */
  private static List<String> plates(Rulebook book, Form form) {
    TreeSet<String> plates = new TreeSet<>();
    book.aspects().stream()
        .flatMap(aspect -> aspect.patterns().stream())
        .filter(p -> p.form().equals(form) || Crew.mayBeTaken(form, p.form()))
        .forEach(p -> plates.addAll(p.plates()));
    return List.copyOf(plates);
  }
}
