package dev.doublet.starter;

import dev.doublet.layout.Board;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What a first railway has.
 *
 * @param heads of each signal, 1 to {@value #MOST_HEADS}
 * @param signals how many, 1 to {@value #MOST_SIGNALS}
 * @param board what drives them
 * @param bus what brings the commands
 */
public record Starter(int heads, int signals, Board board, Bus bus) {
  /** The most heads that a signal may have. */
  public static final int MOST_HEADS = 3;

  /** More than these are lines that anybody can add. */
  public static final int MOST_SIGNALS = 40;

  /** By their numbers; each head adds three. */
  private static final List<String> ASPECTS =
      List.of(
          "Stop",
          "Approach",
          "Clear",
          "Approach Medium",
          "Medium Approach",
          "Medium Clear",
          "Approach Slow",
          "Slow Approach",
          "Slow Clear");

  /** What brings the commands. */
  public enum Bus {
    /** Packets for accessory decoders. */
    dcc,
    /** Messages with topics. */
    mqtt
  }

  /** Refuses numbers out of range. */
  public Starter {
    if (heads < 1 || heads > MOST_HEADS || signals < 1 || signals > MOST_SIGNALS) {
      throw new IllegalArgumentException(heads + " heads, " + signals + " signals");
    }
  }

  /** Its texts by the names of their files: a rulebook, and a layout that names it. */
  public Map<String, String> files() {
    Map<String, String> files = new LinkedHashMap<>();
    files.put("signals.aspects", book());
    files.put("layout.yaml", layout());
    return Collections.unmodifiableMap(files);
  }

  private String form() {
    return switch (heads) {
      case 1 -> "one-head";
      case 2 -> "two-head";
      default -> "three-head";
    };
  }

  private String book() {
    try (InputStream book = Starter.class.getResourceAsStream(form() + ".aspects")) {
      return new String(book.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new IllegalStateException("the jar holds all its books", e);
    }
  }

  private String layout() {
    StringBuilder layout = new StringBuilder();
    layout.append(
        """
        # A layout to begin with. "doublet check" tells what does not fit, "doublet wiring" what to solder.
        layout: Our Layout
        rulebook: signals.aspects
        scale: HO

        # Each address and value is written, so that none moves when a signal or an aspect is added.
        numbering: pinned

        # A command that calls up no aspect shows Stop; "keep" would leave the signal as it is.
        otherwise: most-restrictive

        """);
    layout.append(
        switch (bus) {
          case dcc ->
              """
              # Some systems count decoders from 0: then say first-decoder: 0.
              buses:
                track: {speaks: dcc, first-decoder: 1, aspect-bits: 5}
              """;
          case mqtt ->
              """
              # A signal listens to this topic, a slash and its own name; a message holds the name of an aspect.
              buses:
                house: {speaks: mqtt, topics: railway/signals}
              """;
        });
    layout.append("\n# What signals of a kind have in common.\nkinds:\n  home:\n");
    layout.append("    form: " + form() + "\n    heads: [searchlight");
    layout.append(", searchlight".repeat(heads - 1)).append("]\n");
    layout.append(bus == Bus.dcc ? dccCommands() : "    by: topic\n    bus: house\n");
    layout.append("\ncontrollers:\n  main:\n");
    layout.append("    # A board of " + board.size() + ", most of it for signals;\n");
    layout.append(
        "    # with a program of your own on it, say what that leaves as flash and ram.\n");
    layout.append("    board: " + board + "\n");
    layout.append(
        """
            chains:
              first:
                brightness: 50
                # Measure your cable: its length and gauge tell whether the last LED gets enough volts.
                supply: {volts: 5, amps: 2}
                cable: {awg: 20, metres: 10}
                # In the order of the cable, nearest the controller first.
                signals:
        """);
    for (int i = 1; i <= signals; i++) {
      layout
          .append("        - {name: S" + i)
          .append(i == 1 ? ", kind: home" : "")
          .append(bus == Bus.dcc ? ", address: " + i : "")
          .append("}\n");
    }
    return layout.toString();
  }

  private String dccCommands() {
    StringBuilder commands = new StringBuilder("    by: aspect-number\n    bus: track\n");
    commands.append("    values:\n");
    List<String> aspects = ASPECTS.subList(0, heads * ASPECTS.size() / MOST_HEADS);
    for (int value = 0; value < aspects.size(); value++) {
      commands.append("      " + value + ": " + aspects.get(value) + "\n");
    }
    return commands.toString();
  }
}
