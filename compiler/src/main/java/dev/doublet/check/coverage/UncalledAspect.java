package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Answer;
import dev.doublet.layout.State;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.List;

/** An aspect that a signal may show and that no command calls up. */
public final class UncalledAspect implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Alike alike : facts.kinds()) {
      Way way = alike.kind().way();
      boolean byName = way instanceof Way.Topic topic && topic.byName();
      if (!byName && !(way instanceof Way.Event)) {
        uncalled(alike).ifPresent(found::add);
      }
    }
    return found;
  }

  private java.util.Optional<Diagnostic> uncalled(Alike alike) {
    BitSet called = new BitSet();
    for (Answer answer : alike.kind().answers()) {
      called.set(answer.state());
    }
    List<State> uncalled = new ArrayList<>();
    for (int i = 0; i < alike.kind().states().size(); i++) {
      if (!called.get(i)) {
        uncalled.add(alike.kind().states().get(i));
      }
    }
    if (uncalled.isEmpty()) {
      return java.util.Optional.empty();
    }
    return java.util.Optional.of(
        finding(
                Severity.WARNING,
                alike.first().span(),
                Words.say(
                    "no command calls up %s on %s",
                    Words.quoted(uncalled, State::name), alike.words()))
            .about(Words.both(alike.names(), uncalled.stream().map(State::name).toList()))
            .label("commanded by " + alike.kind().way().word())
            .words("signals", alike.names())
            .words("aspects", uncalled.stream().map(State::name).toList())
            .because("the signal was given lamps for it and can never show it")
            .help("give it a value under \"values\", or take it off this signal's list"));
  }
}
