package dev.doublet.layout.read;

import dev.doublet.bus.Accessory;
import dev.doublet.diagnostic.Acceptance;
import dev.doublet.diagnostic.Datum;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Module;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Supply;
import dev.doublet.layout.Unit;
import dev.doublet.source.SourceReader;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;

/**
 * The modules that a layout uses. Each is read as the layout that it is by itself, and then set
 * down here: its addresses moved by its offset, its buses joined with those of the same name, and
 * its supplies kept apart from others of that name. Nothing of its table follows from what else is
 * at a meet.
 */
final class Modules {
  private final Complaints complaints;
  private final Map<String, Bus> buses = new LinkedHashMap<>();
  private final Map<String, Named> signals = new LinkedHashMap<>();
  private final Map<String, Named> files = new LinkedHashMap<>();
  private final List<Controller> controllers = new ArrayList<>();
  private final List<Module> modules = new ArrayList<>();
  private final List<Acceptance> acceptances = new ArrayList<>();

  /** Where each file was named. */
  private final Map<String, YamlNode.Scalar> used = new LinkedHashMap<>();

  /** How many modules were read; what has one name in one module was complained of there. */
  private int read;

  /** Where a name was given, and by which of the modules. */
  private record Named(Span span, int module) {}

  private Modules(Complaints complaints) {
    this.complaints = complaints;
  }

  /**
   * Reads what a layout uses.
   *
   * @param path of the layout
   * @param buses its own
   * @param own its own controllers
   * @param resolve reads a layout by its path, with what was said of it
   */
  static Modules read(
      Section layout,
      String path,
      List<Bus> buses,
      List<Controller> own,
      SourceReader reader,
      Function<String, Outcome<Layout>> resolve,
      Complaints complaints) {
    Modules modules = new Modules(complaints);
    buses.forEach(bus -> modules.buses.put(bus.name(), bus));
    own.forEach(modules::take);
    for (Takes.Named<YamlNode.Mapping> named : layout.read(Keys.USES).orElse(List.of())) {
      named
          .value()
          .map(m -> Section.named(named.name(), m, Keys.MODULE, complaints))
          .filter(Section::isRead)
          .ifPresent(said -> modules.use(named.name().text(), said, path, reader, resolve));
    }
    return modules;
  }

  /** Its own buses, and those that only modules have. */
  List<Bus> buses() {
    return List.copyOf(buses.values());
  }

  /** Its own controllers, and those of its modules. */
  List<Controller> controllers() {
    return controllers;
  }

  /** The modules. */
  List<Module> modules() {
    return modules;
  }

  /** What the modules live with. */
  List<Acceptance> acceptances() {
    return acceptances;
  }

  private void use(
      String name,
      Section said,
      String path,
      SourceReader reader,
      Function<String, Outcome<Layout>> resolve) {
    YamlNode.Scalar named = said.read(Keys.MODULE_LAYOUT).orElseThrow();
    String target = SourceReader.beside(path, named.text());
    if (target.equals(path)) {
      complaints.wrong(
          "contradiction",
          named.span(),
          "this layout uses itself",
          "name the layout of a module, or take it out.");
      return;
    }
    YamlNode.Scalar first = used.putIfAbsent(target, named);
    if (first != null) {
      complaints.duplicateName(
          named.span(),
          first.span(),
          "{file} is used twice",
          "a module stands in one place: take one out.",
          Datum.of("file", target));
      return;
    }
    try {
      reader.read(target);
    } catch (SourceReader.Unreadable fault) {
      complaints.unreadable(
          named.span(), target, fault, "mend the path: it is read from the folder of this file.");
      return;
    }
    Outcome<Layout> resolved = resolve.apply(target);
    complaints.addAll(resolved.diagnostics());
    if (resolved.value().isEmpty()) {
      return;
    }
    Layout module = resolved.value().get();
    read++;
    int offset = said.read(Keys.OFFSET).orElse(0);
    if (isWithin(module, offset, said) && join(module)) {
      String prefix = said.read(Keys.PREFIX).map(YamlNode.Scalar::text).orElse("");
      String owner = said.read(Keys.OWNER).map(YamlNode.Scalar::text).orElse("");
      List<String> names = module.controllers().stream().map(Controller::name).toList();
      modules.add(new Module(name, owner, offset, names));
      acceptances.addAll(module.acceptances());
      module.controllers().stream().map(c -> moved(c, name, offset, prefix)).forEach(this::take);
    }
  }

  /** Controllers and signals have names of their own on the whole layout. */
  private void take(Controller controller) {
    Named file =
        files.putIfAbsent(Controller.prefix(controller.name()), new Named(controller.span(), read));
    if (file != null && file.module() != read) {
      complaints.duplicateName(
          controller.span(),
          file.span(),
          "two controllers are called \"{name}\", or nearly",
          "rename one of them: files of tables are named after them.",
          Datum.of("name", controller.name()));
    }
    for (Signal signal : controller.signals()) {
      Named first =
          signals.putIfAbsent(
              signal.name().toLowerCase(Locale.ROOT), new Named(signal.span(), read));
      if (first != null && first.module() != read) {
        complaints.duplicateName(
            signal.span(),
            first.span(),
            "two signals are called \"{name}\"",
            "rename one of them, or say a \"prefix\" of its module.",
            Datum.of("name", signal.name()));
      }
    }
    controllers.add(controller);
  }

  private boolean isWithin(Layout module, int offset, Section said) {
    for (Controller controller : module.controllers()) {
      for (Signal signal : controller.signals()) {
        int highest =
            signal.fixed()
                ? 0
                : signal.units().stream()
                    .flatMap(u -> u.command().addresses().stream())
                    .mapToInt(a -> a)
                    .max()
                    .orElse(0);
        if (highest > 0 && highest + offset > Accessory.HIGHEST) {
          complaints.wrong(
              "out-of-range",
              said.at(Keys.OFFSET),
              "an offset of {offset} moves address {address} of signal {signal} beyond {most}",
              "write a smaller offset.",
              Datum.of("offset", offset),
              Datum.of("address", highest),
              Datum.of("signal", signal.name()),
              Datum.of("most", Accessory.HIGHEST));
          return false;
        }
      }
    }
    return true;
  }

  /** Buses of one name are one bus, and so must be alike. */
  private boolean join(Layout module) {
    boolean alike = true;
    for (Bus bus : module.buses()) {
      Bus other = buses.putIfAbsent(bus.name(), bus);
      if (other != null && !isLike(bus, other)) {
        complaints.wrong(
            "contradiction",
            bus.span(),
            "bus {bus} of this module is not like that of the layout that uses it",
            "say both alike, or call this one otherwise if it is another bus.",
            Datum.of("bus", bus.name()));
        alike = false;
      }
    }
    return alike;
  }

  private static boolean isLike(Bus one, Bus other) {
    return one.speaks() == other.speaks()
        && one.firstDecoder() == other.firstDecoder()
        && one.aspectBits() == other.aspectBits()
        && one.topics().equals(other.topics());
  }

  private Controller moved(Controller controller, String module, int offset, String prefix) {
    Map<Chain, Chain> chains = new IdentityHashMap<>();
    List<Chain> inOrder = new ArrayList<>();
    for (Chain chain : controller.chains()) {
      Chain here = apart(chain, module);
      chains.put(chain, here);
      inOrder.add(here);
    }
    List<Signal> here = new ArrayList<>();
    for (Signal signal : controller.signals()) {
      int by = signal.fixed() ? 0 : offset;
      List<Unit> units =
          signal.units().stream()
              .map(
                  u ->
                      new Unit(
                          prefix + u.name(),
                          prefix + u.signal(),
                          u.kind(),
                          chains.get(u.chain()),
                          u.led(),
                          moved(u.command(), by),
                          u.dimming(),
                          u.servos(),
                          u.span()))
              .toList();
      here.add(
          new Signal(
              prefix + signal.name(),
              signal.build(),
              signal.mast(),
              signal.note(),
              signal.fixed(),
              units,
              signal.span()));
    }
    return new Controller(
        controller.name(),
        controller.boardOrNull(),
        controller.flashOrNull(),
        controller.ramOrNull(),
        inOrder,
        here,
        controller.span());
  }

  private Command moved(Command command, int offset) {
    return new Command(
        buses.get(command.bus().name()),
        command.addresses().stream().map(a -> a + offset).toList(),
        command.topic(),
        command.events());
  }

  /** A chain whose shared supplies are those of its module, whatever others are called. */
  private static Chain apart(Chain chain, String module) {
    Cable cable = chain.cable();
    Lay lay = cable.lay();
    List<Lay.Feed> feeds =
        lay.feeds().stream()
            .map(
                f ->
                    new Lay.Feed(
                        f.at(), f.wire(), f.supply().map(s -> apart(s, module)).orElse(null)))
            .toList();
    Chain wired =
        chain.wired(
            cable.lying(cable.metres(), new Lay(lay.at(), lay.leads(), lay.boards(), feeds)),
            chain.feeds());
    return wired.on(apart(chain.supply(), module));
  }

  private static Supply apart(Supply supply, String module) {
    return supply.name().isEmpty()
        ? supply
        : new Supply(module + " " + supply.name(), supply.volts(), supply.milliamps());
  }
}
