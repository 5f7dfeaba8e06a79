package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.colour.Filament;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Glow;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Part;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Rhythm;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.Span;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;

/** A chain that takes too long to send for the fastest rhythm, fade or swing on it. */
public final class SlowChain implements Check.OfLayout {
  /**
   * A flash lasts at least this many refreshes, so that its length is off by a quarter at most, and
   * a fade takes as many steps; a choice of ours.
   */
  private static final int REFRESHES = 4;

  /** A lamp has gone out for the eye when so much of its light is left; a choice of ours. */
  private static final double OUT = 0.1;

  /** Milliseconds for which a swinging vane shows its middle colour. */
  private static final int MIDDLE = Glow.SWING / 3;

  /**
   * What must be seen on a chain.
   *
   * @param millis how long the shortest part of it lasts
   * @param words what that is, after "too long for"
   * @param span where it is said
   * @param label what it is, there
   * @param why what goes wrong when a chain is too slow
   */
  private record Need(int millis, String words, Span span, String label, String why) {}

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Map<Chain, Need> fastest = new IdentityHashMap<>();
    List<Chain> chains = new ArrayList<>();
    Rulebook book = facts.layout().rulebook();
    for (Alike alike : facts.kinds()) {
      Map<Part, Optional<Need>> needs = new IdentityHashMap<>();
      for (Unit unit : alike.units()) {
        Chain chain = unit.chain();
        Optional<Need> need =
            needs.computeIfAbsent(chain.part(), part -> fastestOf(book, alike.kind(), part));
        if (need.isPresent()) {
          if (!fastest.containsKey(chain)) {
            chains.add(chain);
          }
          fastest.merge(chain, need.get(), (a, b) -> a.millis() <= b.millis() ? a : b);
        }
      }
    }
    List<Diagnostic> found = new ArrayList<>();
    for (Chain chain : chains) {
      Need need = fastest.get(chain);
      if (chain.refreshMicros() / 1000 * REFRESHES > need.millis()) {
        List<Signal> signals = signals(facts, chain);
        found.add(
            report(chain, need, signals)
                .about(facts.names(chain))
                .help(help(chain, signals, need.millis() * 1000.0 / REFRESHES)));
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

  /**
   * What a kind needs on LEDs of a part: the fastest of its rhythms, and of how its lamps change.
   */
  private static Optional<Need> fastestOf(Rulebook book, Kind kind, Part part) {
    Map<String, Rhythm> used = new TreeMap<>();
    kind.states()
        .forEach(
            s ->
                s.lit()
                    .forEach(d -> book.rhythm(d.rhythm()).ifPresent(r -> used.put(r.name(), r))));
    List<Need> needs = new ArrayList<>();
    used.values().forEach(r -> needs.add(flash(r)));
    Set<String> passed = new TreeSet<>();
    kind.passedOn(part).forEach(passed::addAll);
    for (HeadType head : book.heads()) {
      if (kind.heads().contains(head.name()) && !kind.glows().isEmpty()) {
        change(head, passed).ifPresent(needs::add);
      }
    }
    return needs.stream().min(Comparator.comparingInt(Need::millis));
  }

  private static Need flash(Rhythm rhythm) {
    int lit = rhythm.litMillis();
    int shortest = Math.min(lit, rhythm.periodMillis() - lit);
    return new Need(
        shortest,
        Words.say("%s, which lasts %d ms", rhythm.name(), shortest),
        rhythm.span(),
        "the fastest rhythm on it",
        "a flash must last at least four refreshes, or its length wavers by more than a quarter");
  }

  private static Optional<Need> change(HeadType head, Set<String> passed) {
    if (head.filament()) {
      int fade = fade();
      return Optional.of(
          new Need(
              fade,
              Words.say("lamps that glow, which lose nine tenths of their light in %d ms", fade),
              head.span(),
              "its lamps glow",
              "a fade in fewer than four refreshes is seen as steps, where a firmware shows fades"));
    }
    return passed.contains(head.vane())
        ? Optional.of(
            new Need(
                MIDDLE,
                Words.say("a vane, which shows its middle colour for %d ms", MIDDLE),
                head.span(),
                "its vane swings",
                "a colour that is passed must last at least four refreshes, or its length wavers by"
                    + " more than a quarter"))
        : Optional.empty();
  }

  /**
   * Milliseconds until a lamp has gone out; to come on takes longer. Worked out only where a lamp
   * glows, as it takes the curve of a filament.
   */
  public static int fade() {
    int millis = 0;
    while (Filament.fall(millis) > OUT) {
      millis++;
    }
    return millis;
  }

  private Diagnostic report(Chain chain, Need need, List<Signal> signals) {
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
        .label(chain.leds() + " LEDs of " + chain.part().channels() + " channels")
        .related(need.span(), need.label())
        .word("chain", chain.name())
        .number("LEDs", chain.leds(), "")
        .measure("takes", millis, 1, "ms")
        .number("shortest", need.millis(), "ms")
        .measure("needed", need.millis() / (double) REFRESHES, 1, "ms")
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
                need.millis() / (double) REFRESHES,
                Words.count(chain.ledsSentIn(need.millis() * 1000.0 / REFRESHES), "LED")))
        .because(need.why());
  }
}
