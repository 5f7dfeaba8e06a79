package dev.doublet.failure;

import dev.doublet.rulebook.Choice;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Reading;
import dev.doublet.rulebook.Reading.Reads;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.BitSet;
import java.util.Collection;
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

  private PatternIndex(int heads, List<Reads> patterns) {
    this.patterns = List.copyOf(patterns);
    for (int head = 0; head < heads; head++) {
      named.add(new HashMap<>());
      anything.add(new BitSet());
      for (int i = 0; i < patterns.size(); i++) {
        add(head, i);
      }
    }
  }

  /** Another index with other patterns in some places. */
  private PatternIndex(PatternIndex like, List<Reads> patterns, BitSet changed) {
    this.patterns = List.copyOf(patterns);
    for (int head = 0; head < like.named.size(); head++) {
      Map<Display, BitSet> byDisplay = new HashMap<>();
      like.named.get(head).forEach((display, its) -> byDisplay.put(display, without(its, changed)));
      named.add(byDisplay);
      anything.add(without(like.anything.get(head), changed));
      int at = head;
      changed.stream().forEach(i -> add(at, i));
    }
  }

  private static BitSet without(BitSet some, BitSet others) {
    BitSet left = (BitSet) some.clone();
    left.andNot(others);
    return left;
  }

  private void add(int head, int pattern) {
    Choice choice = patterns.get(pattern).pattern().choices().get(head);
    if (choice.isAny()) {
      anything.get(head).set(pattern);
    }
    for (Display display : choice.displays()) {
      named.get(head).computeIfAbsent(display, d -> new BitSet()).set(pattern);
    }
  }

  /** The patterns of a form of a book. */
  static PatternIndex of(Rulebook book, Form form) {
    return new PatternIndex(form.places().size(), Reading.on(book, form));
  }

  /** The same with other patterns in place of some. */
  PatternIndex with(Map<Pattern, Reads> changed) {
    List<Reads> then = new ArrayList<>(patterns);
    BitSet places = new BitSet();
    for (int i = 0; i < then.size(); i++) {
      Reads now = changed.get(then.get(i).pattern());
      if (now != null) {
        then.set(i, now);
        places.set(i);
      }
    }
    return places.isEmpty() ? this : new PatternIndex(this, then, places);
  }

  /** How many heads the form has. */
  int heads() {
    return named.size();
  }

  /** True when some pattern accepts anything at a head. */
  boolean hasAny(int head) {
    return !anything.get(head).isEmpty();
  }

  /** All of them, in the order of the book. */
  List<Reads> patterns() {
    return patterns;
  }

  /** Those that cover a picture, whatever the plates. */
  List<Reads> covering(List<Display> picture) {
    return accepting(picture.stream().map(List::of).toList());
  }

  /** Those that share some picture with a pattern of as many heads, whatever the plates. */
  List<Reads> meeting(Pattern pattern) {
    return accepting(pattern.choices().stream().map(Choice::displays).toList());
  }

  /** Everything that a picture means on a signal with some plates: {@link Reading#of}. */
  List<Reads> meanings(Collection<String> plates, List<Display> picture) {
    return Reading.of(covering(picture), plates, picture);
  }

  /** Those that may be what a crew sees, whatever the plates and whatever dark heads may hide. */
  List<Reads> fitting(List<Glimpse> seen) {
    return accepting(seen.stream().map(g -> g.isLit() ? g.maybe() : List.<Display>of()).toList());
  }

  /**
   * Those that accept one of some displays at each head; a head without displays is passed over, as
   * one that may show anything.
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
