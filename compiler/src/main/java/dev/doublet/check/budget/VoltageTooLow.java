package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Unit;
import dev.doublet.power.Flow;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.TreeSet;
import java.util.stream.IntStream;

/** An LED that gets too little voltage through the cable, or so little that a bad day is enough. */
public final class VoltageTooLow implements Check.OfLayout {
  /**
   * Stranded wire resists a few percent more than solid, and warm copper 0.39 % more a kelvin: 40 K
   * make 16 %.
   */
  private static final double ON_A_BAD_DAY = 1.2;

  /** Places tried for a further feed: every LED of a short chain, evenly spread ones of a long. */
  private static final int PLACES = 200;

  private static final int[] GAUGES = {28, 26, 24, 22, 20, 18};

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        facts
            .flow(controller, chain)
            .filter(flow -> !lasts(flow))
            .ifPresent(flow -> found.add(report(controller, flow)));
      }
    }
    return found;
  }

  private static boolean lasts(Flow flow) {
    Chain chain = flow.chain();
    return flow.leastVolts(ON_A_BAD_DAY) >= chain.part().minimumVolts();
  }

  private Diagnostic report(Controller controller, Flow flow) {
    Chain chain = flow.chain();
    double minimum = chain.part().minimumVolts();
    boolean lacking = flow.leastVolts() < minimum;
    Diagnostic found =
        finding(
                lacking ? Severity.ERROR : Severity.WARNING,
                chain.span(),
                Words.say(
                    "chain %s gives %s %.2f V, %s %s V its LEDs need",
                    chain.name(),
                    place(controller, flow),
                    Math.max(0, flow.leastVolts()),
                    lacking ? "not the" : "little more than the",
                    Words.number(minimum)))
            .about(List.of(controller.name(), chain.name()))
            .label(
                "{supplied} V through {length} m of {cable}",
                Datum.of("supplied", chain.supply().volts()),
                Datum.of("length", chain.cable().metres()),
                Datum.of("cable", chain.cable().words()))
            .word("chain", chain.name())
            .number("LED", flow.worstLed() + 1L, "")
            .words("signal", signal(controller, flow).stream().toList())
            .measure("arriving", Math.max(0, flow.leastVolts()), 2, "V")
            .measure("needed", minimum, 2, "V")
            .measure("supplied", chain.supply().volts(), 2, "V")
            .measure("cable", chain.cable().metres(), 2, "m")
            .fact(
                "counted",
                Words.say(
                    "each signal as it takes most, LEDs %s, solid copper at 20 °C, out and back",
                    chain.cable().lay().at().isEmpty()
                        ? "evenly along the cable"
                        : "where they stand along the cable"));
    if (!lacking) {
      found =
          found.fact(
              "with a fifth more loss",
              Words.say("%.2f V, as in stranded wire 40 K warmer", flow.leastVolts(ON_A_BAD_DAY)));
    }
    return found
        .because(
            "an LED with too little voltage changes its colours or stops passing on what the LEDs"
                + " after it are sent")
        .ways(ways(flow));
  }

  private static String place(Controller controller, Flow flow) {
    String at = signal(controller, flow).map(name -> " (signal " + name + ")").orElse("");
    return "LED " + (flow.worstLed() + 1) + at;
  }

  private static Optional<String> signal(Controller controller, Flow flow) {
    int led = flow.worstLed();
    return controller.units().stream()
        .filter(u -> u.chain().index() == flow.chain().index())
        .filter(u -> u.led() <= led && led < u.led() + u.kind().leds())
        .findFirst()
        .map(Unit::signal);
  }

  private static List<String> ways(Flow flow) {
    Chain chain = flow.chain();
    if (chain.supply().volts() <= chain.part().minimumVolts()) {
      return List.of(
          Words.say(
              "use a supply of more volts, up to the %s V that its LEDs bear",
              Words.number(chain.part().maximumVolts())));
    }
    List<String> ways = new ArrayList<>();
    fed(flow)
        .ifPresent(
            led ->
                ways.add(
                    Words.say(
                        "also feed power in at LED %d, by thick leads (then at least %.2f V)",
                        led, with(flow, led).leastVolts())));
    thicker(flow)
        .ifPresent(
            cable ->
                ways.add(
                    Words.say(
                        "use %s (then at least %.2f V)",
                        cable.words(), flow.with(cable, chain.feeds()).leastVolts())));
    return ways.isEmpty()
        ? List.of("split the chain: neither one further feed nor AWG 18 is enough")
        : ways;
  }

  /** The further feed that leaves most voltage, where one is enough. */
  private static Optional<Integer> fed(Flow flow) {
    int leds = flow.chain().leds();
    int tried = Math.min(leds, PLACES);
    int best = 0;
    double least = Double.MAX_VALUE;
    for (int i = 1; i <= tried; i++) {
      int led = (int) ((long) i * leds / tried);
      double lack = -with(flow, led).leastVolts();
      if (lack < least) {
        least = lack;
        best = led;
      }
    }
    return Optional.of(best).filter(led -> lasts(with(flow, led)));
  }

  private static Flow with(Flow flow, int led) {
    TreeSet<Integer> feeds = new TreeSet<>(flow.chain().feeds());
    feeds.add(led);
    return flow.with(flow.chain().cable(), List.copyOf(feeds));
  }

  private static Optional<Cable> thicker(Flow flow) {
    Cable cable = flow.chain().cable();
    return IntStream.of(GAUGES)
        .mapToObj(gauge -> Cable.ofGauge(gauge, 1).lying(cable.metres(), cable.lay()))
        .filter(c -> c.squareMillimetres() > cable.squareMillimetres())
        .filter(c -> lasts(flow.with(c, flow.chain().feeds())))
        .findFirst();
  }
}
