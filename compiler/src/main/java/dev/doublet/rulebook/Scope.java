package dev.doublet.rulebook;

import dev.doublet.syntax.Tree;
import dev.doublet.syntax.Word;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Every name that a rulebook declares, by kind, and what is wrong with it so far. */
final class Scope {
  final Mistakes mistakes = new Mistakes();
  final Names<Speed> speeds =
      new Names<>("speed", "declare it in a speeds block, with a figure or a rank", mistakes);
  final Names<Colour> colours = new Names<>("colour", "declare it in a colours block", mistakes);
  final Names<Rhythm> rhythms =
      new Names<>("rhythm", "declare it in a rhythms block, with its rate", mistakes);
  final Names<HeadType> heads = new Names<>("head", "declare it with its lamps", mistakes);
  final Names<Form> forms =
      new Names<>("form", "declare it, as in: form NAME { top, bottom }", mistakes);
  final Names<Plate> plates = new Names<>("plate", "declare it, as in: plate NAME", mistakes);

  /** What each declared name stands for, in words. */
  Map<String, String> kinds() {
    Map<String, String> kinds = new HashMap<>();
    for (Names<?> names : List.of(speeds, colours, rhythms, heads, forms, plates)) {
      names.all().forEach(name -> kinds.putIfAbsent(name, names.kind()));
    }
    return kinds;
  }

  /** A movement; one at an unknown speed is noted, and allows nothing known. */
  Movement movement(Tree.Movement tree) {
    if (tree.speed().isEmpty()) {
      return new Movement.Stop();
    }
    Optional<Speed> speed = speeds.find(tree.speed().get(0));
    if (speed.isEmpty()) {
      return new Movement.Unsaid();
    }
    return tree.stops() ? new Movement.StopThen(speed.get()) : new Movement.Proceed(speed.get());
  }

  /** Words without those that repeat an earlier one, which are noted. */
  List<Word> distinct(List<Word> words, String what) {
    Map<String, Word> distinct = new LinkedHashMap<>();
    for (Word word : words) {
      Word first = distinct.putIfAbsent(word.text(), word);
      if (first != null) {
        mistakes.duplicate(
            word.span(),
            "the " + what + " \"" + word.text() + "\" is listed twice",
            first.span(),
            "once is enough, so another one may be meant.",
            "remove one of the two.");
      }
    }
    return List.copyOf(distinct.values());
  }

  /** A whole number of a text, or the nearest that is allowed after noting that it is not. */
  int number(Word word, String what, int least, int most, String why) {
    String digits = word.text().replaceFirst("^0+(?=.)", "");
    int value = digits.length() > 9 ? Integer.MAX_VALUE : Integer.parseInt(digits);
    if (value >= least && value <= most) {
      return value;
    }
    mistakes.badValue(
        word.span(),
        what + " is from " + least + " to " + most + ", not " + word.text(),
        why,
        "write a whole number from " + least + " to " + most + ".");
    return value < least ? least : most;
  }
}
