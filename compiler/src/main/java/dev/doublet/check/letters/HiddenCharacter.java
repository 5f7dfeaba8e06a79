package dev.doublet.check.letters;

import dev.doublet.check.Check;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.diagnostic.Words;
import dev.doublet.source.SourceFile;
import dev.doublet.source.Visible;
import java.util.ArrayList;
import java.util.List;

/** A character that nobody sees, or that turns the order of others round. */
public final class HiddenCharacter implements Check.OfTexts {
  private static final int MOST_SHOWN = 5;
  private static final int NON_JOINER = 0x200C;
  private static final int JOINER = 0x200D;
  private static final int TEXT_SHAPE = 0xFE0E;
  private static final int EMOJI_SHAPE = 0xFE0F;

  @Override
  public List<Diagnostic> find(List<SourceFile> texts) {
    return texts.stream()
        .map(HiddenCharacter::places)
        .filter(p -> !p.isEmpty())
        .map(this::of)
        .toList();
  }

  /** A hidden character of a text. */
  private record Place(SourceFile file, int index) {
    int character() {
      return file.text().codePointAt(index);
    }

    int end() {
      return index + Character.charCount(character());
    }
  }

  private static List<Place> places(SourceFile file) {
    List<Place> places = new ArrayList<>();
    String text = file.text();
    for (int i = 0; i < text.length(); i += Character.charCount(text.codePointAt(i))) {
      // What lies below is told of by whoever reads the text.
      if (text.charAt(i) >= 0xA0) {
        Place place = new Place(file, i);
        if (isHidden(place)) {
          places.add(place);
        }
      }
    }
    return places;
  }

  private static boolean isHidden(Place place) {
    int character = place.character();
    if (Lookalikes.isBlank(character)) {
      return isLetter(before(place)) && isLetter(after(place));
    }
    boolean shapes =
        character >= NON_JOINER && character <= JOINER
            || character >= TEXT_SHAPE && character <= EMOJI_SHAPE;
    // Persian, the scripts of India and emoji are written with these.
    return Visible.isHidden(character) && !(shapes && before(place) > Lookalikes.LATIN);
  }

  private static boolean isLetter(int character) {
    return Character.isLetter(character);
  }

  private static int before(Place place) {
    return place.index() == 0 ? ' ' : place.file().text().codePointBefore(place.index());
  }

  private static int after(Place place) {
    String text = place.file().text();
    return place.end() == text.length() ? ' ' : text.codePointAt(place.end());
  }

  private Diagnostic of(List<Place> places) {
    Place first = places.get(0);
    String message =
        places.size() == 1
            ? "here stands a character that nobody sees"
            : Words.count(places.size(), "character") + " stand here that nobody sees";
    Diagnostic diagnostic =
        finding(Severity.ERROR, first.file().span(first.index(), first.end()), message)
            .label(number(first))
            .number("found", places.size(), "character")
            .words("characters", places.stream().map(HiddenCharacter::number).distinct().toList());
    for (Place place : places.subList(1, Math.min(places.size(), MOST_SHOWN))) {
      diagnostic = diagnostic.related(place.file().span(place.index(), place.end()), number(place));
    }
    if (places.size() > MOST_SHOWN) {
      diagnostic =
          diagnostic.fact("not shown", (places.size() - MOST_SHOWN) + " more in this file");
    }
    return diagnostic
        .because(
            "two names that look the same would be two, and a reviewer reads another text than Doublet does")
        .help("delete it, or write a plain blank");
  }

  private static String number(Place place) {
    return Words.say("U+%04X", place.character());
  }
}
