package dev.doublet.failure;

import dev.doublet.failure.Before.Sight;
import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * What faults leave to be seen, found by what heads show, as {@link PatternIndex} finds patterns:
 * each change to a pattern is held against many thousands of sights, and has a part in few.
 */
final class SightIndex {
  private final List<Sight> sights;
  private final Map<Form, Columns> byForm = new HashMap<>();

  /** The same without their dark heads, by form and how many are lit. */
  private final Map<Form, Map<Integer, Columns>> lit = new HashMap<>();

  SightIndex(Collection<Sight> sights) {
    this.sights = List.copyOf(sights);
    for (int i = 0; i < this.sights.size(); i++) {
      Sight sight = this.sights.get(i);
      byForm
          .computeIfAbsent(sight.form(), f -> new Columns(sight.seen().size()))
          .add(i, sight.seen());
      List<Glimpse> left = sight.seen().stream().filter(Glimpse::isLit).toList();
      lit.computeIfAbsent(sight.form(), f -> new HashMap<>())
          .computeIfAbsent(left.size(), Columns::new)
          .add(i, left);
    }
  }

  /** A sight by its number. */
  Sight get(int sight) {
    return sights.get(sight);
  }

  /** The numbers of all. */
  BitSet all() {
    BitSet all = new BitSet();
    all.set(0, sights.size());
    return all;
  }

  /** The numbers of those of a signal of some form. */
  BitSet of(Form form) {
    return byForm.containsKey(form) ? (BitSet) byForm.get(form).all.clone() : new BitSet();
  }

  /**
   * The numbers of those in which a pattern has a part: it may be what is lit, whatever dark heads
   * may hide, or what is lit alone.
   */
  BitSet concernedBy(Pattern pattern) {
    BitSet concerned = new BitSet();
    lit.forEach(
        (form, byNumber) -> {
          if (form.equals(pattern.form())) {
            concerned.or(byForm.get(form).canBe(pattern));
          } else if (Crew.mayBeTaken(form, pattern.form())
              && byNumber.containsKey(pattern.choices().size())) {
            concerned.or(byNumber.get(pattern.choices().size()).canBe(pattern));
          }
        });
    return concerned;
  }

  /** Sights of as many heads. */
  private static final class Columns {
    private final BitSet all = new BitSet();

    /** For each head, the sights where nothing lit can be read of it. */
    private final List<BitSet> unlit = new ArrayList<>();

    /** For each head and display, the sights where what is lit may be part of it. */
    private final List<Map<Display, BitSet>> maybe = new ArrayList<>();

    Columns(int heads) {
      for (int head = 0; head < heads; head++) {
        unlit.add(new BitSet());
        maybe.add(new HashMap<>());
      }
    }

    void add(int sight, List<Glimpse> seen) {
      all.set(sight);
      for (int head = 0; head < seen.size(); head++) {
        if (!seen.get(head).isLit()) {
          unlit.get(head).set(sight);
        }
        for (Display display : seen.get(head).maybe()) {
          maybe.get(head).computeIfAbsent(display, d -> new BitSet()).set(sight);
        }
      }
    }

    BitSet canBe(Pattern pattern) {
      BitSet left = (BitSet) all.clone();
      for (int head = 0; head < unlit.size(); head++) {
        Choice choice = pattern.choices().get(head);
        if (!choice.isAny()) {
          BitSet here = (BitSet) unlit.get(head).clone();
          for (Display display : choice.displays()) {
            BitSet showing = maybe.get(head).get(display);
            if (showing != null) {
              here.or(showing);
            }
          }
          left.and(here);
        }
      }
      return left;
    }
  }
}
