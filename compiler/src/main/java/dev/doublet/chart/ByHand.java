package dev.doublet.chart;

import dev.doublet.facts.Coding;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;

/**
 * In which order to throw the switches of a value by hand: slower than a signal settles, so that it
 * reads every number on the way.
 *
 * @param value what is called up so
 * @param addresses the switches, first to last
 * @param remaining what permits more than both ends on the way all the same
 */
record ByHand(int value, List<Integer> addresses, List<Coding.Passage> remaining) {

  /** Copies the lists. */
  ByHand {
    addresses = List.copyOf(addresses);
    remaining = List.copyOf(remaining);
  }

  /** Those values of a unit for which it matters; switches are else thrown as they are listed. */
  static List<ByHand> of(Unit unit) {
    List<ByHand> all = new ArrayList<>();
    if (unit.kind().way() instanceof Way.BinaryCoded way) {
      Coding coding = Coding.of(unit.kind());
      int last = way.addresses() - 1;
      List<Integer> listed =
          IntStream.rangeClosed(0, last).map(i -> way.lowFirst() ? i : last - i).boxed().toList();
      for (Answer answer : unit.kind().answers()) {
        boolean reached = answer.value() < 1 << way.addresses();
        if (reached && coding.harmful(answer.value(), listed) > 0) {
          Coding.Throwing best = coding.throwing(answer.value());
          List<Integer> addresses =
              best.bits().stream()
                  .map(b -> unit.command().addresses().get(listed.indexOf(b)))
                  .toList();
          all.add(new ByHand(answer.value(), addresses, best.remaining()));
        }
      }
    }
    return all;
  }

  /** " by hand, value 3: 41, then 40". */
  String words() {
    StringBuilder out = new StringBuilder("  thrown by hand, value " + value + ": ");
    out.append(String.join(", then ", addresses.stream().map(String::valueOf).toList()));
    for (Coding.Passage one : remaining) {
      out.append("; from ").append(one.from().name());
      out.append(" it passes ").append(one.through().name()).append(" all the same");
    }
    return out.append('\n').toString();
  }
}
