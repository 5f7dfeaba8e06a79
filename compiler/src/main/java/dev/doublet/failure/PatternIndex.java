package dev.doublet.failure;

import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;

/**
 * The patterns of one form, found by what heads show: a book of hundreds of aspects is read for
 * many thousands of pictures, and few of its patterns have a part in any of them.
 */
public final class PatternIndex {
  private static final BitSet NONE = new BitSet();

  private final List<Reads> patterns;

  /** For each head and display, the patterns that accept it by its name. */
  private final List<Map<Display, BitSet>> named = new ArrayList<>();

  /** For each head, the patterns that accept anything. */
  private final List<BitSet> anything = new ArrayList<>();

  private PatternIndex(Form form, List<Reads> patterns) {
    this.patterns = List.copyOf(patterns);
    for (int head = 0; head < form.places().size(); head++) {
      Map<Display, BitSet> byDisplay = new HashMap<>();
      BitSet all = new BitSet();
      for (int i = 0; i < patterns.size(); i++) {
        Choice choice = patterns.get(i).pattern().choices().get(head);
        if (choice.isAny()) {
          all.set(i);
        }
        for (Display display : choice.displays()) {
          byDisplay.computeIfAbsent(display, d -> new BitSet()).set(i);
        }
      }
      named.add(byDisplay);
      anything.add(all);
    }
  }

  /** The patterns of a form of a book. */
  static PatternIndex of(Rulebook book, Form form) {
    return new PatternIndex(form, Reading.on(book, form));
  }

  /** All of them, in the order of the book. */
  List<Reads> patterns() {
    return patterns;
  }

  /** Those that cover a picture, whatever the plates. */
  List<Reads> covering(List<Display> picture) {
    return accepting(picture.stream().map(List::of).toList());
  }

  /** Those that may be what a crew sees, whatever the plates and whatever dark heads may hide. */
  List<Reads> fitting(List<Glimpse> seen) {
    return accepting(seen.stream().map(g -> g.isLit() ? g.maybe() : List.<Display>of()).toList());
  }

  /**
   * Those that accept one of some displays at each head; a head without displays is passed over.
   */
  private List<Reads> accepting(List<List<Display>> displays) {
    BitSet left = new BitSet();
    left.set(0, patterns.size());
    for (int head = 0; head < displays.size(); head++) {
      if (!displays.get(head).isEmpty()) {
        BitSet here = (BitSet) anything.get(head).clone();
        for (Display display : displays.get(head)) {
          here.or(named.get(head).getOrDefault(display, NONE));
        }
        left.and(here);
      }
    }
    return left.stream().mapToObj(patterns::get).toList();
  }
}
