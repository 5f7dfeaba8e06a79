package dev.doublet.layout.read;

import dev.doublet.layout.Mode;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Collections;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** What each part of a layout file may say. The published JSON Schema has the same lists. */
enum Keys {
  LAYOUT(
      "a layout",
      "layout",
      "rulebook",
      "scale",
      "viewing",
      "lamp-spacing",
      "lens",
      "eyes",
      "otherwise",
      "buses",
      "leds",
      "supplies",
      "prices",
      "accept",
      "count-as-errors",
      "kinds",
      "controllers"),
  DCC_BUS("a DCC bus", "speaks", "first-decoder", "aspect-bits"),
  MQTT_BUS("an MQTT bus", "speaks", "topics"),
  OPENLCB_BUS("an OpenLCB bus", "speaks"),
  LEDS(
      "a kind of LED",
      "family",
      "order",
      "measured",
      "milliamps",
      "latch",
      "minimum-volts",
      "maximum-volts",
      "colours",
      "strength"),
  MEASURED("the measured dies of an LED", "red", "green", "blue", "white"),
  DIE("a measured die", "x", "y", "mcd"),
  MILLIAMPS("the current of an LED", "channel", "rest"),
  CONTROLLER("a controller", "flash", "ram", "chains"),
  CHAIN("a chain", "leds", "brightness", "night", "supply", "cable", "feeds", "signals"),
  CABLE("a cable", "awg", "square-mm", "metres"),
  PRICES("a list of prices", "currency", "led", "plate", "metre", "head"),
  SUPPLY("a supply", "volts", "amps"),
  ACCEPTANCE("an acceptance", "check", "of", "because"),
  KIND("a kind of signal", Words.KIND),
  SIGNAL("a signal", Words.SIGNAL),
  HEAD("a head", Words.HEAD),
  GAP("a gap", "gap");

  private final String owner;
  private final Set<String> words;

  Keys(String owner, String... words) {
    this(owner, Arrays.asList(words));
  }

  Keys(String owner, List<String> words) {
    this.owner = owner;
    this.words = Collections.unmodifiableSet(new LinkedHashSet<>(words));
  }

  /** The part that has these keys, with its article: "a signal". */
  String owner() {
    return owner;
  }

  /** The keys, in the order to show them. */
  Set<String> words() {
    return words;
  }

  /** Keys that say how a signal or head is commanded. */
  static List<String> ofCommands() {
    return Words.COMMAND;
  }

  /** The keys of {@link #ofCommands()} that go with one way of commanding. */
  static List<String> ofCommands(Mode mode) {
    return switch (mode) {
      case ASPECT_NUMBER -> List.of("by", "bus", "address", "otherwise");
      case BINARY_CODED ->
          List.of(
              "by",
              "bus",
              "address",
              "addresses",
              "bits",
              "one-is",
              "low-bit",
              "values",
              "otherwise");
      case ONE_PER_OUTPUT -> List.of("by", "bus", "address", "addresses", "values", "otherwise");
      case TOPIC -> List.of("by", "bus", "topic", "payload", "otherwise");
      case EVENT -> List.of("by", "bus", "address", "first-event", "events", "otherwise");
    };
  }

  /**
   * Keys that say which signal it is and where it hangs and listens: what a signal built like the
   * one before does not take over.
   */
  static Set<String> ofPlace() {
    return Words.PLACE;
  }

  /**
   * Lists that the constants above are made of, in a class of their own so that they come first.
   */
  private static final class Words {
    static final List<String> COMMAND =
        List.of(
            "by",
            "bus",
            "address",
            "addresses",
            "bits",
            "one-is",
            "low-bit",
            "values",
            "topic",
            "payload",
            "first-event",
            "events",
            "otherwise");
    static final List<String> KIND =
        join(
            List.of("form", "heads", "lens", "plates", "mast", "wired", "aspects", "lit"), COMMAND);
    static final List<String> SIGNAL = join(List.of("name", "kind", "led"), KIND);
    static final List<String> HEAD = join(List.of("type", "shows"), COMMAND);
    static final Set<String> PLACE =
        Set.of("name", "kind", "led", "address", "addresses", "topic", "first-event", "events");

    private static List<String> join(List<String> first, List<String> second) {
      List<String> all = new ArrayList<>(first);
      all.addAll(second);
      return all;
    }
  }
}
