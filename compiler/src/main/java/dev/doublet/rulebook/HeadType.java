package dev.doublet.rulebook;

import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.IntStream;

/**
 * A make of head: its lamps from first to last on the chain, and the figures they can form; or a
 * semaphore arm, which shows its positions, each a figure that lights its one lamp by night.
 *
 * @param name as layouts call it
 * @param lamps at least one, but for an arm without a lamp
 * @param figures in no order
 * @param filament true when its lamps come on and go out slowly, as filaments do; otherwise they
 *     switch as LEDs do
 * @param vane the colour in the middle of the vane that moves colours before the lamp, which any
 *     two others pass on the way to one another; empty without a vane
 * @param positions those of an arm as it moves, the first being where it falls when nothing holds
 *     it; empty for a head of lamps
 * @param span where it is declared
 */
public record HeadType(
    String name,
    List<Lamp> lamps,
    List<Figure> figures,
    boolean filament,
    String vane,
    List<String> positions,
    Span span) {

  /** A head whose lamps switch at once. */
  public HeadType(String name, List<Lamp> lamps, List<Figure> figures, Span span) {
    this(name, lamps, figures, false, "", List.of(), span);
  }

  /** Copies the lists. */
  public HeadType {
    lamps = List.copyOf(lamps);
    figures = List.copyOf(figures);
    positions = List.copyOf(positions);
  }

  /** True for a semaphore arm. */
  public boolean isArm() {
    return !positions.isEmpty();
  }

  /** What it shows where anything may be shown: an arm its safe side, lamps nothing. */
  public Display safest() {
    return isArm() ? Display.steady(positions.get(0)) : Display.DARK;
  }

  /**
   * The lamps that light up for a colour or figure. A figure of that name comes first; a plain
   * colour lights the one lamp that can show it. An arm shows its positions alone, and is never
   * dark.
   *
   * @return empty when no lamp can show it, or when several can and no figure says which
   */
  public Optional<List<Lit>> lights(String look) {
    if (look.equals(Display.DARK.look())) {
      return isArm() ? Optional.empty() : Optional.of(List.of());
    }
    for (Figure figure : figures) {
      if (figure.name().equals(look)) {
        return Optional.of(figure.lit());
      }
    }
    List<Integer> able = lampsShowing(look);
    return able.size() == 1 ? Optional.of(List.of(new Lit(able.get(0), look))) : Optional.empty();
  }

  /** True when a look can be put in no rhythm: it has its own, or is a position. */
  public boolean takesNoRhythm(String look) {
    return flashesByItself(look) || positions.contains(look);
  }

  /** True when a look is a figure with rhythms of its own. */
  public boolean flashesByItself(String look) {
    return figures.stream().anyMatch(f -> f.name().equals(look) && f.flashesByItself());
  }

  /** True when each lamp stands behind the mask of a number, by which it is named. */
  public boolean isOfNumbers() {
    return !isArm() && IntStream.range(0, lamps.size()).allMatch(this::isMasked);
  }

  private boolean isMasked(int lamp) {
    String name = lamps.get(lamp).name();
    return Character.isDigit(name.charAt(0))
        && figures.stream()
            .anyMatch(
                f -> f.name().equals(name) && f.lit().size() == 1 && f.lit().get(0).lamp() == lamp);
  }

  /** Indices of the lamps that can show a colour, rather than a number or a position in it. */
  public List<Integer> lampsShowing(String colour) {
    List<Integer> able = new ArrayList<>();
    for (int i = 0; i < lamps.size() && !isArm(); i++) {
      if (lamps.get(i).shows(colour) && !isMasked(i)) {
        able.add(i);
      }
    }
    return able;
  }
}
