package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/** A command value that the bus can carry, that calls up nothing, and of which nothing is said. */
public final class UnansweredCommand implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Alike alike : facts.kinds()) {
      Kind kind = alike.kind();
      if (kind.otherwise() != Kind.Otherwise.UNSAID || kind.states().isEmpty()) {
        continue;
      }
      List<Integer> unanswered =
          IntStream.range(0, alike.capacity()).filter(v -> kind.stateFor(v) < 0).boxed().toList();
      if (!unanswered.isEmpty()) {
        found.add(report(alike, values(unanswered)));
      } else if (kind.way() instanceof Way.Topic topic) {
        found.add(report(alike, "any payload that is no " + (topic.byName() ? "name" : "number")));
      }
    }
    return found;
  }

  private static String values(List<Integer> unanswered) {
    return Words.plural(unanswered.size(), "value") + " " + Words.numbers(unanswered);
  }

  private Diagnostic report(Alike alike, String what) {
    return finding(
            Severity.WARNING,
            alike.first().span(),
            Words.say("%s has no answer to %s", alike.words(), what))
        .label("commanded by " + alike.kind().way().word() + " on bus " + alike.bus().name())
        .fact("calls up nothing", what)
        .words("signals", alike.names())
        .word("bus", alike.bus().name())
        .word("unanswered", what)
        .because(
            "a throttle can send it; unless the layout says what happens, the next reader of this file has to guess")
        .help(
            "say \"otherwise: most-restrictive\" (or \"keep\", as MOROP NEM 672 has it) for the layout, the kind or the signal");
  }
}
