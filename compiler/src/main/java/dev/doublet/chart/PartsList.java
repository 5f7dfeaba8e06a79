package dev.doublet.chart;

import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Size;
import dev.doublet.power.Flow;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/**
 * What a whole layout is built of, by sort, with how much of it each controller needs.
 *
 * @param title the layout's
 * @param controllers their names, in the order declared
 * @param parts those of {@link Item#of}, and what connects and guards them
 * @param currency what parts cost is in; empty when not said
 * @param notes what was counted, and what was not
 */
public record PartsList(
    String title, List<String> controllers, List<Part> parts, String currency, List<String> notes) {

  /** A resistor in the line of data, close to the controller (common practice). */
  private static final String DATA_RESISTOR = "resistor of 330 ohms, in the data of a chain";

  private static final String THREE_POLES = "plug and socket of three poles";
  private static final String TWO_POLES = "plug and socket of two poles";

  /** Copies the lists. */
  public PartsList {
    controllers = List.copyOf(controllers);
    parts = List.copyOf(parts);
    notes = List.copyOf(notes);
  }

  /**
   * One sort of part.
   *
   * @param what its name
   * @param counts how many each controller needs, or metres, in their order
   * @param price of one; 0 when not said
   */
  public record Part(String what, List<Double> counts, double price) {

    /** Copies the list. */
    public Part {
      counts = List.copyOf(counts);
    }

    /** How many in all. */
    public double count() {
      return counts.stream().mapToDouble(c -> c).sum();
    }

    /** What they cost together. */
    public double cost() {
      return count() * price;
    }
  }

  /** Of a layout. */
  public static PartsList of(LayoutFacts facts) {
    List<Controller> controllers = facts.layout().controllers();
    Map<String, double[]> counts = new LinkedHashMap<>();
    Map<String, Double> prices = new LinkedHashMap<>();
    for (int i = 0; i < controllers.size(); i++) {
      for (Item item : items(facts, controllers.get(i))) {
        counts.computeIfAbsent(item.what(), w -> new double[controllers.size()])[i] += item.count();
        prices.put(item.what(), item.price());
      }
    }
    List<Part> parts = new ArrayList<>();
    counts.forEach(
        (what, of) ->
            parts.add(new Part(what, Arrays.stream(of).boxed().toList(), prices.get(what))));
    parts.sort(Comparator.comparing(PartsList::sort));
    return new PartsList(
        facts.layout().title(),
        controllers.stream().map(Controller::name).toList(),
        parts,
        facts.layout().prices().currency(),
        notes(facts));
  }

  /** The first word of a part's name says its sort, so that controllers' parts stand together. */
  private static int sort(Part part) {
    List<String> sorts =
        List.of(
            "LED",
            "chip",
            "head",
            "servo",
            "motor",
            "plate",
            "fibre",
            "board",
            "resistor",
            "plug",
            "fuse",
            "metres");
    return sorts.indexOf(part.what().split(" ")[0]);
  }

  private static List<Item> items(LayoutFacts facts, Controller controller) {
    List<Item> items = new ArrayList<>(Item.of(controller, facts.layout().prices()));
    Map<Double, Integer> fibres = new TreeMap<>();
    for (Signal signal : controller.signals()) {
      Size size = signal.build().size();
      if (size.fibre() > 0) {
        fibres.merge(size.fibre(), signal.build().lamps(), Integer::sum);
      }
    }
    fibres.forEach(
        (mm, lamps) ->
            items.add(new Item(Words.say("fibre of %s mm, ends", Words.number(mm)), lamps, 0)));
    int three = 0;
    int two = 0;
    Map<Double, Integer> fuses = new TreeMap<>();
    for (Chain chain : controller.chains()) {
      Lay lay = chain.cable().lay();
      three += 1 + lay.leads().size();
      two += (int) lay.feeds().stream().filter(f -> f.wire().isSaid()).count();
      facts.flow(controller, chain).ifPresent(flow -> fuses(flow, fuses));
    }
    items.add(new Item(DATA_RESISTOR, controller.chains().size(), 0));
    items.add(new Item(THREE_POLES, three, 0));
    if (two > 0) {
      items.add(new Item(TWO_POLES, two, 0));
    }
    fuses.forEach(
        (amps, count) ->
            items.add(new Item("fuse of " + Words.amps(amps) + ", with holder", count, 0)));
    return items;
  }

  private static void fuses(Flow flow, Map<Double, Integer> fuses) {
    List<Optional<Double>> all = new ArrayList<>(flow.fuses());
    all.addAll(flow.leadFuses());
    all.forEach(fuse -> fuse.ifPresent(amps -> fuses.merge(amps, 1, Integer::sum)));
  }

  private static List<String> notes(LayoutFacts facts) {
    List<String> notes = new ArrayList<>();
    notes.add("A metre of cable is a metre of volts, ground and data together.");
    notes.add(
        "Counted: a plug with its socket where a chain begins and at each signal's own wires.");
    boolean unsaid = false;
    boolean unguarded = false;
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        Optional<Flow> flow = facts.flow(controller, chain);
        unsaid |= flow.isEmpty();
        unguarded |= flow.map(f -> f.fuses().stream().anyMatch(Optional::isEmpty)).orElse(false);
      }
    }
    if (unsaid) {
      notes.add("Not counted: wires and fuses of chains whose cable or supply is not said.");
    }
    if (unguarded) {
      notes.add("No fuse fits a feed whose wires are too thin: see check and wiring.");
    }
    notes.add(
        "Supplies and their mains side are not in this list: take ready-made ones, and follow your"
            + " local code.");
    return notes;
  }
}
