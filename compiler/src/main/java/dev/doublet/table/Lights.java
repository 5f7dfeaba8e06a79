package dev.doublet.table;

import dev.doublet.colour.Drive;
import dev.doublet.layout.Brightness;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.table.TableFault.Reason;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Comparator;
import java.util.HashSet;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.SortedSet;
import java.util.TreeSet;
import java.util.stream.IntStream;

/**
 * What the LEDs of a controller show, as its table numbers it: the colours that palettes hold, the
 * rhythms, and what flashes in which.
 */
final class Lights {
  private final Rulebook book;
  private final List<Unit> units;
  private final List<Shade> colours;
  private final List<TableModel.Rhythm> rhythms;
  private final List<TableModel.Flash> flashing;

  /**
   * Numbers them.
   *
   * @param units all of a controller
   * @throws TableFault when one flashes in a rhythm that the rulebook has not
   */
  Lights(Rulebook book, List<Unit> units) throws TableFault {
    this.book = book;
    this.units = units;
    Set<Light> lights = lights(units);
    SortedSet<Shade> shown = new TreeSet<>();
    SortedSet<String> named = new TreeSet<>();
    for (Light light : lights) {
      shown.add(light.shade());
      named.add(light.rhythm());
    }
    units.forEach(u -> shown.addAll(passed(u)));
    this.colours = List.copyOf(shown);
    SortedSet<TableModel.Rhythm> times =
        new TreeSet<>(
            Comparator.comparingInt(TableModel.Rhythm::period)
                .thenComparingInt(TableModel.Rhythm::first));
    named.remove("");
    for (String name : named) {
      times.add(timing(name));
    }
    this.rhythms = List.copyOf(times);
    SortedSet<TableModel.Flash> found = new TreeSet<>();
    for (Light light : lights) {
      if (!light.rhythm().isEmpty()) {
        found.add(flash(light));
      }
    }
    this.flashing = List.copyOf(found);
  }

  /** How many colours each palette holds, dark not counted. */
  int colours() {
    return colours.size();
  }

  /** The rhythms in which something flashes, in the order of the table. */
  List<TableModel.Rhythm> rhythms() {
    return rhythms;
  }

  /** What flashes, in the order of the table. */
  List<TableModel.Flash> flashing() {
    return flashing;
  }

  /**
   * What palettes hold.
   *
   * @param look a colour of an LED; empty for an output of a chip, whatever is at it
   * @param share percent of what its unit has
   */
  private record Shade(String look, int share) implements Comparable<Shade> {
    private static final Comparator<Shade> ORDER =
        Comparator.comparing(Shade::isOutput)
            .thenComparing(Shade::look)
            .thenComparing(Shade::share, Comparator.reverseOrder());

    boolean isOutput() {
      return look.isEmpty();
    }

    @Override
    public int compareTo(Shade other) {
      return ORDER.compare(this, other);
    }
  }

  /** What a lamp shows; in no rhythm when it is steady. */
  private record Light(Shade shade, String rhythm) {}

  private static Light light(Unit unit, int lamp, Display display) {
    return new Light(shade(unit, lamp, display.look()), display.rhythm());
  }

  private static Shade shade(Unit unit, int lamp, String look) {
    String shown = unit.kind().chip(lamp).isPresent() ? "" : look;
    return new Shade(shown, unit.dimming().lamp(lamp));
  }

  /** Everything that LEDs show but the dark; of units alike in all that counts one is asked. */
  private static Set<Light> lights(List<Unit> units) {
    Set<Light> lights = new LinkedHashSet<>();
    Map<Kind, Set<Dimming>> known = new IdentityHashMap<>();
    for (Unit unit : units) {
      if (known.computeIfAbsent(unit.kind(), k -> new HashSet<>()).add(unit.dimming())) {
        for (State state : unit.kind().states()) {
          for (int lamp = 0; lamp < state.lit().size(); lamp++) {
            if (!state.lit().get(lamp).look().equals(Display.DARK.look())) {
              lights.add(light(unit, lamp, state.lit().get(lamp)));
            }
          }
        }
      }
    }
    return lights;
  }

  /** What vanes of a unit pass before an LED of two other colours; there are none at outputs. */
  private static Set<Shade> passed(Unit unit) {
    Set<Shade> passed = new HashSet<>();
    List<Set<String>> each = unit.kind().passedOn(unit.chain().part());
    for (int lamp = 0; lamp < each.size(); lamp++) {
      for (String look : each.get(lamp)) {
        passed.add(shade(unit, lamp, look));
      }
    }
    return passed;
  }

  private Rhythm rhythm(String name) throws TableFault {
    return book.rhythm(name)
        .orElseThrow(
            () ->
                new TableFault(Reason.NOT_COMPLETE, "the rulebook has no rhythm \"" + name + "\""));
  }

  private TableModel.Rhythm timing(String name) throws TableFault {
    Rhythm rhythm = rhythm(name);
    int lit = rhythm.litMillis();
    int first = rhythm.startsDark() ? rhythm.periodMillis() - lit : lit;
    return new TableModel.Rhythm(rhythm.periodMillis(), first);
  }

  private TableModel.Flash flash(Light light) throws TableFault {
    return new TableModel.Flash(
        colours.indexOf(light.shade()) + 1,
        rhythms.indexOf(timing(light.rhythm())),
        rhythm(light.rhythm()).startsDark());
  }

  /** The number in a picture of what a lamp of a unit shows; 0 for the dark. */
  int number(Unit unit, int lamp, Display display) throws TableFault {
    if (display.look().equals(Display.DARK.look())) {
      return 0;
    }
    Light light = light(unit, lamp, display);
    return light.rhythm().isEmpty()
        ? colours.indexOf(light.shade()) + 1
        : colours.size() + flashing.indexOf(flash(light)) + 1;
  }

  /**
   * The number of a colour that a vane before a lamp of a unit passes; 0 where no palette has it.
   */
  int number(Unit unit, int lamp, String look) {
    return colours.indexOf(shade(unit, lamp, look)) + 1;
  }

  /** The bytes of each colour at some ten-thousandths of full drive. */
  List<Integer> palette(Chain chain, int brightness) throws TableFault {
    String order = chain.part().order();
    List<Integer> bytes = new ArrayList<>();
    for (Shade shade : colours) {
      List<Integer> drive = drive(chain, shade);
      Brightness sent = new Brightness(brightness * shade.share());
      for (int i = 0; i < order.length(); i++) {
        int channel = "RGBW".indexOf(order.charAt(i));
        bytes.add(drive.isEmpty() ? 0 : sent.dimmed(drive.get(channel)));
      }
    }
    return bytes;
  }

  /** Empty for what is not shown on a chain. */
  private List<Integer> drive(Chain chain, Shade shade) throws TableFault {
    if (shade.isOutput()) {
      boolean chips =
          units.stream()
              .anyMatch(u -> u.chain().index() == chain.index() && !u.kind().feeds().isEmpty());
      return chips ? Collections.nCopies(4, Drive.FULL) : List.of();
    }
    List<Integer> drive = chain.part().drive().get(shade.look());
    if (drive == null) {
      refuseUndriven(chain, shade.look());
      return List.of();
    }
    return drive;
  }

  /** A colour that only other chains show, or only vanes pass, needs no drive here. */
  private void refuseUndriven(Chain chain, String colour) throws TableFault {
    for (Unit unit : units) {
      boolean shown =
          unit.kind().states().stream()
              .flatMap(
                  s ->
                      IntStream.range(0, s.lit().size())
                          .filter(lamp -> unit.kind().chip(lamp).isEmpty())
                          .mapToObj(s.lit()::get))
              .anyMatch(d -> d.look().equals(colour));
      if (shown && unit.chain().index() == chain.index()) {
        throw new TableFault(
            Reason.NOT_COMPLETE,
            String.format(
                Locale.ROOT,
                "%s shows %s, and the part \"%s\" of chain \"%s\" says no drive for it",
                unit.name(),
                colour,
                chain.part().name(),
                chain.name()));
      }
    }
  }
}
