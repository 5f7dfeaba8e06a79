package dev.doublet.layout.read;

import dev.doublet.colour.Channel;
import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Die;
import dev.doublet.colour.LedFamily;
import dev.doublet.syntax.YamlNode;
import java.util.List;
import java.util.Optional;

/** What the dies of a kind of LED shine. */
final class Families {
  private static final String THREE = "one-wire-rgb-5050";
  private static final String FOUR = "one-wire-rgbw-5050-white-6500k";
  private static final double MOST_MCD = 100_000;

  private Families() {}

  /** The family of LEDs of which nobody says more. */
  static LedFamily plain(int channels) {
    return LedFamily.named(channels == 4 ? FOUR : THREE).orElseThrow();
  }

  /**
   * The family that a kind of LED names, with its measured dies in place of the maker's bins.
   *
   * @param order the order of its channels; empty when it does not say
   */
  static LedFamily read(Section said, String order, Complaints complaints) {
    LedFamily family = named(said, order, complaints);
    Optional<Section> measured = said.section("measured", Keys.MEASURED);
    for (YamlNode.Entry entry : measured.map(Section::own).orElse(List.of())) {
      for (Channel channel : Channel.values()) {
        if (channel.toString().equals(entry.key().text())) {
          family = measured(family, channel, entry, complaints);
        }
      }
    }
    return family;
  }

  private static LedFamily named(Section said, String order, Complaints complaints) {
    Optional<YamlNode.Scalar> name = said.scalar("family", "the name of a family of LEDs");
    LedFamily plain = plain(order.isEmpty() ? 3 : order.length());
    if (name.isEmpty()) {
      return plain;
    }
    Optional<LedFamily> family = LedFamily.named(name.get().text());
    if (family.isEmpty()) {
      complaints.unknownName(
          name.get(),
          "family of LEDs",
          LedFamily.published().stream().map(LedFamily::name).toList());
      return plain;
    }
    int dies = family.get().dies().size();
    if (!order.isEmpty() && order.length() != dies) {
      complaints.badValue(
          name.get().span(),
          "LEDs of this family have " + dies + " channels, but their order is " + order,
          "name another family, or write the order of " + dies + " channels.");
      return plain;
    }
    return family.get();
  }

  private static LedFamily measured(
      LedFamily family, Channel channel, YamlNode.Entry entry, Complaints complaints) {
    String name = channel.toString();
    if (channel.ordinal() >= family.dies().size()) {
      complaints.badValue(
          entry.key().span(),
          "LEDs of family " + family.name() + " have no " + name + " die",
          "delete it, or name the family that they are of.");
      return family;
    }
    if (!(entry.value() instanceof YamlNode.Mapping mapping)) {
      complaints.wrongType(entry.value(), name, "keys with values");
      return family;
    }
    Section die = Section.of(mapping, Keys.DIE, entry.key().span(), complaints);
    for (String key : Keys.DIE.words()) {
      if (!die.says(key)) {
        complaints.missingKey(
            entry.key().span(),
            "the measured " + name + " die has no \"" + key + "\"",
            "write all three, such as \"{x: 0.69, y: 0.31, mcd: 400}\".");
      }
    }
    Optional<Double> x = die.decimal("x", 1, false);
    Optional<Double> y = die.decimal("y", 1, false);
    Optional<Double> mcd = die.decimal("mcd", MOST_MCD, false);
    if (x.isEmpty() || y.isEmpty() || mcd.isEmpty()) {
      return family;
    }
    Chromaticity colour = new Chromaticity(x.get(), y.get());
    if (!colour.isOfLight()) {
      complaints.noLight(
          die.entry("x").orElseThrow().value().span(), die.entry("y").orElseThrow().value().span());
      return family;
    }
    return family.with(Die.measured(channel, colour, mcd.get()));
  }
}
