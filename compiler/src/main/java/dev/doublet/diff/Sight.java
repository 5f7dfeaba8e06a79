package dev.doublet.diff;

import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import dev.doublet.rulebook.Rulebook;
import java.util.List;

/**
 * What a crew sees, to be drawn.
 *
 * @param book the version of the rulebook whose colours and rhythms these are
 * @param form the form of the signal
 * @param plates names of its plates
 * @param heads the makes of its heads, top to bottom; empty where no layout says them
 * @param displays what each head shows
 */
public record Sight(
    Rulebook book, Form form, List<String> plates, List<HeadType> heads, List<Display> displays) {

  /** Copies the lists. */
  public Sight {
    plates = List.copyOf(plates);
    heads = List.copyOf(heads);
    displays = List.copyOf(displays);
  }

  /** What a signal of some form puts up for a pattern. */
  static Sight of(Rulebook book, Pattern pattern) {
    return new Sight(book, pattern.form(), pattern.plates(), List.of(), pattern.shown());
  }

  /** In words: "yellow over red". */
  public String words() {
    return Display.over(displays);
  }
}
