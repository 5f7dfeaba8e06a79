package dev.doublet.check.coverage;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.facts.Coding;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.LayoutFacts.Alike;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** A binary-coded signal that one lost packet can leave at an aspect that permits too much. */
public final class LostPacket implements Check.OfLayout {
  private static final int SHOWN = 10;
  private static final int MOST_ADDRESSES = 4;

  @Override
  public boolean givesOnlyNotes() {
    return true;
  }

  @Override
  public List<Diagnostic> find(LayoutFacts facts) {
    return facts.kinds().stream()
        .filter(a -> a.kind().way() instanceof Way.BinaryCoded)
        .flatMap(alike -> report(alike).stream())
        .toList();
  }

  private Optional<Diagnostic> report(Alike alike) {
    Kind kind = alike.kind();
    Coding coding = Coding.of(kind);
    List<Coding.Passage> lost = coding.lost();
    if (lost.isEmpty()) {
      return Optional.empty();
    }
    Diagnostic said =
        finding(
                Severity.NOTE,
                alike.first().span(),
                Words.say(
                    "%s, lost alone, %s %s at %s",
                    Words.count(lost.size(), "packet"),
                    lost.size() == 1 ? "leaves" : "leave",
                    alike.words(),
                    kind.isWholeSignal()
                        ? "an aspect that permits more than both ends"
                        : "a third display"))
            .words("signals", alike.names())
            .number("lost", lost.size(), "packet");
    for (Coding.Passage one : lost.subList(0, Math.min(lost.size(), SHOWN))) {
      said =
          said.fact(
              "lost",
              Words.say(
                  "from \"%s\" to \"%s\" without bit %d reads \"%s\"",
                  one.from().name(), one.to().name(), one.bit(), one.through().name()));
    }
    return Optional.of(
        said.because(
                "a packet that is lost leaves its bit at the old value until the command is sent"
                    + " again")
            .ways(ways(kind, coding, lost.size())));
  }

  /**
   * The same addresses numbered otherwise, then each further one that leaves fewer, until none are.
   */
  private static List<String> ways(Kind kind, Coding coding, int losses) {
    List<String> ways = new ArrayList<>();
    int addresses = kind.way().addresses();
    int fewest = losses;
    for (int on = addresses; on <= MOST_ADDRESSES && fewest > 0; on++) {
      if (kind.states().size() > 1 << on) {
        continue;
      }
      Coding.Numbering numbering = coding.fewest(on);
      if (numbering.losses() < fewest) {
        fewest = numbering.losses();
        String take = on == addresses ? "" : "take " + Words.count(on, "address") + " and ";
        ways.add(take + written(kind, numbering) + ", which leaves " + left(numbering));
      }
    }
    return ways.isEmpty() ? List.of("nothing: no numbering was found that leaves fewer") : ways;
  }

  private static String left(Coding.Numbering numbering) {
    if (numbering.losses() == 0) {
      return "none";
    }
    return numbering.losses()
        + (numbering.losses() == numbering.least()
            ? ", the fewest there can be"
            : ", the fewest that were found; none leaves fewer than " + numbering.least());
  }

  private static String written(Kind kind, Coding.Numbering numbering) {
    Map<Integer, String> values = new TreeMap<>();
    for (int state = 0; state < numbering.values().size(); state++) {
      values.put(numbering.values().get(state), kind.states().get(state).name());
    }
    return "write values: "
        + values.entrySet().stream()
            .map(v -> v.getKey() + ": \"" + v.getValue() + "\"")
            .collect(Collectors.joining(", ", "{", "}"));
  }
}
