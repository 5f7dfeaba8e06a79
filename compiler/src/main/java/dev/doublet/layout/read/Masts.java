package dev.doublet.layout.read;

import dev.doublet.diagnostic.Datum;
import dev.doublet.layout.Mast;
import dev.doublet.rulebook.Form;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;

/** Reads what a signal says of its mast. */
final class Masts {
  private Masts() {}

  /**
   * The mast that a signal says, by the height of its top head or of each head, or the usual one.
   *
   * @return empty when it is wrong, which has been complained of
   */
  static Optional<Mast> read(Section said, Form form, Complaints complaints) {
    Optional<YamlNode.Entry> entry = said.entry(Keys.MAST);
    if (entry.isEmpty()) {
      return Optional.of(Mast.usual(form));
    }
    YamlNode value = entry.get().value();
    boolean listed = Keys.HEIGHTS.hasShapeOf(value);
    Optional<List<Double>> read =
        listed
            ? Keys.HEIGHTS.read(value, entry.get().key(), complaints)
            : said.read(Keys.MAST)
                .flatMap(v -> Keys.HEIGHT.read(v, entry.get().key(), complaints))
                .map(List::of);
    if (read.isEmpty()) {
      return Optional.empty();
    }
    List<Double> heights = read.get();
    String eachHead = "list the height of each head in metres, top to bottom: {places}.";
    Datum key = Datum.of("key", Keys.MAST.name());
    Datum heads = Datum.count("heads", form.places().size(), "head");
    Datum places = Datum.of("places", form.places());
    if (listed && heights.size() != form.places().size()) {
      complaints.wrong(
          "wrong-count",
          value.span(),
          "\"{key}\" has {heights}, but form {form} has {heads}",
          eachHead,
          key,
          Datum.count("heights", heights.size(), "height"),
          Datum.of("form", form.name()),
          heads,
          places);
      return Optional.empty();
    }
    Mast mast = listed ? new Mast(heights, heights.size()) : Mast.under(form, heights.get(0));
    if (!descends(mast.metres())) {
      complaints.wrong(
          "contradiction",
          value.span(),
          listed
              ? "\"{key}\" must not rise from a head to the next"
              : "a mast of {height} m is too low for {heads} as far apart as is usual",
          eachHead,
          key,
          Datum.of("height", value.span().text()),
          heads,
          places);
      return Optional.empty();
    }
    return Optional.of(mast);
  }

  /** True when no height is above the one before, and all are above the rail. */
  private static boolean descends(List<Double> heights) {
    for (int i = 1; i < heights.size(); i++) {
      if (heights.get(i) > heights.get(i - 1)) {
        return false;
      }
    }
    return heights.get(heights.size() - 1) > 0;
  }
}
