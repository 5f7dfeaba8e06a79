package dev.doublet.page;

import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Drive;
import dev.doublet.colour.Xyz;
import dev.doublet.layout.Brightness;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rulebook;
import java.util.List;
import java.util.stream.Stream;

/** What lamps of a layout shine: those with an LED of their own, and those at outputs of chips. */
final class Lights {
  /** Of a colour that no LED is driven for: white, and as bright as others (a choice of ours). */
  private static final Xyz UNKNOWN = Xyz.of(new Chromaticity(1 / 3.0, 1 / 3.0), 500);

  private final Inks inks;

  Lights(Rulebook book) {
    this.inks = Inks.of(book);
  }

  /**
   * What the LED at an output shines that is fully driven. One of which nothing is said is taken to
   * shine as the addressable LEDs of charts do.
   */
  Xyz diode(Kind kind, int lamp) {
    return shown(kind, lamp)
        .findFirst()
        .map(
            colour ->
                kind.chip(lamp)
                    .orElseThrow()
                    .diode(colour)
                    .light()
                    .orElseGet(() -> inks.of(colour).map(Inks.Ink::xyz).orElse(UNKNOWN)))
        .orElse(UNKNOWN);
  }

  /**
   * The luminous intensity of the weakest light of a chain by day, were no signal less bright than
   * the brightest; it is drawn full.
   *
   * @param units all that hang on the chain
   */
  double full(Chain chain, List<Unit> units) {
    int most = units.stream().mapToInt(u -> u.dimming().percent()).max().orElse(100);
    double least = Double.POSITIVE_INFINITY;
    for (Unit unit : units) {
      for (int lamp = 0; lamp < unit.kind().lamps(); lamp++) {
        Brightness at = Brightness.of(chain.brightness(), most, unit.dimming().lamp(lamp));
        for (String colour : shown(unit.kind(), lamp).toList()) {
          double light = light(unit, lamp, colour, at);
          least = light > 0 ? Math.min(least, light) : least;
        }
      }
    }
    return Double.isInfinite(least) ? 1 : least;
  }

  private double light(Unit unit, int lamp, String colour, Brightness at) {
    if (unit.kind().chip(lamp).isPresent()) {
      return diode(unit.kind(), lamp).y() * at.dimmed(Drive.FULL) / Drive.FULL;
    }
    Part part = unit.chain().part();
    List<Integer> drive = part.drive().get(colour);
    return part.family().light(new Drive(drive.stream().map(at::dimmed).toList())).y();
  }

  private static Stream<String> shown(Kind kind, int lamp) {
    return kind.states().stream()
        .map(state -> state.lit().get(lamp).look())
        .filter(look -> !look.equals(Display.DARK.look()))
        .distinct();
  }
}
