package dev.doublet.chart;

import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Chip;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Mast;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Size;
import dev.doublet.layout.Unit;
import dev.doublet.power.Flow;
import dev.doublet.power.Resistor;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Lamp;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.Set;
import java.util.TreeMap;

/**
 * What a builder solders for one controller: its chains LED by LED, what they draw, and the parts.
 *
 * @param title the layout's
 * @param scale the layout's ratio
 * @param controller its name
 * @param posts how high its signals stand, in the order of the first of each
 * @param lenses of its signals, widest first
 * @param chains in the order declared
 * @param parts to buy, by sort and name
 * @param currency what parts cost is in; empty when not said
 */
public record Wiring(
    String title,
    double scale,
    String controller,
    List<Post> posts,
    List<Lens> lenses,
    List<Strand> chains,
    List<Item> parts,
    String currency) {
  /** Copies the lists. */
  public Wiring {
    posts = List.copyOf(posts);
    lenses = List.copyOf(lenses);
    chains = List.copyOf(chains);
    parts = List.copyOf(parts);
  }

  /**
   * Signals of one form that stand as high as one another.
   *
   * @param form the form
   * @param mast how high their heads stand
   * @param scale the ratio that they are built in
   * @param signals their names, in chain order, at least one
   */
  public record Post(Form form, Mast mast, double scale, List<String> signals) {

    /** Copies the list. */
    public Post {
      signals = List.copyOf(signals);
    }

    /** How high a head stands above the rail, in millimetres on the model. */
    public double height(int place) {
      return mast.metres().get(place) * 1000 / scale;
    }
  }

  /**
   * One chain.
   *
   * @param chain the chain
   * @param milliamps the most that it can draw
   * @param flowOrNull how current flows when it draws the most, where cable and supply are known
   * @param leds every LED from the first, those of no signal too
   */
  public record Strand(Chain chain, double milliamps, Flow flowOrNull, List<Led> leds) {

    /** Copies the list. */
    public Strand {
      leds = List.copyOf(leds);
    }

    /** How current flows; empty when the layout does not say cable and supply. */
    public Optional<Flow> flow() {
      return Optional.ofNullable(flowOrNull);
    }
  }

  /**
   * One LED, or one output of a chip.
   *
   * @param number its place on the chain, from 1
   * @param milliamps the most that it can draw; of a chip with its first output
   * @param outputOrNull the output; null for an LED
   * @param lampOrNull what it lights; null for an LED of no signal and an output that is unused
   */
  public record Led(int number, double milliamps, Output outputOrNull, Lit lampOrNull) {

    /** The output of a chip; empty for an LED. */
    public Optional<Output> output() {
      return Optional.ofNullable(outputOrNull);
    }

    /** What it lights; empty for an LED of no signal. */
    public Optional<Lit> lamp() {
      return Optional.ofNullable(lampOrNull);
    }
  }

  /**
   * An output of a chip.
   *
   * @param chip the kind of chip
   * @param name what the output is called
   * @param limited true when the LED at it needs a resistor
   * @param ohmsOrNull of the resistor; null where none is needed, or its size is not known
   */
  public record Output(Chip chip, String name, boolean limited, Integer ohmsOrNull) {

    /** The ohms of the resistor that is needed, if its size is known. */
    public Optional<Integer> ohms() {
      return Optional.ofNullable(ohmsOrNull);
    }
  }

  /**
   * One lamp of a signal.
   *
   * @param signal the signal
   * @param unit what is commanded
   * @param place the head's place in the form
   * @param metres how high the middle of the head stands above the rail at full size
   * @param metresSaid true when the layout says so, false when it is common practice
   * @param head the head's make
   * @param lamp the lamp
   * @param firstOfSignal true for the signal's first LED on the chain
   * @param firstOfUnit true for the first LED of what is commanded
   */
  public record Lit(
      Signal signal,
      Unit unit,
      String place,
      double metres,
      boolean metresSaid,
      HeadType head,
      Lamp lamp,
      boolean firstOfSignal,
      boolean firstOfUnit) {}

  /**
   * Lenses of one size.
   *
   * @param size their width, and the scale that they are built in
   * @param forms names of the forms of the signals that have them, in chain order
   */
  public record Lens(Size size, List<String> forms) {

    /** Copies the list. */
    public Lens {
      forms = List.copyOf(forms);
    }

    /** Their width on the full-size signal, in mm. */
    public double fullSize() {
      return size.lens();
    }

    /** Their width on the model, in mm. */
    public double wide() {
      return size.onModel(size.lens());
    }
  }

  /** A report for each controller of a layout. */
  public static List<Wiring> of(LayoutFacts facts) {
    return facts.layout().controllers().stream().map(c -> of(facts, c)).toList();
  }

  private static Wiring of(LayoutFacts facts, Controller controller) {
    Layout layout = facts.layout();
    return new Wiring(
        layout.title(),
        layout.scale(),
        controller.name(),
        posts(controller),
        lenses(controller),
        controller.chains().stream().map(c -> strand(facts, controller, c)).toList(),
        Item.of(controller, layout.prices()),
        layout.prices().currency());
  }

  private static List<Post> posts(Controller controller) {
    Map<String, Map<List<Object>, List<Signal>>> alike = new LinkedHashMap<>();
    for (Signal signal : controller.signals()) {
      alike
          .computeIfAbsent(signal.build().form().name(), f -> new LinkedHashMap<>())
          .computeIfAbsent(
              List.of(signal.mast(), signal.build().size().scale()), m -> new ArrayList<>())
          .add(signal);
    }
    return alike.values().stream()
        .flatMap(of -> of.entrySet().stream())
        .map(e -> post(e.getValue()))
        .toList();
  }

  private static Post post(List<Signal> signals) {
    Signal first = signals.get(0);
    return new Post(
        first.build().form(),
        first.mast(),
        first.build().size().scale(),
        signals.stream().map(Signal::name).toList());
  }

  private static List<Lens> lenses(Controller controller) {
    Map<Size, Set<String>> forms = new LinkedHashMap<>();
    for (Signal signal : controller.signals()) {
      forms
          .computeIfAbsent(signal.build().size(), lens -> new LinkedHashSet<>())
          .add(signal.build().form().name());
    }
    List<Lens> lenses = new ArrayList<>();
    forms.forEach((size, on) -> lenses.add(new Lens(size, List.copyOf(on))));
    lenses.sort(Comparator.comparingDouble((Lens lens) -> lens.size().lens()).reversed());
    return lenses;
  }

  private static Strand strand(LayoutFacts facts, Controller controller, Chain chain) {
    Map<Integer, List<Led>> lit = new TreeMap<>();
    double[] milliamps = facts.draw(controller, chain).milliampsOfEach();
    controller.signals().stream()
        .filter(s -> s.units().get(0).chain().index() == chain.index())
        .forEach(s -> light(s, milliamps, lit));
    List<Led> leds = new ArrayList<>();
    for (int led = 0; led < chain.leds(); led++) {
      leds.addAll(lit.getOrDefault(led, List.of(new Led(led + 1, milliamps[led], null, null))));
    }
    double most = facts.draw(controller, chain).milliamps();
    return new Strand(chain, most, facts.flow(controller, chain).orElse(null), leds);
  }

  private static void light(Signal signal, double[] milliamps, Map<Integer, List<Led>> lit) {
    int first = signal.units().stream().mapToInt(Unit::led).min().orElseThrow();
    List<Feed> places = signal.build().places();
    for (int i = 0; i < places.size(); i++) {
      Feed feed = places.get(i);
      int led = first + i;
      Unit unit = unitAt(signal, led);
      List<Led> here = new ArrayList<>();
      for (int output = 0; output < feed.lamps().size(); output++) {
        int lamp = feed.lamps().get(output);
        Lit lights =
            lamp == Feed.NONE
                ? null
                : lamp(
                    signal,
                    unit,
                    lamp,
                    output == 0 && led == first,
                    output == 0 && led == unit.led());
        Output of = feed.chip().isEmpty() ? null : output(feed, output, lights, unit.chain());
        here.add(new Led(led + 1, output == 0 ? milliamps[led] : 0, of, lights));
      }
      lit.put(led, here);
    }
  }

  private static Output output(Feed feed, int output, Lit litOrNull, Chain chain) {
    Chip chip = feed.chip().orElseThrow();
    String colour = litOrNull == null ? "" : litOrNull.lamp().colours().get(0).name();
    OptionalInt ohms = Resistor.ohms(chip, colour, chain.supply().volts());
    return new Output(
        chip,
        chip.outputs().get(output),
        chip.isLimited(colour),
        ohms.isPresent() ? Integer.valueOf(ohms.getAsInt()) : null);
  }

  private static Lit lamp(
      Signal signal, Unit unit, int lamp, boolean firstOfSignal, boolean firstOfUnit) {
    int at = lamp;
    for (int place : signal.build().wired()) {
      HeadType head = signal.build().heads().get(place);
      if (at < head.lamps().size()) {
        return new Lit(
            signal,
            unit,
            signal.build().form().places().get(place),
            signal.mast().metres().get(place),
            signal.mast().says(place),
            head,
            head.lamps().get(at),
            firstOfSignal,
            firstOfUnit);
      }
      at -= head.lamps().size();
    }
    throw new IllegalArgumentException("the signal has no such lamp");
  }

  private static Unit unitAt(Signal signal, int led) {
    return signal.units().stream()
        .filter(u -> u.led() <= led)
        .max(Comparator.comparingInt(Unit::led))
        .orElseThrow();
  }
}
