package dev.doublet.facts;

import dev.doublet.colour.Drive;
import dev.doublet.colour.Xyz;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts.BuildGroup;
import dev.doublet.layout.Brightness;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.BiConsumer;
import java.util.function.IntFunction;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * LEDs of one kind at one brightness: they glow alike.
 *
 * @param part the kind of LED
 * @param brightness how strongly they are driven
 * @param standing the first unit of each kind and build that hangs on such LEDs
 */
public record LedGroup(Part part, Brightness brightness, List<Standing> standing) {

  /** Copies the list. */
  public LedGroup {
    standing = List.copyOf(standing);
  }

  /**
   * A unit with how its signal is built.
   *
   * @param each how bright each of its lamps is, in chain order
   */
  record Standing(BuildGroup built, Unit unit, List<Brightness> each) {

    /** True when what is said of a group is said of all its lamps, not of those of one only. */
    boolean isHomeAt(Brightness brightness) {
      return each.get(0).equals(brightness);
    }
  }

  /** Every one of a layout, by day and by night, in file order. */
  static List<LedGroup> all(LayoutFacts facts) {
    List<LedGroup> all = new ArrayList<>();
    each(
        facts,
        (built, unit) -> {
          add(all, new Standing(built, unit, each(unit, unit::brightness)));
          if (unit.chain().night() != unit.chain().brightness()) {
            add(all, new Standing(built, unit, each(unit, unit::byNight)));
          }
        });
    return all;
  }

  /** The same for every brightness at once, as if all were fully driven. */
  public static List<LedGroup> full(LayoutFacts facts) {
    List<LedGroup> all = new ArrayList<>();
    each(
        facts,
        (built, unit) ->
            add(
                all,
                new Standing(
                    built, unit, Collections.nCopies(unit.kind().lamps(), Brightness.FULL))));
    return all;
  }

  private static void each(LayoutFacts facts, BiConsumer<BuildGroup, Unit> use) {
    for (BuildGroup built : facts.builds()) {
      for (Signal signal : built.signals()) {
        signal.units().stream()
            .filter(unit -> unit.kind().leds() > 0)
            .forEach(unit -> use.accept(built, unit));
      }
    }
  }

  private static List<Brightness> each(Unit unit, IntFunction<Brightness> brightness) {
    return unit.dimming().lamps().isEmpty()
        ? Collections.nCopies(unit.kind().lamps(), brightness.apply(0))
        : IntStream.range(0, unit.kind().lamps()).mapToObj(brightness).toList();
  }

  private static void add(List<LedGroup> all, Standing one) {
    Brightness first = one.each().get(0);
    add(all, one, first);
    if (!one.unit().dimming().lamps().isEmpty()) {
      one.each().stream().distinct().filter(b -> !b.equals(first)).forEach(b -> add(all, one, b));
    }
  }

  private static void add(List<LedGroup> all, Standing one, Brightness brightness) {
    for (int i = 0; i < all.size(); i++) {
      LedGroup glow = all.get(i);
      if (glow.part == one.unit().chain().part() && glow.brightness.equals(brightness)) {
        all.set(i, glow.with(one));
        return;
      }
    }
    all.add(new LedGroup(one.unit().chain().part(), brightness, List.of(one)));
  }

  private LedGroup with(Standing one) {
    for (Standing known : standing) {
      if (known.unit().kind() == one.unit().kind()
          && known.built() == one.built()
          && known.each().equals(one.each())) {
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
      colours(one).forEach(colour -> shown.putIfAbsent(colour, one.unit()));
    }
    return shown;
  }

  private List<String> colours(Standing one) {
    List<Integer> lamps =
        IntStream.range(0, one.each().size())
            .filter(lamp -> one.each().get(lamp).equals(brightness))
            .filter(lamp -> one.unit().kind().chip(lamp).isEmpty())
            .boxed()
            .toList();
    return one.unit().kind().states().stream()
        .flatMap(state -> lamps.stream().map(lamp -> state.lit().get(lamp).look()))
        .filter(look -> !look.equals(Display.DARK.look()))
        .distinct()
        .toList();
  }

  /** What is sent for a colour, brightness and all. */
  public Drive sent(String colour) {
    return sent(colour, brightness);
  }

  private Drive sent(String colour, Brightness at) {
    return new Drive(part.drive().get(colour).stream().map(at::dimmed).toList());
  }

  /** The light of a colour, of an LED from the middle of the bins. */
  public Xyz light(String colour) {
    return light(colour, brightness);
  }

  /** The same of a lamp that is brighter, or less bright, than these. */
  Xyz light(String colour, Brightness at) {
    return part.family().light(sent(colour, at));
  }

  /** That of LEDs from all corners of the bins. */
  List<Xyz> corners(String colour, Brightness at) {
    return part.family().corners(sent(colour, at));
  }

  /** The names by which an acceptance speaks of such LEDs at some colours. */
  public List<String> names(Stream<String> colours) {
    return names(List.of(this), colours);
  }

  /**
   * The same of LEDs at several brightnesses.
   *
   * @param alike of one kind, at least one
   */
  public static List<String> names(List<LedGroup> alike, Stream<String> colours) {
    Stream<String> dimmed =
        alike.stream().filter(g -> !g.brightness.isFull()).map(g -> g.brightness.words());
    return Stream.of(Stream.of(alike.get(0).part.name()), dimmed, colours).flatMap(s -> s).toList();
  }

  /** "LEDs of kind "rgb"", with their brightness where it is not full. */
  public String words() {
    return words(List.of(this));
  }

  /**
   * The same of LEDs at several brightnesses, each of which is said.
   *
   * @param alike of one kind, at least one
   */
  public static String words(List<LedGroup> alike) {
    LedGroup first = alike.get(0);
    String of = "LEDs of kind \"" + first.part.name() + "\"";
    return alike.size() == 1 && first.brightness.isFull()
        ? of
        : of + " at " + Words.list(alike.stream().map(g -> g.brightness.words()).toList());
  }
}
