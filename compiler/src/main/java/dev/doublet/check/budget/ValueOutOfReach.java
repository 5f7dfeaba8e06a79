package dev.doublet.check.budget;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;

/** A command value that the bus or the mode of command cannot carry. */
public final class ValueOutOfReach implements Check.OfLayout {

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    List<Diagnostic> found = new ArrayList<>();
    for (Alike alike : facts.kinds()) {
      List<Answer> beyond =
          alike.capacity() == 0
              ? List.of()
              : alike.kind().answers().stream().filter(a -> a.value() >= alike.capacity()).toList();
      if (!beyond.isEmpty()) {
        found.add(report(alike, beyond));
      }
    }
    return found;
  }

  private Diagnostic report(Alike alike, List<Answer> beyond) {
    Kind kind = alike.kind();
    List<String> rows = beyond.stream().map(a -> a.value() + " " + stateOf(kind, a)).toList();
    return finding(
            Severity.ERROR,
            alike.first().span(),
            Words.say(
                "%s cannot be sent %s",
                alike.words(),
                Words.plural(beyond.size(), "value")
                    + " "
                    + Words.numbers(beyond.stream().map(Answer::value).toList())))
        .about(Words.both(alike.names(), beyond.stream().map(a -> stateOf(kind, a)).toList()))
        .label(
            carries(alike),
            Datum.of("bus", alike.bus().name()),
            Datum.of("way", kind.way().word()),
            Datum.count("bits", alike.bus().aspectBits(), "bit"),
            Datum.count("addresses", kind.way().addresses(), "address"),
            Datum.of("least", 0),
            Datum.of("last", alike.capacity() - 1))
        .words("signals", alike.names())
        .word("bus", alike.bus().name())
        .numbers("values", beyond.stream().map(Answer::value).toList())
        .number("carried", alike.capacity(), "value")
        .fact("out of reach", Words.list(rows))
        .because("the aspects behind these values can never be called up")
        .help(
            advice(alike),
            Datum.of("most", alike.kind().way() instanceof Way.AspectNumber ? 255 : 4));
  }

  private static String stateOf(Kind kind, Answer answer) {
    return kind.states().get(answer.state()).name();
  }

  private static String carries(Alike alike) {
    return alike.kind().way() instanceof Way.AspectNumber
        ? "bus {bus} carries {bits}: values {least} to {last}"
        : "{way} carries values {least} to {last} over {addresses}";
  }

  private static String advice(Alike alike) {
    if (alike.kind().way() instanceof Way.AspectNumber) {
      return alike.bus().aspectBits() == 5
          ? "if the system on this bus sends all 8 bits, say \"aspect-bits: 8\"; else give the signal other \"values\""
          : "give the signal \"values\" up to {most}";
    }
    return alike.kind().way() instanceof Way.BinaryCoded
        ? "take more \"bits\" (up to {most}), or list fewer aspects"
        : "take more addresses, or list fewer aspects";
  }
}
