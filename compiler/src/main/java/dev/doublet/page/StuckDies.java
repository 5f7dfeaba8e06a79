package dev.doublet.page;

import dev.doublet.colour.Channel;
import dev.doublet.colour.Drive;
import dev.doublet.facts.FaultWords;
import dev.doublet.failure.Dies;
import dev.doublet.failure.Failure;
import dev.doublet.failure.Site;
import dev.doublet.failure.SiteFailures;
import dev.doublet.failure.Trial;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lit;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;

/**
 * The dies of a signal's LEDs that may be stuck lit: fully, and as in each colour of the book,
 * unless that is taken for the same in every picture.
 *
 * @param site the signal
 * @param all each die of each lamp, at each level
 */
record StuckDies(Site site, List<One> all) {
  /** Copies the list. */
  StuckDies {
    all = List.copyOf(all);
  }

  /**
   * One die.
   *
   * @param level how hard it is driven, 1 to 255
   * @param as the colour whose level that is; empty for fully
   */
  private record One(int head, int lamp, Channel die, int level, String as, Dies dies) {
    /** What it makes of each light that the lamp shows. */
    List<Optional<Dies.Stuck>> makes(Set<String> colours) {
      return colours.stream().map(colour -> dies.stuckAt(colour, die, level)).toList();
    }
  }

  static StuckDies of(Site site, Signal signal) {
    List<One> all = new ArrayList<>();
    for (int head = 0; head < site.heads().size(); head++) {
      for (int lamp = 0; lamp < site.heads().get(head).lamps().size(); lamp++) {
        if (SiteFailures.isOnChip(site, head, lamp)) {
          continue;
        }
        Part part = part(signal, Readings.led(site, head) + lamp);
        Dies dies =
            site.dies().stream()
                .filter(d -> d.name().equals(part.name()))
                .findFirst()
                .orElseThrow();
        Set<String> colours = colours(site, head, lamp);
        for (Channel die : Channel.values()) {
          Set<List<Optional<Dies.Stuck>>> known = new HashSet<>();
          for (var level : levels(part, die).entrySet()) {
            One one = new One(head, lamp, die, level.getKey(), level.getValue(), dies);
            if (known.add(one.makes(colours))) {
              all.add(one);
            }
          }
        }
      }
    }
    return new StuckDies(site, all);
  }

  /** The faults that are seen in a picture. */
  Map<Readings.Fault, Failure> on(List<Display> picture) {
    Map<Readings.Fault, Failure> faults = new LinkedHashMap<>();
    for (One one : all) {
      HeadType make = site.heads().get(one.head());
      String colour = colour(make, one.lamp(), picture.get(one.head()));
      Optional<Dies.Stuck> stuck = one.dies().stuckAt(colour, one.die(), one.level());
      if (stuck.isPresent()) {
        Failure failure =
            new Failure.DieStuck(one.head(), make, one.lamp(), stuck.get(), one.dies());
        Trial trial = Trial.of(site.whole(picture), failure);
        String as = one.as().isEmpty() ? "" : " as it is in " + one.as();
        faults.put(
            new Readings.Fault(
                FaultWords.failed(site, trial) + as,
                Readings.How.STUCK,
                List.of(Readings.led(site, one.head()) + one.lamp()),
                Readings.letter(one.die()) + one.level()),
            failure);
      }
    }
    return faults;
  }

  /** Fully first, then as in each colour. */
  private static Map<Integer, String> levels(Part part, Channel die) {
    Map<Integer, String> levels = new LinkedHashMap<>();
    levels.put(Drive.FULL, "");
    Map<Integer, String> others = new TreeMap<>();
    part.drive()
        .forEach(
            (colour, drive) -> {
              if (die.ordinal() < drive.size() && drive.get(die.ordinal()) > 0) {
                others.putIfAbsent(drive.get(die.ordinal()), colour);
              }
            });
    others.forEach(levels::putIfAbsent);
    return levels;
  }

  /** What a lamp shines at one time or another, and dark, in the order in which it is shown. */
  private static Set<String> colours(Site site, int head, int lamp) {
    Set<String> colours = new LinkedHashSet<>();
    site.shown()
        .forEach(s -> colours.add(colour(site.heads().get(head), lamp, s.picture().get(head))));
    return colours;
  }

  private static String colour(HeadType make, int lamp, Display display) {
    return make.lights(display.look()).orElseThrow().stream()
        .filter(lit -> lit.lamp() == lamp)
        .findFirst()
        .map(Lit::colour)
        .orElse(Display.DARK.look());
  }

  private static Part part(Signal signal, int led) {
    int first = 0;
    for (Unit unit : signal.units()) {
      first += unit.kind().lamps();
      if (led < first) {
        return unit.chain().part();
      }
    }
    throw new IllegalArgumentException("no LED of this signal");
  }
}
