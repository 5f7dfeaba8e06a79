package dev.doublet.check.budget;

import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.table.Lowering;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;

/**
 * What the LEDs of a chain can draw: each unit any of the pictures that a command can call up or
 * that its lamps pass on the way ({@link Passing}), flashing lamps lit, and every LED at rest
 * besides. Units are commanded one by one, so any of their pictures can stand together.
 *
 * @param blocks the whole chain from its first LED, each LED in one block
 */
public record Draw(List<Block> blocks) {

  /** Copies the list. */
  public Draw {
    blocks = List.copyOf(blocks);
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
  }

  /** What a chain can draw. */
  public static Draw of(Controller controller, Chain chain) {
    List<Unit> units =
        controller.units().stream()
            .filter(u -> u.chain().index() == chain.index() && u.kind().leds() > 0)
            .sorted(Comparator.comparingInt(Unit::led))
            .toList();
    Map<Kind, List<double[]>> known = new IdentityHashMap<>();
    List<Block> blocks = new ArrayList<>();
    int next = 0;
    for (Unit unit : units) {
      addGap(blocks, next, unit.led(), chain.part());
      blocks.add(
          new Block(unit.led(), known.computeIfAbsent(unit.kind(), k -> pictures(k, chain))));
      next = unit.led() + unit.kind().leds();
    }
    addGap(blocks, next, chain.leds(), chain.part());
    return new Draw(blocks);
  }

  /** The most that the whole chain can draw, in milliamps. */
  public double milliamps() {
    return blocks.stream()
        .mapToDouble(
            b -> b.pictures().stream().mapToDouble(p -> Arrays.stream(p).sum()).max().orElse(0))
        .sum();
  }

  /** The most that each LED can draw in any of its pictures, in milliamps. */
  public double[] milliampsOfEach() {
    double[] most = new double[blocks.stream().mapToInt(Block::leds).sum()];
    for (Block block : blocks) {
      for (double[] picture : block.pictures()) {
        for (int led = 0; led < picture.length; led++) {
          most[block.first() + led] = Math.max(most[block.first() + led], picture[led]);
        }
      }
    }
    return most;
  }

  private static void addGap(List<Block> blocks, int from, int to, Part part) {
    if (from < to) {
      double[] atRest = new double[to - from];
      Arrays.fill(atRest, part.milliampsAtRest());
      blocks.add(new Block(from, List.of(atRest)));
    }
  }

  private static List<double[]> pictures(Kind kind, Chain chain) {
    double[] dark = new double[kind.leds()];
    Arrays.fill(dark, chain.part().milliampsAtRest());
    List<double[]> pictures = new ArrayList<>(List.of(dark));
    for (State state : kind.states()) {
      add(pictures, state.lit(), chain);
    }
    for (List<Display> passed : Passing.of(kind, chain.part())) {
      add(pictures, passed, chain);
    }
    return pictures;
  }

  /**
   * Adds a picture unless another draws as much at every LED, and removes those that it outdoes.
   */
  private static void add(List<double[]> pictures, List<Display> lit, Chain chain) {
    double[] picture = lit.stream().mapToDouble(d -> of(d, chain)).toArray();
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

  /** Milliamps of an LED that shows something, by the very bytes that it is sent by day. */
  private static double of(Display display, Chain chain) {
    Part part = chain.part();
    int sent =
        part.drive().getOrDefault(display.look(), List.of()).stream()
            .mapToInt(drive -> Lowering.dimmed(drive, chain.brightness()))
            .sum();
    return part.milliampsAtRest() + sent / 255.0 * part.milliampsPerChannel();
  }
}
