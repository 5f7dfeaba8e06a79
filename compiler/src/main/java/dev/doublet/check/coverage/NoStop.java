package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Tier;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.facts.LayoutFacts.Built;
import dev.doublet.layout.Kind;
import dev.doublet.layout.State;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/** A signal that cannot show its most restrictive aspect, or does not at value 0. */
public final class NoStop implements Check.OfLayout {

  @Override
  public Tier tier() {
    return Tier.MEANING;
  }

  @Override
  public Needs needs() {
    return Needs.BOOK;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    Rulebook book = facts.layout().rulebook();
    Optional<Aspect> stop = book.mostRestrictive();
    if (stop.isEmpty()) {
      return List.of(
          finding(
                  Severity.ERROR,
                  book.span(),
                  "no aspect of this rulebook is known to be the most restrictive")
              .because(
                  "signals show it at power-up, on a bad command and on a bad table (common practice: to fail safe)")
              .help("give one aspect \"allows stop\", or rank the speeds that stand in no order"));
    }
    List<Diagnostic> found = new ArrayList<>();
    for (Built built : facts.builds()) {
      List<Aspect> shown = built.build().aspects();
      if (!shown.isEmpty()) {
        restful(book, built, shown, stop.get()).ifPresent(found::add);
      }
    }
    for (Alike alike : facts.kinds()) {
      zero(alike).ifPresent(found::add);
    }
    return found;
  }

  private Optional<Diagnostic> restful(
      Rulebook book, Built built, List<Aspect> shown, Aspect stop) {
    if (Rulebook.mostRestrictive(shown).isEmpty()) {
      return Optional.of(
          finding(
                  Severity.ERROR,
                  built.first().span(),
                  Words.say(
                      "%s shows no aspect known to be more restrictive than all its others",
                      built.words()))
              .about(built.names())
              .words("signals", built.names())
              .label("shows " + Words.quoted(shown, Aspect::name))
              .because("it would not know what to show at power-up or on a bad command")
              .help(restfulAdvice(built, stop)));
    }
    if (mayLackStop(book, built) || shown.contains(stop)) {
      return Optional.empty();
    }
    return Optional.of(
        finding(
                Severity.WARNING,
                built.first().span(),
                Words.say(
                    "%s cannot show \"%s\", the most restrictive aspect of the book",
                    built.words(), stop.name()))
            .about(Words.both(built.names(), List.of(stop.name())))
            .words("signals", built.names())
            .word("stop", stop.name())
            .label("shows " + Words.quoted(shown, Aspect::name))
            .because(
                "a signal shows it at power-up, on a bad command and on a bad table (common practice: to fail safe)")
            .help(
                Words.say(
                    "add it to the signal's aspects; or, if such signals never show it, write \"without stop\" after form %s in the rulebook, or after the plate they carry",
                    built.build().form().name())));
  }

  private static String restfulAdvice(Built built, Aspect stop) {
    Form form = built.build().form();
    boolean shown = stop.patterns().stream().anyMatch(p -> p.form().equals(form));
    return shown
        ? Words.say("add \"%s\" to its aspects", stop.name())
        : Words.say(
            "write how form %s shows \"%s\" and add it to its aspects, or rank the speeds of those it has",
            form.name(), stop.name());
  }

  private static boolean mayLackStop(Rulebook book, Built built) {
    return built.build().form().withoutStop()
        || book.plates().stream()
            .anyMatch(p -> p.withoutStop() && built.build().plates().contains(p.name()));
  }

  private Optional<Diagnostic> zero(Alike alike) {
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
          ? Optional.of(packetReport(alike, "leaves the present aspect", rest))
          : Optional.empty();
    }
    String does = "calls up \"" + kind.states().get(state).name() + '"';
    return Optional.of(packet ? packetReport(alike, does, rest) : otherReport(alike, does, rest));
  }

  private Diagnostic packetReport(Alike alike, String does, State rest) {
    return zeroReport(Severity.ERROR, alike, does, rest)
        .because("value 0 of an extended accessory packet is the absolute stop", "NMRA S-9.2.1")
        .help("give \"" + rest.name() + "\" the number 0");
  }

  private Diagnostic otherReport(Alike alike, String does, State rest) {
    String list = alike.kind().isWholeSignal() ? "\"aspects\"" : "\"shows\"";
    boolean outputs = alike.kind().way().addresses() > 0;
    return zeroReport(Severity.WARNING, alike, does, rest)
        .about(Words.both(alike.names(), List.of(rest.name())))
        .because(
            outputs
                ? "what a throttle or a command station sends before anybody sets it is most often"
                    + " the same side of every address (common practice)"
                : "the same number then means the absolute stop on one bus (NMRA S-9.2.1) and"
                    + " something else on another")
        .help(
            outputs
                ? "say \"values\" with \"" + rest.name() + "\" at 0, or name it first in " + list
                : "give \"" + rest.name() + "\" the number 0");
  }

  private Diagnostic zeroReport(Severity severity, Alike alike, String does, State rest) {
    return finding(
            severity,
            alike.first().span(),
            Words.say("value 0 %s on %s, not \"%s\"", does, alike.words(), rest.name()))
        .words("signals", alike.names())
        .number("value", 0, "")
        .words("aspects", alike.kind().states().stream().map(State::name).toList())
        .label("most restrictive: \"" + rest.name() + '"');
  }
}
