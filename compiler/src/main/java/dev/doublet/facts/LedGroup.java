package dev.doublet.facts;

import dev.doublet.colour.Drive;
import dev.doublet.colour.Xyz;
import dev.doublet.facts.LayoutFacts.Built;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.table.Lowering;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Consumer;
import java.util.stream.Stream;

/**
 * LEDs of one kind at one brightness: they glow alike.
 *
 * @param part the kind of LED
 * @param brightness percent of full drive
 * @param standing the first unit of each kind and build that hangs on such LEDs
 */
public record LedGroup(Part part, int brightness, List<Standing> standing) {

  /** Copies the list. */
  public LedGroup {
    standing = List.copyOf(standing);
  }

  /** A unit with how its signal is built. */
  record Standing(Built built, Unit unit) {}

  /** Every one of a layout, by day and by night, in file order. */
  static List<LedGroup> all(LayoutFacts facts) {
    List<LedGroup> all = new ArrayList<>();
    each(
        facts,
        one -> {
          add(all, one, one.unit().chain().brightness());
          add(all, one, one.unit().chain().night());
        });
    return all;
  }

  /** The same for every brightness at once, as if all were fully driven. */
  public static List<LedGroup> full(LayoutFacts facts) {
    List<LedGroup> all = new ArrayList<>();
    each(facts, one -> add(all, one, 100));
    return all;
  }

  private static void each(LayoutFacts facts, Consumer<Standing> use) {
    for (Built built : facts.builds()) {
      for (Signal signal : built.signals()) {
        signal.units().forEach(unit -> use.accept(new Standing(built, unit)));
      }
    }
  }

  private static void add(List<LedGroup> all, Standing one, int brightness) {
    for (int i = 0; i < all.size(); i++) {
      LedGroup glow = all.get(i);
      if (glow.part == one.unit().chain().part() && glow.brightness == brightness) {
        all.set(i, glow.with(one));
        return;
      }
    }
    all.add(new LedGroup(one.unit().chain().part(), brightness, List.of(one)));
  }

  private LedGroup with(Standing one) {
    for (Standing known : standing) {
      if (known.unit().kind() == one.unit().kind() && known.built() == one.built()) {
        return this;
      }
    }
    List<Standing> more = new ArrayList<>(standing);
    more.add(one);
    return new LedGroup(part, brightness, more);
  }

  /** The colours shown, each with the first unit that shows it; by name. */
  public SortedMap<String, Unit> shown() {
    SortedMap<String, Unit> shown = new TreeMap<>();
    for (Standing one : standing) {
      colours(one.unit().kind()).forEach(colour -> shown.putIfAbsent(colour, one.unit()));
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
  public Drive sent(String colour) {
    return new Drive(
        part.drive().get(colour).stream()
            .map(level -> Lowering.dimmed(level, brightness))
            .toList());
  }

  /** The light of a colour, of an LED from the middle of the bins. */
  public Xyz light(String colour) {
    return part.family().light(sent(colour));
  }

  /** The light of a colour, of LEDs from all corners of the bins. */
  List<Xyz> corners(String colour) {
    return part.family().corners(sent(colour));
  }

  /** The names by which an acceptance speaks of such LEDs at some colours. */
  public List<String> names(Stream<String> colours) {
    Stream<String> dimmed = brightness == 100 ? Stream.of() : Stream.of(brightness + " %");
    return Stream.of(Stream.of(part.name()), dimmed, colours).flatMap(s -> s).toList();
  }

  /** "LEDs of kind "rgb"", with their brightness where it is not full. */
  public String words() {
    String of = "LEDs of kind \"" + part.name() + "\"";
    return brightness == 100 ? of : of + " at " + brightness + " %";
  }
}
