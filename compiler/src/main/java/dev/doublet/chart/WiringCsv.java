package dev.doublet.chart;

import dev.doublet.chart.Wiring.Led;
import dev.doublet.chart.Wiring.Lit;
import dev.doublet.chart.Wiring.Strand;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Chain;
import dev.doublet.rulebook.Colour;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;

/**
 * {@link Wiring} as comma-separated values: a row for each LED and each output of a chip, and one
 * for each arm that is moved.
 */
public final class WiringCsv {
  private static final List<String> HEADS =
      List.of(
          "controller",
          "chain",
          "led",
          "metres along the cable",
          "mA at most",
          "volts at least",
          "signal",
          "form",
          "plates",
          "place",
          "mm above rail",
          "height from",
          "mm of lens",
          "head",
          "lamp",
          "colours",
          "by",
          "bus",
          "listens at",
          "note",
          "chip",
          "output",
          "ohms",
          "channel",
          "moved by",
          "stands",
          "ms");

  private WiringCsv() {}

  /** All controllers under one row of heads. */
  public static String of(List<Wiring> wirings) {
    StringBuilder out = new StringBuilder(Csv.row(HEADS));
    for (Wiring wiring : wirings) {
      for (Strand strand : wiring.chains()) {
        strand.leds().forEach(led -> out.append(Csv.row(row(wiring, strand, led))));
      }
      ArmWiring.moved(wiring).forEach(arm -> out.append(Csv.row(row(wiring, arm))));
    }
    return out.toString();
  }

  private static List<String> row(Wiring wiring, Strand strand, Led led) {
    List<String> cells =
        new ArrayList<>(
            List.of(
                wiring.controller(),
                strand.chain().name(),
                Integer.toString(led.number()),
                metres(strand.chain(), led.number()),
                Words.say("%.1f", led.milliamps()),
                strand.flow().map(f -> Words.say("%.2f", f.volts(led.number() - 1))).orElse("")));
    cells.addAll(
        led.lamp()
            .map(WiringCsv::lamp)
            .orElse(Collections.nCopies(HEADS.indexOf("chip") - cells.size(), "")));
    cells.addAll(
        led.output()
            .map(o -> List.of(o.chip().name(), o.name(), o.ohms().map(String::valueOf).orElse("")))
            .orElse(List.of("", "", "")));
    cells.addAll(Collections.nCopies(HEADS.size() - cells.size(), ""));
    return cells;
  }

  private static List<String> row(Wiring wiring, ArmWiring.Moved arm) {
    Map<String, String> said =
        Map.of(
            "controller", wiring.controller(),
            "signal", arm.lit().unit().name(),
            "form", arm.lit().signal().build().form().name(),
            "place", arm.place(),
            "head", arm.head(),
            "channel", Integer.toString(arm.servo().channel()),
            "moved by", arm.servo().isMotor() ? "motor" : "servo",
            "stands", arm.stands(),
            "ms", Integer.toString(arm.millis()));
    return HEADS.stream().map(head -> said.getOrDefault(head, "")).toList();
  }

  /** Where an LED is along the cable. */
  private static String metres(Chain chain, int led) {
    return chain.cable().isSaid() ? Words.say("%.2f", chain.cable().at(led, chain.leds())) : "";
  }

  private static List<String> lamp(Lit lit) {
    return List.of(
        lit.unit().name(),
        lit.signal().build().form().name(),
        String.join(" ", lit.signal().build().plates()),
        lit.place(),
        Words.say("%.1f", lit.signal().build().size().onModel(lit.metres() * 1000)),
        lit.metresSaid() ? "layout" : "common practice (from memory)",
        Words.say("%.2f", lit.signal().build().size().onModel(lit.signal().build().size().lens())),
        lit.head().name(),
        lit.lamp().name(),
        lit.lamp().colours().stream().map(Colour::name).collect(Collectors.joining(" ")),
        lit.unit().kind().way().word(),
        lit.unit().command().bus().name(),
        ListeningWords.words(lit.unit()),
        lit.firstOfSignal() ? lit.signal().note() : "");
  }
}
