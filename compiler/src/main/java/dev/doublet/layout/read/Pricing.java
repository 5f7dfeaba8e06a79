package dev.doublet.layout.read;

import dev.doublet.layout.Prices;
import dev.doublet.rulebook.HeadType;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/** Reads what parts cost. */
final class Pricing {
  private static final double MOST = 1_000_000;

  private Pricing() {}

  /** What a layout says of prices. */
  static Prices read(Section layout, Rulebook book, Complaints complaints) {
    Section said =
        layout.section("prices", Keys.PRICES).orElse(Section.silent(layout.place(), complaints));
    List<String> makes = book.heads().stream().map(HeadType::name).toList();
    SortedMap<String, Double> heads = new TreeMap<>();
    for (YamlNode.Entry head :
        said.mapping("head").map(YamlNode.Mapping::entries).orElse(List.of())) {
      if (!makes.contains(head.key().text())) {
        complaints.unknownName(head.key(), "head", makes);
      } else {
        said.decimal(head.value(), head.key().text(), MOST, true)
            .ifPresent(price -> heads.put(head.key().text(), price));
      }
    }
    return new Prices(
        said.scalar("currency", "a word").map(YamlNode.Scalar::text).orElse(""),
        said.decimal("led", MOST, true).orElse(0.0),
        said.decimal("plate", MOST, true).orElse(0.0),
        said.decimal("metre", MOST, true).orElse(0.0),
        heads);
  }
}
