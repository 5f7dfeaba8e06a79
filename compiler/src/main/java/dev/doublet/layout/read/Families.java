package dev.doublet.layout.read;

import dev.doublet.colour.Channel;
import dev.doublet.colour.Chromaticity;
import dev.doublet.colour.Die;
import dev.doublet.colour.LedFamily;
import dev.doublet.diagnostic.Datum;
import dev.doublet.syntax.YamlNode;
import java.util.Optional;

/** What the dies of a kind of LED shine. */
final class Families {
  private static final String THREE = "one-wire-rgb-5050";
  private static final String FOUR = "one-wire-rgbw-5050-white-6500k";

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
    Optional<Section> measured = said.read(Keys.MEASURED_OF, Keys.MEASURED);
    for (Channel channel : Channel.values()) {
      if (measured.isPresent() && measured.get().says(Keys.DIES.get(channel))) {
        family = measured(family, channel, measured.get(), complaints);
      }
    }
    return family;
  }

  private static LedFamily named(Section said, String order, Complaints complaints) {
    LedFamily plain = plain(order.isEmpty() ? 3 : order.length());
    Optional<LedFamily> family = said.read(Keys.FAMILY);
    if (family.isEmpty()) {
      return plain;
    }
    int dies = family.get().dies().size();
    if (!order.isEmpty() && order.length() != dies) {
      complaints.wrong(
          "contradiction",
          said.at(Keys.FAMILY),
          "LEDs of this family have {channels} channels, but their order is {order}",
          "name another family, or write the order of {channels} channels.",
          Datum.of("channels", dies),
          Datum.of("order", order));
      return plain;
    }
    return family.get();
  }

  private static LedFamily measured(
      LedFamily family, Channel channel, Section measured, Complaints complaints) {
    Key<YamlNode.Mapping> key = Keys.DIES.get(channel);
    if (channel.ordinal() >= family.dies().size()) {
      complaints.wrong(
          "contradiction",
          measured.entry(key).orElseThrow().key().span(),
          "LEDs of family {family} have no {die} die",
          "delete it, or name the family that they are of.",
          Datum.of("family", family.name()),
          Datum.of("die", key.name()));
      return family;
    }
    Optional<Section> read = measured.read(key, Keys.DIE);
    if (read.isEmpty()) {
      return family;
    }
    Section die = read.get();
    Optional<Double> x = die.read(Keys.X);
    Optional<Double> y = die.read(Keys.Y);
    Optional<Double> mcd = die.read(Keys.MCD);
    if (x.isEmpty() || y.isEmpty() || mcd.isEmpty()) {
      return family;
    }
    Chromaticity colour = new Chromaticity(x.get(), y.get());
    if (!colour.isOfLight()) {
      complaints.add(Misfit.light(die.at(Keys.X), die.at(Keys.Y)));
      return family;
    }
    return family.with(Die.measured(channel, colour, mcd.get()));
  }
}
