package dev.doublet.chart;

import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;

/** A layout of the Brackwater & Northern with six kinds of signal on two chains. */
public final class ManySignals {
  private static final List<String> KINDS =
      List.of("block", "home", "junction", "starter", "ground", "bank");

  private ManySignals() {}

  /** The layout with so many signals, as many of each kind as of the others. */
  public static Layout layout(int signals) {
    return layout(text(signals, true));
  }

  /** A layout of a text. */
  public static Layout layout(String text) {
    SourceReader reader =
        path -> {
          try {
            return path.equals("layout.yaml")
                ? new SourceFile(path, text)
                : new SourceFile(path, Files.readString(Path.of("..").resolve(path)));
          } catch (IOException e) {
            throw new SourceReader.Unreadable("there is no such file");
          }
        };
    return LayoutResolver.resolve("layout.yaml", reader).value().orElseThrow();
  }

  /**
   * Its text, of two signals of each kind at least.
   *
   * @param runs true where signals of a kind are written as one, false where each has a line
   */
  public static String text(int signals, boolean runs) {
    StringBuilder yaml =
        new StringBuilder(
            """
            layout: Brackwater Shed
            rulebook: rulebooks/brackwater.aspects
            otherwise: most-restrictive
            buses:
              track: {speaks: dcc, aspect-bits: 5}
              house: {speaks: mqtt, topics: brackwater/signals}
            kinds:
              block: {form: permissive, heads: [searchlight, searchlight], by: aspect-number, bus: track}
              home: {form: two-head, heads: [searchlight, searchlight], by: aspect-number, bus: track}
              junction: {form: three-head, heads: [searchlight, searchlight, searchlight], by: aspect-number, bus: track}
              starter: {form: one-head, heads: [three-lamp], aspects: [Stop, Approach, Clear], by: binary-coded, bus: track, bits: 2}
              ground: {form: ground, heads: [searchlight], aspects: [Stop, Restricting, Slow Approach, Slow Clear], by: one-per-output, bus: track}
              bank: {form: one-head, heads: [two-yellow], plates: [number, grade], aspects: [Restricting, Approach, Advance Approach, Clear], by: topic, bus: house}
            controllers:
              shed:
                flash: 28672
                ram: 16384
                chains:
            """);
    for (int chain = 0; chain < 2; chain++) {
      yaml.append("      ").append(chain == 0 ? "west" : "east").append(":\n        signals:\n");
      for (int kind = chain * 3; kind < chain * 3 + 3; kind++) {
        String name = KINDS.get(kind);
        int count = (signals + KINDS.size() - 1 - kind) / KINDS.size();
        if (runs) {
          signal(yaml, name, name + " 1 to " + name + ' ' + count);
        } else {
          IntStream.rangeClosed(1, count).forEach(i -> signal(yaml, name, name + ' ' + i));
        }
      }
    }
    return yaml.toString();
  }

  private static void signal(StringBuilder yaml, String kind, String name) {
    yaml.append("        - {name: ").append(name).append(", kind: ").append(kind).append("}\n");
  }
}
