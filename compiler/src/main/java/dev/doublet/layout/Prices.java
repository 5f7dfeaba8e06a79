package dev.doublet.layout;

import dev.doublet.rulebook.Rulebook;
import dev.doublet.syntax.YamlNode;
import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;

/**
 * What parts cost, each in the same currency; 0 when not said.
 *
 * @param currency as the layout writes it; may be empty
 * @param led one LED
 * @param plate one plate
 * @param metre one metre of cable
 * @param heads one head, by make
 */
public record Prices(
    String currency, double led, double plate, double metre, SortedMap<String, Double> heads) {
  private static final double MOST = 1_000_000;

  /** Copies the map. */
  public Prices {
    heads = Collections.unmodifiableSortedMap(new TreeMap<>(heads));
  }

  /** True when any price was said. */
  public boolean areSaid() {
    return led > 0 || plate > 0 || metre > 0 || !heads.isEmpty();
  }

  /** What a layout says of prices. */
  static Prices read(Section layout, Rulebook book, Complaints complaints) {
    Section said =
        layout.section("prices", Keys.PRICES).orElse(Section.silent(layout.place(), complaints));
    List<String> makes = book.heads().stream().map(h -> h.name()).toList();
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
