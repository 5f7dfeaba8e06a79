package dev.doublet.layout.read;

import dev.doublet.layout.Prices;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Rulebook;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads what parts cost. */
final class Pricing {
  private Pricing() {}

  /** What a layout says of prices. */
  static Prices read(Section layout, Rulebook book, Complaints complaints) {
    Section said =
        layout.read(Keys.PRICES_OF, Keys.PRICES).orElse(Section.silent(layout.span(), complaints));
    List<String> makes = book.heads().stream().map(HeadType::name).toList();
    SortedMap<String, Double> heads = new TreeMap<>();
    for (Takes.Named<Double> head : said.read(Keys.HEAD_PRICES).orElse(List.of())) {
      if (makes.contains(head.name().text())) {
        head.value().ifPresent(price -> heads.put(head.name().text(), price));
      } else {
        complaints.unknownName(head.name(), "head", makes);
      }
    }
    return new Prices(
        said.read(Keys.CURRENCY).map(s -> s.text()).orElse(""),
        said.read(Keys.LED_PRICE).orElse(0.0),
        said.read(Keys.PLATE_PRICE).orElse(0.0),
        said.read(Keys.METRE_PRICE).orElse(0.0),
        heads);
  }
}
