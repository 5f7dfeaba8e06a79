package dev.doublet.chart;

import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Prices;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.power.Resistor;
import dev.doublet.rulebook.Lamp;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Parts of one sort.
 *
 * @param what their name
 * @param count how many, or metres of cable
 * @param price of one; 0 when not said
 */
public record Item(String what, double count, double price) {

  /** What they cost together. */
  public double cost() {
    return count * price;
  }

  /** What a controller's chains and signals are made of. */
  public static List<Item> of(Controller controller, Prices prices) {
    Map<String, Integer> leds = new TreeMap<>();
    Map<String, Integer> ofChips = new TreeMap<>();
    Map<String, Double> metres = new TreeMap<>();
    Map<Integer, Integer> boards = new TreeMap<>();
    for (Chain chain : controller.chains()) {
      int chips =
          controller.signals().stream()
              .filter(s -> s.units().get(0).chain().index() == chain.index())
              .mapToInt(s -> ofChips(s, chain, ofChips))
              .sum();
      if (chain.leds() > chips) {
        leds.merge(chain.part().name(), chain.leds() - chips, Integer::sum);
      }
      Lay lay = chain.cable().lay();
      Stream.of(
              Stream.of(chain.cable()),
              lay.feeds().stream().map(Lay.Feed::wire),
              lay.leads().stream().map(Lay.Lead::wire))
          .flatMap(w -> w)
          .filter(Cable::isSaid)
          .forEach(wire -> metres.merge(wire.words(), wire.metres(), Double::sum));
      lay.boards().forEach(b -> boards.merge(b.sockets(), 1, Integer::sum));
    }
    Map<String, Integer> heads = new TreeMap<>();
    Map<String, Integer> plates = new TreeMap<>();
    for (Signal signal : controller.signals()) {
      signal.build().heads().forEach(h -> heads.merge(h.name(), 1, Integer::sum));
      signal.build().plates().forEach(p -> plates.merge(p, 1, Integer::sum));
    }
    List<Item> parts = new ArrayList<>();
    leds.forEach((name, count) -> parts.add(new Item("LED " + name, count, prices.led())));
    ofChips.forEach((name, count) -> parts.add(new Item(name, count, 0)));
    heads.forEach(
        (name, count) ->
            parts.add(new Item("head " + name, count, prices.heads().getOrDefault(name, 0.0))));
    Map<Boolean, Long> movers =
        controller.units().stream()
            .flatMap(u -> u.servos().stream())
            .collect(Collectors.partitioningBy(Servo::isMotor, Collectors.counting()));
    if (movers.get(false) > 0) {
      parts.add(new Item("servo", movers.get(false), 0));
    }
    if (movers.get(true) > 0) {
      parts.add(new Item("motor of two ends", movers.get(true), 0));
    }
    plates.forEach((name, count) -> parts.add(new Item("plate " + name, count, prices.plate())));
    boards.forEach(
        (sockets, count) ->
            parts.add(new Item("board of " + Words.count(sockets, "socket"), count, 0)));
    metres.forEach(
        (words, length) -> parts.add(new Item("metres of cable " + words, length, prices.metre())));
    return parts;
  }

  /**
   * Counts the chips of a signal, the LEDs at their outputs and the resistors; returns how many
   * chips.
   */
  private static int ofChips(Signal signal, Chain chain, Map<String, Integer> parts) {
    List<Lamp> lamps = signal.build().lampsAlong();
    int chips = 0;
    for (Feed feed : signal.build().feeds()) {
      if (feed.chip().isPresent()) {
        chips++;
        parts.merge("chip " + feed.chip().get().name(), 1, Integer::sum);
        for (int lamp : feed.lit().toList()) {
          String colour = lamps.get(lamp).colours().get(0).name();
          parts.merge("LED of one colour, " + colour, 1, Integer::sum);
          Resistor.ohms(feed.chip().get(), colour, chain.supply().volts())
              .ifPresent(
                  ohms -> parts.merge("resistor of " + Words.count(ohms, "ohm"), 1, Integer::sum));
        }
      }
    }
    return chips;
  }
}
