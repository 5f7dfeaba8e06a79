package dev.doublet.layout.read;

import dev.doublet.bus.EventId;
import dev.doublet.layout.Answer;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Dimming;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Mast;
import dev.doublet.layout.Part;
import dev.doublet.layout.Servo;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Size;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.Way;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Display;
import dev.doublet.rulebook.HeadType;
import java.util.ArrayList;
import java.util.List;
import java.util.OptionalInt;
import java.util.stream.Collectors;

/** A resolved layout as text, for golden cases. */
final class LayoutListing {
  private final StringBuilder out = new StringBuilder();
  private final List<Kind> kinds = new ArrayList<>();

  private LayoutListing() {}

  static String of(Layout layout) {
    LayoutListing listing = new LayoutListing();
    listing.print(layout);
    return listing.out.toString();
  }

  private void print(Layout layout) {
    line("layout %s, 1:%s, %s", layout.title(), layout.scale(), layout.rulebook().title());
    for (Bus bus : layout.buses()) {
      line("bus %s speaks %s%s", bus.name(), bus.speaks(), details(bus));
    }
    layout.modules().forEach(m -> line("%s", m));
    for (Controller controller : layout.controllers()) {
      line(
          "controller %s%s, flash %s, ram %s",
          controller.name(),
          controller.board().map(b -> ", board " + b).orElse(""),
          said(controller.flash()),
          said(controller.ram()));
      controller.chains().forEach(this::print);
      controller.signals().forEach(this::print);
    }
    for (int i = 0; i < kinds.size(); i++) {
      print(i + 1, kinds.get(i));
    }
  }

  private static String said(OptionalInt number) {
    return number.isPresent() ? Integer.toString(number.getAsInt()) : "unread";
  }

  private static String details(Bus bus) {
    return switch (bus.speaks()) {
      case DCC -> ", first decoder " + bus.firstDecoder() + ", " + bus.aspectBits() + " bits";
      case MQTT -> ", topics \"" + bus.topics() + "\"";
      case OPENLCB -> "";
    };
  }

  private void print(Chain chain) {
    Part part = chain.part();
    line(
        "  chain %d %s of %d %s, order %s, %s %%%s, %s V, %d mA%s%s",
        chain.index(),
        chain.name(),
        chain.leds(),
        part.name(),
        part.order(),
        chain.brightness(),
        chain.night() == chain.brightness() ? "" : " (by night " + chain.night() + ")",
        chain.supply().volts(),
        chain.supply().milliamps(),
        chain.supply().name().isEmpty() ? "" : " of " + chain.supply().name(),
        chain.cable().isSaid() ? cable(chain) : "");
  }

  private static String cable(Chain chain) {
    return ", "
        + chain.cable().metres()
        + " m of "
        + chain.cable().words()
        + " fed at "
        + chain.feeds()
        + lay(chain.cable().lay());
  }

  private static String lay(Lay lay) {
    StringBuilder out = new StringBuilder();
    if (!lay.at().isEmpty()) {
      out.append(", LEDs at ").append(lay.at());
    }
    for (Lay.Feed feed : lay.feeds()) {
      out.append(", fed at ").append(feed.at()).append(wire(feed.wire()));
      feed.supply().ifPresent(s -> out.append(" from ").append(s));
    }
    lay.boards().forEach(board -> out.append(", ").append(board));
    for (Lay.Lead lead : lay.leads()) {
      out.append(", lead to LED ").append(lead.first() + 1).append(wire(lead.wire()));
    }
    return out.toString();
  }

  private static String wire(Cable wire) {
    return wire.isSaid() ? " by " + wire.metres() + " m of " + wire.words() : "";
  }

  private static String size(Size size) {
    return (size.own() ? " at 1:" + size.scale() : "")
        + (size.own() || size.fibre() > 0
            ? " lens " + size.lens() + " mm, seen " + size.seen() + " mm"
            : "");
  }

  private void print(Signal signal) {
    Signal.Build build = signal.build();
    line(
        "  signal %s: %s [%s]%s%s%s%s%s",
        signal.name(),
        build.form().name(),
        build.heads().stream().map(HeadType::name).collect(Collectors.joining(", ")),
        build.plates().isEmpty() ? "" : " with " + build.plates(),
        build.wired().equals(build.wired().stream().sorted().toList())
            ? ""
            : " wired " + build.wired(),
        signal.mast().says(0) ? " mast " + metres(signal.mast()) : "",
        build.aspects().isEmpty()
            ? ""
            : (build.asked() ? " asked for " : " may show ")
                + build.aspects().stream().map(Aspect::name).toList(),
        size(build.size()) + (signal.note().isEmpty() ? "" : " note " + signal.note()));
    for (Unit unit : signal.units()) {
      if (kinds.stream().noneMatch(k -> k == unit.kind())) {
        kinds.add(unit.kind());
      }
      int kind = 0;
      while (kinds.get(kind) != unit.kind()) {
        kind++;
      }
      line(
          "    %s: LED %d on %s, kind %d, %s%s%s",
          unit.name(),
          unit.led() + 1,
          unit.chain().name(),
          kind + 1,
          where(unit.command()),
          brightness(unit.dimming()),
          unit.servos().stream().map(LayoutListing::mover).collect(Collectors.joining()));
    }
  }

  private static String mover(Servo servo) {
    return servo.isMotor()
        ? ", motor " + servo.channel() + " for " + servo.coilTime().getAsInt() + " ms"
        : ", servo " + servo.channel() + " " + servo.pulses() + " in " + servo.travel() + " ms";
  }

  private static String brightness(Dimming dimming) {
    return dimming.isNone()
        ? ""
        : ", at "
            + dimming.percent()
            + " %"
            + (dimming.lamps().isEmpty() ? "" : " of " + dimming.lamps());
  }

  private static List<String> metres(Mast mast) {
    return mast.metres().stream()
        .map(m -> String.format(java.util.Locale.ROOT, "%.2f", m))
        .toList();
  }

  private static String where(Command command) {
    String bus = command.bus().name() + " ";
    if (!command.addresses().isEmpty()) {
      return bus + command.addresses();
    }
    return command.topic().isEmpty()
        ? bus + command.events().stream().map(e -> new EventId(e).toString()).toList()
        : bus + "\"" + command.topic() + "\"";
  }

  private static List<String> feeds(Kind kind) {
    return kind.feeds().stream()
        .map(f -> f.chip().map(c -> c.name()).orElse("LED") + f.lamps())
        .toList();
  }

  private void print(int number, Kind kind) {
    line(
        "kind %d: %s %s%s, %d LEDs%s%s%s, by %s%s, otherwise %s",
        number,
        kind.isWholeSignal() ? kind.form() : "a head",
        kind.heads(),
        kind.plates().isEmpty() ? "" : " with " + kind.plates(),
        kind.leds(),
        kind.onApproach() ? " lit on approach" : "",
        kind.glows().isEmpty() ? "" : " that are " + glows(kind),
        kind.feeds().isEmpty() ? "" : " for lamps " + feeds(kind),
        kind.way().word(),
        options(kind),
        kind.otherwise());
    for (int i = 0; i < kind.states().size(); i++) {
      State state = kind.states().get(i);
      int index = i;
      line(
          "  %s%d %s: %s; LEDs %s; values %s",
          i == kind.rest() ? "rest " : "",
          state.number(),
          state.name(),
          words(state.picture(), " over "),
          words(state.lit(), ", "),
          kind.answers().stream().filter(a -> a.state() == index).map(Answer::value).toList());
    }
  }

  private static List<String> glows(Kind kind) {
    return kind.glows().stream()
        .map(g -> (g.filament() ? "filament" : "LED") + " " + g.middle())
        .map(String::strip)
        .toList();
  }

  private static String options(Kind kind) {
    if (kind.way() instanceof Way.BinaryCoded coded) {
      return " of "
          + coded.addresses()
          + " bits, one is "
          + (coded.oneIsNormal() ? "normal" : "reverse")
          + ", low bit "
          + (coded.lowFirst() ? "first" : "last");
    }
    if (kind.way() instanceof Way.OnePerOutput each) {
      return " of " + each.addresses() + " addresses";
    }
    return kind.way() instanceof Way.Topic topic
        ? (topic.byName() ? " by name" : " by number")
        : "";
  }

  private static String words(List<Display> displays, String between) {
    return displays.stream().map(Display::words).collect(Collectors.joining(between));
  }

  private void line(String format, Object... values) {
    out.append(String.format(java.util.Locale.ROOT, format, values)).append('\n');
  }
}
