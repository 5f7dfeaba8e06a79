package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A signal that shows other aspects while the packets of one command arrive. */
public final class SettlingOff implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    return facts.kinds().stream()
        .filter(a -> a.kind().way() instanceof Way.BinaryCoded && a.kind().way().settle() == 0)
        .flatMap(alike -> report(alike).stream())
        .toList();
  }

  /** A change of value, and what shows on the way that permits more than both its ends. */
  private record Passage(State from, State to, State through) {
    @Override
    public String toString() {
      return Words.say(
          "from \"%s\" to \"%s\" through \"%s\"", from.name(), to.name(), through.name());
    }
  }

  private Optional<Diagnostic> report(Alike alike) {
    List<Passage> passages = passages(alike.kind());
    int changes = changes(alike.kind());
    if (passages.isEmpty()) {
      return Optional.empty();
    }
    Diagnostic said =
        finding(
                Severity.WARNING,
                alike.first().span(),
                Words.say(
                    "on %d of its %d changes %s passes %s",
                    passages.size(),
                    changes,
                    alike.words(),
                    alike.kind().isWholeSignal()
                        ? "an aspect that permits more than both ends"
                        : "a third display"))
            .about(alike.names())
            .label("settles at once")
            .words("signals", alike.names())
            .number("passing", passages.size(), "change")
            .number("changes", changes, "change");
    for (Passage passage : passages.subList(0, Math.min(passages.size(), 10))) {
      said = said.fact("passes", passage.toString());
    }
    return Optional.of(
        said.because(
                "the packets of one command arrive one after the other, and each is obeyed at once")
            .help(
                "take \"settle: 0\" away, so that it waits until all have come; or choose \"values\""
                    + " that differ in one bit"));
  }

  /** How many changes there are from one answered value to another. */
  private static int changes(Kind kind) {
    return kind.answers().size() * (kind.answers().size() - 1);
  }

  private static List<Passage> passages(Kind kind) {
    List<Passage> passages = new ArrayList<>();
    for (Answer from : kind.answers()) {
      for (Answer to : kind.answers()) {
        through(kind, from, to)
            .ifPresent(
                state ->
                    passages.add(
                        new Passage(
                            kind.states().get(from.state()),
                            kind.states().get(to.state()),
                            kind.states().get(state))));
      }
    }
    return passages;
  }

  /** The first state on the way, in whatever order the bits change, that permits too much. */
  private static Optional<Integer> through(Kind kind, Answer from, Answer to) {
    int changed = from.value() ^ to.value();
    for (int some = (changed - 1) & changed; some > 0; some = (some - 1) & changed) {
      int state = kind.stateFor(from.value() ^ some);
      if (state >= 0
          && permitsMore(kind, state, from.state())
          && permitsMore(kind, state, to.state())) {
        return Optional.of(state);
      }
    }
    return Optional.empty();
  }

  /** True when a state may permit more than another; of displays alone nobody knows. */
  private static boolean permitsMore(Kind kind, int state, int than) {
    State one = kind.states().get(state);
    State other = kind.states().get(than);
    return state != than
        && (one.aspect().isEmpty()
            || other.aspect().isEmpty()
            || !one.aspect()
                .get()
                .permission()
                .atLeastAsRestrictiveAs(other.aspect().get().permission()));
  }
}
