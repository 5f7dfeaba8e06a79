package dev.doublet.check.colour;

import dev.doublet.check.LayoutFacts;
import dev.doublet.colour.Drive;
import dev.doublet.colour.Xyz;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.table.Lowering;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * LEDs of one kind at one brightness: they glow alike.
 *
 * @param part the kind of LED
 * @param brightness percent of full drive
 * @param units the first unit of each kind that hangs on such LEDs, in file order
 */
record Glow(Part part, int brightness, List<Unit> units) {

  /** Copies the list. */
  Glow {
    units = List.copyOf(units);
  }

  /** Every one of a layout, by day and by night, in file order. */
  static List<Glow> all(LayoutFacts facts) {
    List<Glow> all = new ArrayList<>();
    for (LayoutFacts.Alike alike : facts.kinds()) {
      for (Unit unit : alike.units()) {
        add(all, unit, unit.chain().brightness());
        add(all, unit, unit.chain().night());
      }
    }
    return all;
  }

  /** The same for every brightness at once, as if all were fully driven. */
  static List<Glow> full(LayoutFacts facts) {
    List<Glow> all = new ArrayList<>();
    facts.kinds().forEach(alike -> alike.units().forEach(unit -> add(all, unit, 100)));
    return all;
  }

  private static void add(List<Glow> all, Unit unit, int brightness) {
    for (int i = 0; i < all.size(); i++) {
      Glow glow = all.get(i);
      if (glow.part == unit.chain().part() && glow.brightness == brightness) {
        all.set(i, glow.with(unit));
        return;
      }
    }
    all.add(new Glow(unit.chain().part(), brightness, List.of(unit)));
  }

  private Glow with(Unit unit) {
    if (units.stream().anyMatch(u -> u.kind() == unit.kind())) {
      return this;
    }
    List<Unit> more = new ArrayList<>(units);
    more.add(unit);
    return new Glow(part, brightness, more);
  }

  /** The colours shown, each with the first unit that shows it; by name. */
  SortedMap<String, Unit> shown() {
    SortedMap<String, Unit> shown = new TreeMap<>();
    for (Unit unit : units) {
      colours(unit.kind()).forEach(colour -> shown.putIfAbsent(colour, unit));
    }
    return shown;
  }

  private static List<String> colours(Kind kind) {
    return kind.states().stream()
        .flatMap(state -> state.lit().stream())
        .map(Display::look)
        .filter(look -> !look.equals(Display.DARK.look()))
        .distinct()
        .toList();
  }

  /** What is sent for a colour, brightness and all. */
  Drive sent(String colour) {
    return new Drive(
        part.drive().get(colour).stream()
            .map(level -> Lowering.dimmed(level, brightness))
            .toList());
  }

  /** The light of a colour, of an LED from the middle of the bins. */
  Xyz light(String colour) {
    return part.family().light(sent(colour));
  }

  /** The light of each colour shown. */
  Map<String, Xyz> lights() {
    Map<String, Xyz> lights = new TreeMap<>();
    shown().keySet().forEach(colour -> lights.put(colour, light(colour)));
    return lights;
  }

  /** "LEDs of kind "rgb"", with their brightness where it is not full. */
  String words() {
    String of = "LEDs of kind \"" + part.name() + "\"";
    return brightness == 100 ? of : of + " at " + brightness + " %";
  }
}
