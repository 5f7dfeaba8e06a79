package dev.doublet.power;

import dev.doublet.colour.Drive;
import dev.doublet.layout.Brightness;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.Iterator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import java.util.stream.IntStream;

/**
 * What the LEDs of a chain can draw: each unit any of the pictures that a command can call up or
 * that its lamps pass on the way ({@link Passing}), and every LED at rest besides. Units are
 * commanded one by one and at any time, so any of their pictures can stand together, and at each
 * {@link Moment} of their flashing lamps.
 *
 * @param moments the whole chain from its first LED, each LED in one block: once for each moment of
 *     its controller, at least one, and alike but for the pictures
 */
public record Draw(List<List<Block>> moments) {

  /** Copies the lists. */
  public Draw {
    moments = moments.stream().map(List::copyOf).toList();
  }

  /**
   * LEDs that are commanded together, or a run of LEDs of no unit.
   *
   * @param first the first LED, from 0
   * @param pictures milliamps of each of its LEDs in each of its pictures, at least one; pictures
   *     of which no LED draws more than in another are left out
   */
  record Block(int first, List<double[]> pictures) {

    /** Copies the list. */
    Block {
      pictures = List.copyOf(pictures);
    }

    int leds() {
      return pictures.get(0).length;
    }

    /** Its LEDs from one to before another, from 0; empty when it has none there. */
    private Optional<Block> between(int from, int end) {
      int begin = Math.max(from, first);
      int stop = Math.min(end, first + leds());
      return begin < stop
          ? Optional.of(
              new Block(
                  begin - from,
                  pictures.stream()
                      .map(p -> Arrays.copyOfRange(p, begin - first, stop - first))
                      .toList()))
          : Optional.empty();
    }
  }

  /** What a chain can draw. */
  public static Draw of(Rulebook book, Controller controller, Chain chain) {
    List<Unit> units =
        controller.units().stream()
            .filter(u -> u.chain().index() == chain.index() && u.kind().leds() > 0)
            .sorted(Comparator.comparingInt(Unit::led))
            .toList();
    List<Moment> moments = moments(book, controller);
    Map<Kind, Map<Dimming, List<List<double[]>>>> known = new IdentityHashMap<>();
    Map<Unit, List<List<double[]>>> pictures = new IdentityHashMap<>();
    for (Unit unit : units) {
      pictures.put(
          unit,
          known
              .computeIfAbsent(unit.kind(), k -> new HashMap<>())
              .computeIfAbsent(unit.dimming(), d -> pictures(unit, moments)));
    }
    return new Draw(
        IntStream.range(0, moments.size())
            .mapToObj(at -> blocks(units, chain, unit -> pictures.get(unit).get(at)))
            .toList());
  }

  private static List<Block> blocks(
      List<Unit> units, Chain chain, Function<Unit, List<double[]>> pictures) {
    List<Block> blocks = new ArrayList<>();
    int next = 0;
    for (Unit unit : units) {
      addGap(blocks, next, unit.led(), chain.part());
      blocks.add(new Block(unit.led(), pictures.apply(unit)));
      next = unit.led() + unit.kind().leds();
    }
    addGap(blocks, next, chain.leds(), chain.part());
    return blocks;
  }

  /** What LEDs of the chain can draw alone, from 1; no unit may lie across their ends. */
  public Draw between(int from, int to) {
    return new Draw(
        moments.stream()
            .map(blocks -> blocks.stream().flatMap(b -> b.between(from - 1, to).stream()).toList())
            .toList());
  }

  /** The most that the whole chain can draw, in milliamps. */
  public double milliamps() {
    return together(List.of(this));
  }

  /** The most that chains of one controller can draw together, in milliamps. */
  public static double together(List<Draw> chains) {
    return IntStream.range(0, chains.get(0).moments().size())
        .mapToDouble(m -> chains.stream().mapToDouble(d -> d.milliamps(m)).sum())
        .max()
        .orElse(0);
  }

  private double milliamps(int moment) {
    return moments.get(moment).stream()
        .mapToDouble(
            b -> b.pictures().stream().mapToDouble(p -> Arrays.stream(p).sum()).max().orElse(0))
        .sum();
  }

  /** The most that each LED can draw in any of its pictures, in milliamps. */
  public double[] milliampsOfEach() {
    double[] most = new double[moments.get(0).stream().mapToInt(Block::leds).sum()];
    for (List<Block> blocks : moments) {
      for (Block block : blocks) {
        for (double[] picture : block.pictures()) {
          for (int led = 0; led < picture.length; led++) {
            most[block.first() + led] = Math.max(most[block.first() + led], picture[led]);
          }
        }
      }
    }
    return most;
  }

  /** When flashing lamps of a controller are lit: its chains run on one clock. */
  private static List<Moment> moments(Rulebook book, Controller controller) {
    Map<String, Rhythm> switched = new TreeMap<>();
    Map<String, Rhythm> glowing = new TreeMap<>();
    for (Kind kind : controller.units().stream().map(Unit::kind).distinct().toList()) {
      for (State state : kind.states()) {
        for (int led = 0; led < state.lit().size(); led++) {
          Map<String, Rhythm> flashing = filament(kind, led) ? glowing : switched;
          String name = state.lit().get(led).rhythm();
          if (!name.isEmpty() && !flashing.containsKey(name)) {
            book.rhythm(name).ifPresent(r -> flashing.put(name, r));
          }
        }
      }
    }
    return Moment.of(switched.values(), glowing.values());
  }

  private static boolean filament(Kind kind, int led) {
    return !kind.glows().isEmpty() && kind.glows().get(led).filament();
  }

  private static void addGap(List<Block> blocks, int from, int to, Part part) {
    if (from < to) {
      double[] atRest = new double[to - from];
      Arrays.fill(atRest, part.milliampsAtRest());
      blocks.add(new Block(from, List.of(atRest)));
    }
  }

  /** What the LEDs of a kind can show. */
  private static Set<List<Display>> ways(Kind kind, Part part) {
    Set<List<Display>> ways = new LinkedHashSet<>();
    kind.states().forEach(s -> ways.add(s.lit()));
    ways.addAll(Passing.of(kind, part));
    return ways;
  }

  /** The pictures of a unit at each of some moments. */
  private static List<List<double[]>> pictures(Unit unit, List<Moment> moments) {
    Set<List<Display>> ways = ways(unit.kind(), unit.chain().part());
    List<double[]> lit = ways.stream().map(way -> lit(unit, way)).toList();
    return moments.stream().map(moment -> pictures(unit, ways, lit, moment)).toList();
  }

  /** Milliamps of each lamp of a unit that shows something, while it is lit. */
  private static double[] lit(Unit unit, List<Display> way) {
    double[] lit = new double[way.size()];
    for (Feed feed : unit.kind().places()) {
      feed.lit()
          .forEach(
              lamp ->
                  lit[lamp] =
                      sent(way.get(lamp), feed, unit.chain().part(), unit.brightness(lamp)));
    }
    return lit;
  }

  private static List<double[]> pictures(
      Unit unit, Set<List<Display>> ways, List<double[]> lit, Moment moment) {
    Kind kind = unit.kind();
    Part part = unit.chain().part();
    List<Feed> places = kind.places();
    double[] dark = new double[places.size()];
    for (int place = 0; place < dark.length; place++) {
      dark[place] =
          places.get(place).chip().map(Chip::milliampsAtRest).orElse(part.milliampsAtRest());
    }
    List<double[]> pictures = new ArrayList<>(List.of(dark));
    Iterator<double[]> milliamps = lit.iterator();
    for (List<Display> way : ways) {
      double[] ofLamps = milliamps.next();
      double[] picture = dark.clone();
      for (int place = 0; place < dark.length; place++) {
        for (int lamp : places.get(place).lamps()) {
          if (lamp != Feed.NONE && moment.lights(way.get(lamp).rhythm(), filament(kind, lamp))) {
            picture[place] += ofLamps[lamp];
          }
        }
      }
      add(pictures, picture);
    }
    return pictures;
  }

  /**
   * Adds a picture unless another draws as much at every LED, and removes those that it outdoes.
   */
  private static void add(List<double[]> pictures, double[] picture) {
    if (pictures.stream().noneMatch(p -> covers(p, picture))) {
      pictures.removeIf(p -> covers(picture, p));
      pictures.add(picture);
    }
  }

  private static boolean covers(double[] more, double[] less) {
    for (int i = 0; i < less.length; i++) {
      if (less[i] > more[i]) {
        return false;
      }
    }
    return true;
  }

  /** Milliamps that a lamp draws for what it shows, by the very bytes that are sent by day. */
  private static double sent(Display display, Feed feed, Part part, Brightness brightness) {
    if (feed.chip().isPresent()) {
      return display.look().equals(Display.DARK.look())
          ? 0
          : brightness.dimmed(Drive.FULL)
              / (double) Drive.FULL
              * feed.chip().get().milliamps(display.look());
    }
    int sent =
        part.drive().getOrDefault(display.look(), List.of()).stream()
            .mapToInt(brightness::dimmed)
            .sum();
    return sent / (double) Drive.FULL * part.milliampsPerChannel();
  }
}
