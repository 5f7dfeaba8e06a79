package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.check.LayoutFacts;
import dev.doublet.check.LayoutFacts.Alike;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A chain that takes too long to send for the fastest rhythm on it. */
public final class SlowChain implements Check.OfLayout {
  /** A flash lasts at least this many refreshes, so that its length is off by a quarter at most. */
  private static final int REFRESHES = 4;

  /** Bit time of the single-wire chains, 800 kbit/s (makers' data sheets). */
  private static final double MICROS_A_BIT = 1.25;

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  /** How long it takes to send a whole chain once, in microseconds, with the rest after it. */
  public static double refreshMicros(Chain chain) {
    return chain.leds() * chain.part().channels() * 8 * MICROS_A_BIT + chain.part().latchMicros();
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Chain, Rhythm> fastest = new IdentityHashMap<>();
    List<Chain> chains = new ArrayList<>();
    Rulebook book = facts.layout().rulebook();
    for (Alike alike : facts.kinds()) {
      Optional<Rhythm> rhythm = fastestOf(book, alike);
      if (rhythm.isPresent()) {
        for (Unit unit : alike.units()) {
          if (!fastest.containsKey(unit.chain())) {
            chains.add(unit.chain());
          }
          fastest.merge(unit.chain(), rhythm.get(), (a, b) -> shortest(a) <= shortest(b) ? a : b);
        }
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    for (Chain chain : chains) {
      int shortest = shortest(fastest.get(chain));
      if (refreshMicros(chain) / 1000 * REFRESHES > shortest) {
        List<Signal> signals = signals(facts, chain);
        found.add(
            report(chain, fastest.get(chain), signals)
                .help(help(chain, signals, shortest * 1000.0 / REFRESHES)));
      }
    }
    return found;
  }

  private static List<Signal> signals(LayoutFacts facts, Chain chain) {
    return facts.layout().controllers().stream()
        .flatMap(c -> c.signals().stream())
        .filter(s -> s.units().get(0).chain().equals(chain))
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
    double left = micros - chain.part().latchMicros();
    int most = (int) Math.floor(left / (chain.part().channels() * 8 * MICROS_A_BIT));
    List<String> splits = new ArrayList<>();
    int start = 0;
    for (Signal signal : signals) {
      if (endLed(signal) - start > most) {
        start = firstLed(signal);
        splits.add(Words.say("%s (LED %d)", signal.name(), start + 1));
      }
      if (endLed(signal) - start > most) {
        return "choose a slower rhythm, or LEDs that need less rest between refreshes";
      }
    }
    return splits.isEmpty()
        ? Words.say(
            "end the chain after LED %d: the LEDs behind it belong to no signal",
            signals.stream().mapToInt(SlowChain::endLed).max().orElseThrow())
        : Words.say(
            "begin a new chain at signal%s %s: each is then sent in time",
            splits.size() == 1 ? "" : "s", Words.list(splits));
  }

  private static Optional<Rhythm> fastestOf(Rulebook book, Alike alike) {
    Map<String, Rhythm> used = new HashMap<>();
    alike
        .kind()
        .states()
        .forEach(
            s ->
                s.lit()
                    .forEach(d -> book.rhythm(d.rhythm()).ifPresent(r -> used.put(r.name(), r))));
    return used.values().stream()
        .min(Comparator.comparingInt(SlowChain::shortest).thenComparing(Rhythm::name));
  }

  private static int shortest(Rhythm rhythm) {
    return Math.min(rhythm.litMillis(), rhythm.periodMillis() - rhythm.litMillis());
  }

  private Diagnostic report(Chain chain, Rhythm rhythm, List<Signal> signals) {
    double latch = chain.part().latchMicros() / 1000.0;
    double millis = refreshMicros(chain) / 1000;
    int used =
        signals.stream().flatMap(s -> s.units().stream()).mapToInt(u -> u.kind().leds()).sum();
    return finding(
            Severity.WARNING,
            chain.span(),
            Words.say(
                "chain %s takes %.1f ms to send, too long for %s, which lasts %d ms",
                chain.name(), millis, rhythm.name(), shortest(rhythm)))
        .label(chain.leds() + " LEDs of " + chain.part().channels() + " channels")
        .related(rhythm.span(), "the fastest rhythm on it")
        .fact(
            "of these",
            Words.say(
                "%.1f ms for %s of signals, %.1f ms for %d others, %.1f ms of rest",
                (millis - latch) * used / chain.leds(),
                Words.count(used, "LED"),
                (millis - latch) * (chain.leds() - used) / chain.leds(),
                chain.leds() - used,
                latch))
        .because(
            "a flash must last at least four refreshes, or its length wavers by more than a quarter");
  }
}
