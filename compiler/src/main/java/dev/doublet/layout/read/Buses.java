package dev.doublet.layout.read;

import dev.doublet.bus.TopicName;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Mode;
import dev.doublet.source.Span;
import dev.doublet.syntax.YamlNode;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;

/** The buses of a layout. */
final class Buses {
  private static final Map<String, Bus.Speaks> SPEAKS =
      new TreeMap<>(
          Map.of("dcc", Bus.Speaks.DCC, "mqtt", Bus.Speaks.MQTT, "openlcb", Bus.Speaks.OPENLCB));

  private final List<Bus> all;
  private final Complaints complaints;

  private Buses(List<Bus> all, Complaints complaints) {
    this.all = List.copyOf(all);
    this.complaints = complaints;
  }

  /** The buses that a layout declares, or one DCC bus when it declares none. */
  static Buses read(Section layout, Complaints complaints) {
    if (!layout.says("buses")) {
      Bus dcc = new Bus("dcc", Bus.Speaks.DCC, 1, 5, "", layout.place());
      return new Buses(List.of(dcc), complaints);
    }
    List<Bus> all = new ArrayList<>();
    layout
        .mapping("buses")
        .ifPresent(m -> m.entries().forEach(e -> bus(e, complaints).ifPresent(all::add)));
    return new Buses(all, complaints);
  }

  /** In the order declared. */
  List<Bus> all() {
    return all;
  }

  /**
   * The bus that a unit is commanded by: the one it names, or the first that speaks what it needs.
   */
  Optional<Bus> choose(Section said, Mode mode, Span by) {
    Bus.Speaks needed = needed(mode);
    Optional<YamlNode.Scalar> named = said.scalar("bus", "the name of a bus");
    if (named.isEmpty()) {
      Optional<Bus> first = all.stream().filter(b -> b.speaks() == needed).findFirst();
      if (first.isEmpty()) {
        complaints.missingKey(
            by,
            "no bus speaks " + word(needed) + ", which " + mode.word() + " needs",
            "add one to \"buses\", such as \""
                + word(needed)
                + ": {speaks: "
                + word(needed)
                + "}\".");
      }
      return first;
    }
    String name = named.get().text();
    Optional<Bus> found = all.stream().filter(b -> b.name().equals(name)).findFirst();
    if (found.isEmpty()) {
      complaints.unknownName(named.get(), "bus", all.stream().map(Bus::name).toList());
    } else if (found.get().speaks() != needed) {
      complaints.commandKeys(
          named.get().span(),
          "bus \""
              + name
              + "\" speaks "
              + word(found.get().speaks())
              + ", but "
              + mode.word()
              + " needs one that speaks "
              + word(needed),
          "name another bus, or command the signal another way.");
      return Optional.empty();
    }
    return found;
  }

  private static Bus.Speaks needed(Mode mode) {
    return switch (mode) {
      case TOPIC -> Bus.Speaks.MQTT;
      case EVENT -> Bus.Speaks.OPENLCB;
      default -> Bus.Speaks.DCC;
    };
  }

  private static String word(Bus.Speaks speaks) {
    return SPEAKS.entrySet().stream()
        .filter(e -> e.getValue() == speaks)
        .map(Map.Entry::getKey)
        .findFirst()
        .orElseThrow();
  }

  private static Optional<Bus> bus(YamlNode.Entry entry, Complaints complaints) {
    Span span = entry.key().span();
    String name = entry.key().text();
    if (!(entry.value() instanceof YamlNode.Mapping mapping)) {
      complaints.wrongType(entry.value(), name, "keys with values");
      return Optional.empty();
    }
    Section any = Section.unchecked(mapping, span, complaints);
    if (!any.says("speaks")) {
      complaints.missingKey(
          span,
          "bus \"" + name + "\" does not say what it speaks",
          "add \"speaks: dcc\", \"speaks: mqtt\" or \"speaks: openlcb\".");
      return Optional.empty();
    }
    Optional<Bus.Speaks> speaks = any.word("speaks", SPEAKS);
    if (speaks.isEmpty()) {
      return Optional.empty();
    }
    Keys keys =
        switch (speaks.get()) {
          case DCC -> Keys.DCC_BUS;
          case MQTT -> Keys.MQTT_BUS;
          case OPENLCB -> Keys.OPENLCB_BUS;
        };
    Section said = Section.of(mapping, keys, span, complaints);
    int first = said.integer("first-decoder", 0, 1).orElse(1);
    int bits = said.word("aspect-bits", new TreeMap<>(Map.of("5", 5, "8", 8))).orElse(5);
    String topics = said.scalar("topics", "a topic").map(t -> topics(t, complaints)).orElse("");
    return Optional.of(new Bus(name, speaks.get(), first, bits, topics, span));
  }

  private static String topics(YamlNode.Scalar topics, Complaints complaints) {
    TopicName.fault(topics.text())
        .ifPresent(
            why ->
                complaints.badValue(
                    topics.span(),
                    "\"topics\" is no topic: " + why,
                    "write levels with \"/\" between, such as \"layout/signals\"."));
    return topics.text();
  }
}
