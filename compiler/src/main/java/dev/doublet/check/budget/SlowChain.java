package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.check.LayoutFacts;
import dev.doublet.check.LayoutFacts.Alike;
import dev.doublet.check.Words;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
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
      double millis = refreshMicros(chain) / 1000;
      if (millis * REFRESHES > shortest(fastest.get(chain))) {
        found.add(report(chain, millis, fastest.get(chain)));
      }
    }
    return found;
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
        .min(java.util.Comparator.comparingInt(SlowChain::shortest).thenComparing(Rhythm::name));
  }

  private static int shortest(Rhythm rhythm) {
    return Math.min(rhythm.litMillis(), rhythm.periodMillis() - rhythm.litMillis());
  }

  private Diagnostic report(Chain chain, double millis, Rhythm rhythm) {
    return finding(
            Severity.WARNING,
            chain.span(),
            Words.say(
                "chain %s takes %.1f ms to send, too long for %s, which lasts %d ms",
                chain.name(), millis, rhythm.name(), shortest(rhythm)))
        .label(chain.leds() + " LEDs of " + chain.part().channels() + " channels")
        .related(rhythm.span(), "the fastest rhythm on it")
        .because(
            "a flash must last at least four refreshes, or its length wavers by more than a quarter")
        .help("split the chain in two");
  }
}
