package dev.doublet.diff;

import dev.doublet.bus.Accessory;
import dev.doublet.bus.EventId;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Command;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Feed;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Mast;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Size;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import java.util.List;
import java.util.stream.Collectors;

/** What a signal is, shows and listens to, in the words that stand on both sides of a change. */
final class SignalWords {
  private SignalWords() {}

  static String heads(Signal.Build build, Terms termsOrNull) {
    return build.heads().stream()
        .map(HeadType::name)
        .map(name -> termsOrNull == null ? name : termsOrNull.head(name))
        .collect(Collectors.joining(", "));
  }

  static String wired(Signal.Build build) {
    return build.wired().stream()
        .map(i -> build.form().places().get(i))
        .collect(Collectors.joining(", "));
  }

  /** "tri 1 2 3, tri 4 - -": the lamp at each output, counted in chain order. */
  static String chips(Signal.Build build) {
    return build.feeds().stream()
        .filter(f -> f.chip().isPresent())
        .map(
            f ->
                f.chip().get().name()
                    + f.lamps().stream()
                        .map(lamp -> lamp == Feed.NONE ? " -" : " " + (lamp + 1))
                        .collect(Collectors.joining()))
        .collect(Collectors.joining(", "));
  }

  static String scale(Size size) {
    return size.own() ? "1:" + Words.number(size.scale()) : "of the layout";
  }

  static String lenses(Size size) {
    String fibre = size.fibre() > 0 ? ", fibre " + Words.number(size.fibre()) + " mm" : "";
    return Words.number(size.lens()) + " mm" + fibre;
  }

  static String heights(Mast mast) {
    return mast.metres().stream().map(Words::number).collect(Collectors.joining(", ")) + " m";
  }

  /** "60 percent of its chain; lamps 100, 50 and 100 percent of that". */
  static String dimming(Dimming dimming) {
    String all = dimming.percent() + " percent of its chain";
    return dimming.lamps().isEmpty()
        ? all
        : all
            + "; lamps "
            + Words.list(dimming.lamps().stream().map(String::valueOf).toList())
            + " percent of that";
  }

  static String lamps(List<Display> lit) {
    return "lamps " + lit.stream().map(Display::words).collect(Collectors.joining(", "));
  }

  static String glows(Kind kind, Terms termsOrNull) {
    return kind.glows().stream()
        .map(
            g ->
                (g.filament() ? "filament" : "at once")
                    + (g.middle().isEmpty()
                        ? ""
                        : " past "
                            + (termsOrNull == null ? g.middle() : termsOrNull.look(g.middle()))))
        .collect(Collectors.joining(", "));
  }

  /** A way with all that it says. */
  static String way(Way way) {
    if (way instanceof Way.BinaryCoded bits) {
      return way.word()
          + " over "
          + Words.count(bits.addresses(), "address")
          + (bits.oneIsNormal() ? ", normal is 1" : ", reverse is 1")
          + (bits.lowFirst() ? ", low bit first" : ", high bit first")
          + (bits.settle() > 0 ? ", settles in " + bits.settle() + " ms" : "");
    }
    if (way instanceof Way.OnePerOutput outputs) {
      return way.word() + " over " + Words.count(outputs.addresses(), "address");
    }
    if (way instanceof Way.Topic topic) {
      return way.word() + (topic.byName() ? " with names" : " with numbers");
    }
    return way.word();
  }

  /** Where a unit listens: "bus dcc, address 5 (inside 8)". */
  static String command(Unit unit) {
    Command command = unit.command();
    String where;
    if (!command.topic().isEmpty()) {
      where = "topic " + command.topic();
    } else if (command.addresses().isEmpty()) {
      where =
          "events "
              + command.events().stream()
                  .map(e -> new EventId(e).toString())
                  .collect(Collectors.joining(", "));
    } else {
      where =
          "address "
              + command.addresses().stream()
                  .map(
                      a ->
                          a + " (inside " + Accessory.binary(a, command.bus().firstDecoder()) + ")")
                  .collect(Collectors.joining(", "));
    }
    return "bus " + command.bus().name() + ", " + where;
  }
}
