package dev.doublet.layout.read;

import dev.doublet.layout.Prices;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads what parts cost. */
final class Pricing {
  private Pricing() {}

  /** What a layout says of prices. */
  static Prices read(Section layout, BookNames names, Complaints complaints) {
    Section said =
        layout.read(Keys.PRICES_OF, Keys.PRICES).orElse(Section.silent(layout.span(), complaints));
    SortedMap<String, Double> heads = new TreeMap<>();
    for (Takes.Named<Double> head : said.read(Keys.HEAD_PRICES).orElse(List.of())) {
      names
          .head(head.name())
          .flatMap(make -> head.value())
          .ifPresent(price -> heads.put(head.name().text(), price));
    }
    return new Prices(
        said.read(Keys.CURRENCY).map(s -> s.text()).orElse(""),
        said.read(Keys.LED_PRICE).orElse(0.0),
        said.read(Keys.PLATE_PRICE).orElse(0.0),
        said.read(Keys.METRE_PRICE).orElse(0.0),
        heads);
  }
}
