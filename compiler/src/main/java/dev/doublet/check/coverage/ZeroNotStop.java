package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import java.util.List;
import java.util.Optional;

/** A value 0 that calls up another aspect than the most restrictive one of a signal. */
public final class ZeroNotStop implements Check.OfLayout {

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    if (facts.layout().rulebook().mostRestrictive().isEmpty()) {
      return List.of();
    }
    List<Aspect> aspects = facts.layout().rulebook().aspects();
    return facts.kinds().stream().flatMap(alike -> report(alike, aspects).stream()).toList();
  }

  private Optional<Diagnostic> report(Alike alike, List<Aspect> aspects) {
    Kind kind = alike.kind();
    int state = kind.stateFor(0);
    boolean packet = kind.way() instanceof Way.AspectNumber;
    boolean unnumbered = kind.way() instanceof Way.Topic topic && topic.byName();
    if (unnumbered || state == kind.rest() || kind.states().isEmpty()) {
      return Optional.empty();
    }
    State rest = kind.states().get(kind.rest());
    if (state < 0) {
      return packet && kind.otherwise() == Kind.Otherwise.KEEP
          ? Optional.of(packetReport(alike, "leaves the present aspect", rest, aspects))
          : Optional.empty();
    }
    String does = "calls up \"" + kind.states().get(state).name() + '"';
    return Optional.of(
        packet
            ? packetReport(alike, does, rest, aspects)
            : otherReport(alike, does, rest, aspects));
  }

  private Diagnostic packetReport(Alike alike, String does, State rest, List<Aspect> aspects) {
    return numberZero(
        zeroReport(Severity.ERROR, alike, does, rest)
            .because(
                "value 0 of an extended accessory packet is the absolute stop", "NMRA S-9.2.1"),
        alike,
        rest,
        aspects);
  }

  /**
   * What makes 0 the most restrictive aspect of a signal, perhaps of a book that needs it for
   * another.
   */
  private static Diagnostic numberZero(
      Diagnostic said, Alike alike, State rest, List<Aspect> aspects) {
    Datum stop = Datum.of("most-restrictive", rest.name());
    Optional<String> taken =
        aspects.stream()
            .filter(a -> a.number() == 0)
            .map(Aspect::name)
            .filter(name -> !name.equals(rest.name()))
            .findFirst();
    if (taken.isEmpty()) {
      return said.help("give \"{most-restrictive}\" the number 0", stop);
    }
    Datum zero = Datum.of("number-zero", taken.get());
    boolean shown = alike.kind().states().stream().anyMatch(s -> s.name().equals(taken.get()));
    return said.help(
        shown
            ? "give \"{most-restrictive}\" the number 0, and \"{number-zero}\" another"
            : "write \"otherwise: most-restrictive\" for it: 0, the number of \"{number-zero}\", then"
                + " shows \"{most-restrictive}\"",
        stop,
        zero);
  }

  private Diagnostic otherReport(Alike alike, String does, State rest, List<Aspect> aspects) {
    String list = alike.kind().isWholeSignal() ? "\"aspects\"" : "\"shows\"";
    boolean outputs = alike.kind().way().addresses() > 0;
    Diagnostic said =
        zeroReport(Severity.WARNING, alike, does, rest)
            .about(Words.both(alike.names(), List.of(rest.name())))
            .because(
                outputs
                    ? "what a throttle or a command station sends before anybody sets it is most often"
                        + " the same side of every address (common practice)"
                    : "the same number then means the absolute stop on one bus (NMRA S-9.2.1) and"
                        + " something else on another");
    return outputs
        ? said.help(
            "say \"values\" with \"{most-restrictive}\" at 0, or name it first in " + list,
            Datum.of("most-restrictive", rest.name()))
        : numberZero(said, alike, rest, aspects);
  }

  private Diagnostic zeroReport(Severity severity, Alike alike, String does, State rest) {
    return finding(
            severity,
            alike.first().span(),
            Words.say("value 0 %s on %s, not \"%s\"", does, alike.words(), rest.name()))
        .words("signals", alike.names())
        .number("value", 0, "")
        .word("most-restrictive", rest.name())
        .words("aspects", alike.kind().states().stream().map(State::name).toList())
        .label("most restrictive: \"" + rest.name() + '"');
  }
}
