package dev.doublet.failure;

import dev.doublet.colour.Channel;
import dev.doublet.layout.Feed;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;

/** What can fail at a site while one picture is shown there. */
public final class SiteFailures {
  private SiteFailures() {}

  /** What usually fails, and may fail together, while one picture is shown. */
  public static List<Failure> failures(Site site, List<Display> picture) {
    List<Failure> failures = new ArrayList<>();
    for (int head = 0; head < picture.size(); head++) {
      for (HeadType make : site.types(head, picture.get(head))) {
        for (Lit lit : make.lights(picture.get(head).look()).orElseThrow()) {
          failures.add(new Failure.LampOut(head, make, lit.lamp()));
        }
        if (make.isArm() && !picture.get(head).equals(make.safest())) {
          failures.add(new Failure.ArmElsewhere(head, make, make.safest().look()));
        }
      }
    }
    failures.addAll(flashersStuck(site, picture));
    site.plates().forEach(plate -> failures.add(new Failure.PlateLost(plate)));
    failures.addAll(diesOut(site, picture, site.dies()));
    for (int place = 0; place < site.feeds().size(); place++) {
      Set<Integer> dark =
          site.feeds().subList(place, site.feeds().size()).stream()
              .flatMap(Feed::lit)
              .collect(Collectors.toUnmodifiableSet());
      failures.add(
          new Failure.ChainBroken(site.heads(), site.wired(), place, site.feeds().size(), dark));
      Feed feed = site.feeds().get(place);
      if (feed.chip().isPresent()) {
        failures.add(
            new Failure.ChipOut(
                site.heads(),
                site.wired(),
                place,
                feed.lit().collect(Collectors.toUnmodifiableSet())));
      }
    }
    return failures;
  }

  /** True for a lamp at an output of a chip, whose LED has one die. */
  public static boolean isOnChip(Site site, int head, int lamp) {
    int at = lamp;
    for (int before : site.wired()) {
      if (before == head) {
        break;
      }
      at += site.heads().get(before).lamps().size();
    }
    int found = at;
    return site.feeds().stream().anyMatch(f -> f.chip().isPresent() && f.lamps().contains(found));
  }

  /**
   * Each lamp stuck lit that is to be dark, each vane stuck at another colour, and each arm stuck
   * in another position but its safe side.
   */
  public static List<Failure> stuck(Site site, List<Display> picture) {
    List<Failure> failures = new ArrayList<>();
    for (int head = 0; head < picture.size(); head++) {
      for (HeadType make : site.places().get(head).makes()) {
        stuck(site, picture, head, make, failures);
      }
    }
    return failures;
  }

  /** The same of one head, if it is of some make. */
  static void stuck(
      Site site, List<Display> picture, int head, HeadType make, List<Failure> failures) {
    Optional<List<Lit>> lights = make.lights(picture.get(head).look());
    if (lights.isEmpty()) {
      return;
    }
    for (String position : make.positions()) {
      if (!picture.get(head).look().equals(position)
          && !make.safest().look().equals(position)
          && site.places().get(head).shows(position)) {
        failures.add(new Failure.ArmElsewhere(head, make, position));
      }
    }
    List<Set<String>> colours = site.places().get(head).colours(make);
    for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
      int at = lamp;
      Optional<Lit> lit = lights.get().stream().filter(l -> l.lamp() == at).findFirst();
      for (String colour : colours.get(lamp)) {
        if (lit.isEmpty()) {
          failures.add(new Failure.LampStuck(head, make, lamp, colour));
        } else if (!make.vane().isEmpty() && !lit.get().colour().equals(colour)) {
          failures.add(new Failure.VaneStuck(head, make, lamp, colour));
        }
      }
    }
  }

  /** Each die of some LEDs stuck lit, wherever that changes what shines. */
  public static List<Failure> diesStuck(Site site, List<Display> picture, List<Dies> leds) {
    List<Failure> failures = new ArrayList<>();
    for (Dies led : leds) {
      for (int head = 0; head < picture.size(); head++) {
        for (HeadType make : site.types(head, picture.get(head))) {
          List<Lit> lights = make.lights(picture.get(head).look()).orElseThrow();
          for (int lamp = 0; lamp < make.lamps().size(); lamp++) {
            int at = lamp;
            String colour =
                lights.stream()
                    .filter(l -> l.lamp() == at)
                    .findFirst()
                    .map(Lit::colour)
                    .orElse(Display.DARK.look());
            for (Dies.Stuck die :
                isOnChip(site, head, lamp) ? List.<Dies.Stuck>of() : led.stuck(colour)) {
              failures.add(new Failure.DieStuck(head, make, lamp, die, led));
            }
          }
        }
      }
    }
    return failures;
  }

  /** Each die of some LEDs dead, wherever one of them shines. */
  public static List<Failure> diesOut(Site site, List<Display> picture, List<Dies> leds) {
    List<Failure> failures = new ArrayList<>();
    for (Dies led : leds) {
      for (int head = 0; head < picture.size(); head++) {
        for (HeadType make : site.types(head, picture.get(head))) {
          for (Lit lit : make.lights(picture.get(head).look()).orElseThrow()) {
            List<Channel> mixing =
                isOnChip(site, head, lit.lamp()) ? List.of() : led.mixing(lit.colour());
            for (Channel die : mixing) {
              failures.add(new Failure.DieOut(head, make, lit.lamp(), die, led));
            }
          }
        }
      }
    }
    return failures;
  }

  /** The flasher of each flashing head, and the common one of all that flash alike. */
  private static List<Failure> flashersStuck(Site site, List<Display> picture) {
    List<Failure> failures = new ArrayList<>();
    SortedMap<String, Set<Integer>> rhythms = new TreeMap<>();
    Map<Integer, HeadType> partly = new HashMap<>();
    for (int head = 0; head < picture.size(); head++) {
      String rhythm = picture.get(head).rhythm();
      if (!rhythm.isEmpty()) {
        rhythms.computeIfAbsent(rhythm, r -> new TreeSet<>()).add(head);
        stuck(Set.of(head), rhythm, Map.of(), failures);
      }
      for (HeadType make : site.types(head, picture.get(head))) {
        for (String own : ownRhythms(make, picture.get(head))) {
          rhythms.computeIfAbsent(own, r -> new TreeSet<>()).add(head);
          partly.putIfAbsent(head, make);
          stuck(Set.of(head), own, Map.of(head, make), failures);
        }
      }
    }
    rhythms.forEach(
        (rhythm, alike) -> {
          if (alike.size() > 1) {
            Map<Integer, HeadType> makes = new HashMap<>(partly);
            makes.keySet().retainAll(alike);
            stuck(alike, rhythm, makes, failures);
          }
        });
    return failures;
  }

  /** The rhythms of those lamps of a head that have one of their own. */
  private static Set<String> ownRhythms(HeadType make, Display display) {
    Set<String> own = new TreeSet<>();
    make.lights(display.look()).orElseThrow().forEach(lit -> own.add(lit.rhythm()));
    own.remove("");
    return own;
  }

  private static void stuck(
      Set<Integer> heads, String rhythm, Map<Integer, HeadType> makes, List<Failure> failures) {
    failures.add(new Failure.FlasherStuck(heads, rhythm, makes, true));
    failures.add(new Failure.FlasherStuck(heads, rhythm, makes, false));
  }
}
