package dev.doublet.page;

import dev.doublet.diagnostic.Words;
import dev.doublet.diff.Sight;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Pattern;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;

/**
 * One picture to be drawn: what a signal of some form puts up for a pattern.
 *
 * @param form the form
 * @param plates names of the plates that the pattern asks for
 * @param heads the make of head drawn at each place, top to bottom; empty where no make of the book
 *     shows what the place shows
 * @param displays what each head shows
 * @param words the pattern in words
 */
record SignalPicture(
    Form form,
    List<String> plates,
    List<Optional<HeadType>> heads,
    List<Display> displays,
    String words) {

  /** The picture of a pattern. */
  static SignalPicture of(Makes makes, Pattern pattern) {
    SignalPicture shown = of(makes, pattern.form(), pattern.shown());
    return new SignalPicture(
        shown.form(), pattern.plates(), shown.heads(), shown.displays(), pattern.words());
  }

  /** A picture of a form, without plates. */
  static SignalPicture of(Makes makes, Form form, List<Display> displays) {
    List<Optional<HeadType>> heads = new ArrayList<>();
    for (int place = 0; place < displays.size(); place++) {
      heads.add(makes.at(form, place, displays.get(place).look()));
    }
    return new SignalPicture(form, List.of(), List.copyOf(heads), displays, Display.over(displays));
  }

  /** The picture that a crew saw or sees. */
  static SignalPicture of(Makes makes, Sight sight) {
    List<Optional<HeadType>> heads = new ArrayList<>();
    for (int place = 0; place < sight.displays().size(); place++) {
      heads.add(
          sight.heads().isEmpty()
              ? makes.at(sight.form(), place, sight.displays().get(place).look())
              : Optional.of(sight.heads().get(place)));
    }
    return new SignalPicture(
        sight.form(), sight.plates(), List.copyOf(heads), sight.displays(), sight.words());
  }

  /** How the signal is built, in words: "two-head with grade and number plates". */
  String built() {
    return plates.isEmpty()
        ? form.name()
        : form.name() + " with " + Words.list(plates) + " " + Words.plural(plates.size(), "plate");
  }

  /** The picture in words: "two-head with number plate: yellow over red". */
  String describe() {
    return built() + ": " + words;
  }
}
