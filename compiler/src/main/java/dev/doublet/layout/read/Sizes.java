package dev.doublet.layout.read;

import dev.doublet.colour.Seeing;
import dev.doublet.layout.Size;
import dev.doublet.rulebook.Form;
import dev.doublet.rulebook.Mount;
import dev.doublet.syntax.YamlNode;
import java.util.Optional;

/** Reads how large signals are: what the layout says for all, and what a signal says of itself. */
final class Sizes {
  private final Section layout;
  private final double scale;
  private final Complaints complaints;

  private Sizes(Section layout, double scale, Complaints complaints) {
    this.layout = layout;
    this.scale = scale;
    this.complaints = complaints;
  }

  /** What a layout says for signals that say nothing. */
  static Sizes read(Section layout, Complaints complaints) {
    double scale =
        layout.maySay(Keys.SCALE)
            ? ratio(layout, complaints).orElse(Double.NaN)
            : Keys.SCALES.meanings().get("HO");
    Sizes sizes = new Sizes(layout, scale, complaints);
    sizes.isSaidOnce(layout);
    return sizes;
  }

  /** The layout's ratio; no number when it could not be read. */
  double scale() {
    return scale;
  }

  /** The size of a signal; empty when what it says of it is wrong. */
  Optional<Size> of(Section said, Form form) {
    boolean own = said.says(Keys.SCALE);
    Optional<Double> ratio = own ? ratio(said, complaints) : Optional.of(scale);
    if (!isSaidOnce(said) || ratio.isEmpty()) {
      return Optional.empty();
    }
    double usual = form.mount() == Mount.DWARF ? Seeing.DWARF_LENS : Seeing.LENS;
    double lens = lens(said, ratio.get()).or(() -> lens(layout, ratio.get())).orElse(usual);
    return Optional.of(new Size(ratio.get(), own, lens, said.read(Keys.FIBRE).orElse(0.0)));
  }

  /** Millimetres at full size; a signal's own word goes before its kind's, however it says it. */
  private static Optional<Double> lens(Section said, double ratio) {
    Optional<Double> onModel = said.read(Keys.MODEL_LENS).map(mm -> mm * ratio);
    Optional<Double> fullSize = said.read(Keys.LENS);
    return said.ownSays(Keys.MODEL_LENS) || !said.says(Keys.LENS) ? onModel : fullSize;
  }

  private boolean isSaidOnce(Section said) {
    boolean twice =
        said.says(Keys.LENS)
            && said.says(Keys.MODEL_LENS)
            && said.holder(Keys.LENS) == said.holder(Keys.MODEL_LENS);
    if (twice) {
      complaints.wrong(
          "contradiction",
          said.entry(Keys.MODEL_LENS).orElseThrow().key().span(),
          "the width of a lens is said twice, as \"lens\" and as \"model-lens\"",
          "keep one of them: \"lens\" at full size, \"model-lens\" as it is on the model.");
    }
    return !twice;
  }

  private static Optional<Double> ratio(Section said, Complaints complaints) {
    if (!(said.read(Keys.SCALE).orElse(null) instanceof YamlNode.Scalar scale)) {
      return Optional.empty();
    }
    Optional<Double> ratio = Keys.SCALES.parse(scale).or(() -> Keys.RATIO.parse(scale));
    if (ratio.isEmpty()) {
      complaints.add(Misfit.scale(scale));
    }
    return ratio;
  }
}
