package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;

/** A chain that takes too long to send for the fastest rhythm, fade or swing on it. */
public final class SlowChain implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Chain, ShortestChange> fastest = ShortestChange.ofChains(facts);
    List<Diagnostic> found = new ArrayList<>();
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        ShortestChange need = fastest.get(chain);
        if (need != null && isTooSlow(chain, need)) {
          List<Signal> signals = signals(controller, chain);
          found.add(
              report(chain, need, signals)
                  .about(List.of(controller.name(), chain.name()))
                  .help(help(chain, signals, need.perRefresh() * 1000)));
        }
      }
    }
    return found;
  }

  /** True when a chain alone takes too long to send. */
  static boolean isTooSlow(Chain chain, ShortestChange need) {
    return chain.refreshMicros() / 1000 > need.perRefresh();
  }

  private static List<Signal> signals(Controller controller, Chain chain) {
    return controller.signals().stream()
        .filter(s -> s.units().get(0).chain() == chain)
        .sorted(Comparator.comparingInt(SlowChain::firstLed))
        .toList();
  }

  private static int firstLed(Signal signal) {
    return signal.units().stream().mapToInt(Unit::led).min().orElseThrow();
  }

  private static int endLed(Signal signal) {
    return signal.units().stream().mapToInt(u -> u.led() + u.kind().leds()).max().orElseThrow();
  }

  /** Where to begin new chains so that each is sent in time: as far along the cable as it goes. */
  private static String help(Chain chain, List<Signal> signals, double micros) {
    int most = chain.ledsSentIn(micros);
    List<String> splits = new ArrayList<>();
    int start = 0;
    for (Signal signal : signals) {
      if (endLed(signal) - start > most) {
        start = firstLed(signal);
        splits.add(Words.say("%s (LED %d)", signal.name(), start + 1));
      }
      if (endLed(signal) - start > most) {
        return "this signal alone takes too long: use LEDs that need less rest between refreshes, or a slower rhythm";
      }
    }
    return splits.isEmpty()
        ? Words.say(
            "end the chain after LED %d: the LEDs behind it belong to no signal",
            signals.stream().mapToInt(SlowChain::endLed).max().orElseThrow())
        : Words.say(
            "begin a new chain at %s %s: each is then sent in time",
            Words.plural(splits.size(), "signal"), Words.list(splits));
  }

  private Diagnostic report(Chain chain, ShortestChange need, List<Signal> signals) {
    double latch = chain.part().latchMicros() / 1000.0;
    double millis = chain.refreshMicros() / 1000;
    int used =
        signals.stream().flatMap(s -> s.units().stream()).mapToInt(u -> u.kind().leds()).sum();
    return finding(
            Severity.WARNING,
            chain.span(),
            Words.say(
                "chain %s takes %.1f ms to send, too long for %s",
                chain.name(), millis, need.words()))
        .label(
            "{leds} of {channels}",
            Datum.count("leds", chain.leds(), "LED"),
            Datum.count("channels", chain.part().channels(), "channel"))
        .related(need.span(), need.label())
        .word("chain", chain.name())
        .number("LEDs", chain.leds(), "")
        .measure("takes", millis, 1, "ms")
        .number("shortest", need.millis(), "ms")
        .measure("needed", need.perRefresh(), 1, "ms")
        .fact(
            "of these",
            Words.say(
                "%.1f ms for %s of signals, %.1f ms for %d others, %.1f ms of rest",
                (millis - latch) * used / chain.leds(),
                Words.count(used, "LED"),
                (millis - latch) * (chain.leds() - used) / chain.leds(),
                chain.leds() - used,
                latch))
        .fact(
            "needed",
            Words.say(
                "%.1f ms, in which %s are sent",
                need.perRefresh(), Words.count(chain.ledsSentIn(need.perRefresh() * 1000), "LED")))
        .because(need.why());
  }
}
