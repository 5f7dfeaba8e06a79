package dev.doublet.chart;

import dev.doublet.chart.Wiring.Led;
import dev.doublet.chart.Wiring.Lit;
import dev.doublet.chart.Wiring.Post;
import dev.doublet.chart.Wiring.Strand;
import dev.doublet.diagnostic.Words;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Mast;
import dev.doublet.layout.Signal;
import dev.doublet.power.Flow;
import dev.doublet.power.Wire;
import dev.doublet.rulebook.Colour;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.stream.Collectors;

/** {@link Wiring} as a page in Markdown, to print and take along. */
public final class WiringMarkdown {
  private static final String CAUTIONS =
      """

      ## Before power is on

      - A fuse stands where each feed leaves the supply, at or below what its wire bears, never at what
        the supply can give.
      - A ready-made supply of safety extra-low voltage; its output is never joined to another's
        (MOROP NEM 609). Mains wiring belongs to people licensed for it, under your local code.
      - One ground for supply and controller. For model railways only.
      """;

  private WiringMarkdown() {}

  /** The whole page. */
  public static String of(Wiring wiring) {
    StringBuilder out = new StringBuilder();
    out.append("# Wiring of ").append(wiring.controller()).append(", ");
    out.append(Markdown.text(wiring.title()));
    out.append("\n\n").append(lenses(wiring)).append('\n').append(heights(wiring));
    for (Strand strand : wiring.chains()) {
      out.append("\n## Chain ").append(Markdown.text(strand.chain().name())).append("\n\n");
      out.append(power(strand)).append('\n').append(table(strand));
    }
    out.append(ArmWiring.of(wiring));
    return out.append("\n## Parts\n\n").append(parts(wiring)).append(CAUTIONS).toString();
  }

  private static String lenses(Wiring wiring) {
    List<String> sizes = new ArrayList<>();
    for (Wiring.Lens lens : wiring.lenses()) {
      String size =
          Words.say(
              "%.2f mm wide (%s mm at full size)%s%s",
              lens.wide(),
              Words.number(lens.fullSize()),
              lens.size().fibre() > 0
                  ? Words.say(", lit by fibre of %s mm", Words.number(lens.size().fibre()))
                  : "",
              lens.size().own() ? Words.say(" at 1:%s", Words.number(lens.size().scale())) : "");
      sizes.add(
          size
              + (wiring.lenses().size() > 1
                  ? " on " + Markdown.text(Words.list(lens.forms()))
                  : ""));
    }
    String lenses = sizes.isEmpty() ? "" : ": lenses " + String.join("; ", sizes);
    return "Scale 1:" + Words.number(wiring.scale()) + lenses + ".\n";
  }

  private static String heights(Wiring wiring) {
    if (wiring.posts().isEmpty()) {
      return "";
    }
    StringBuilder out =
        new StringBuilder(
            Markdown.heads(
                List.of("form", "stands", "signals", "heads above the rail", "at full size")));
    for (Post post : wiring.posts()) {
      List<String> heads = new ArrayList<>();
      for (int place = 0; place < post.form().places().size(); place++) {
        heads.add(Words.say("%s %.1f mm", post.form().places().get(place), post.height(place)));
      }
      out.append(
          Markdown.row(
              List.of(
                  post.form().name(),
                  post.form().mount().words(),
                  Words.list(post.signals()),
                  String.join(", ", heads),
                  fullSize(post.mast()))));
    }
    return out + "\nHeights run from the rail to the middle of a head.\n";
  }

  private static String fullSize(Mast mast) {
    return mast.metres().stream().map(m -> Words.number(m) + " m").collect(Collectors.joining(", "))
        + (mast.says(0) ? "" : " (common practice, from memory)")
        + (mast.says(0) && !mast.says(mast.metres().size() - 1)
            ? " (how far apart: common practice, from memory)"
            : "");
  }

  private static String power(Strand strand) {
    Chain chain = strand.chain();
    StringBuilder out = new StringBuilder();
    out.append(
        Words.say(
            "- %s, bytes in the order %s, at most %.0f mA\n",
            places(strand), chain.part().order(), Math.ceil(strand.milliamps())));
    if (chain.supply().volts() > 0) {
      out.append(
          Words.say(
              "- supply%s: %s V, %s A\n",
              chain.supply().name().isEmpty() ? "" : " " + Markdown.text(chain.supply().name()),
              Words.number(chain.supply().volts()),
              Words.number(chain.supply().milliamps() / 1000.0)));
    }
    return out + strand.flow().map(WiringMarkdown::cable).orElse("- cable: not said\n");
  }

  /** The LEDs and the chips of a chain, each kind with its number. */
  private static String places(Strand strand) {
    Chain chain = strand.chain();
    Map<String, Set<Integer>> chips = new TreeMap<>();
    for (Led led : strand.leds()) {
      led.output()
          .ifPresent(
              o -> chips.computeIfAbsent(o.chip().name(), c -> new HashSet<>()).add(led.number()));
    }
    int leds = chain.leds() - chips.values().stream().mapToInt(Set::size).sum();
    List<String> kinds = new ArrayList<>();
    if (leds > 0) {
      kinds.add(Words.count(leds, "LED") + " of kind " + Markdown.text(chain.part().name()));
    }
    chips.forEach(
        (name, at) ->
            kinds.add(Words.count(at.size(), "chip") + " of kind " + Markdown.text(name)));
    return Words.list(kinds);
  }

  private static String cable(Flow flow) {
    Chain chain = flow.chain();
    return Words.say(
            "- cable: %s m of %s, whose wires bear %s A each by itself and short, and %.2f A in a bundle or on a long run\n",
            Words.number(chain.cable().metres()),
            chain.cable().words(),
            Words.number(Wire.bears(chain.cable())),
            Wire.bearsBundled(chain.cable()))
        + Words.say(
            "- at LED %d, which gets least: %.2f V\n", flow.worstLed() + 1, flow.leastVolts())
        + Words.say("- %s: ", Words.plural(chain.feeds().size(), "fuse"))
        + fuses(flow)
        + "\n"
        + lay(flow);
  }

  /** What of the cable is not one piece from its start to its end. */
  private static String lay(Flow flow) {
    Lay lay = flow.chain().cable().lay();
    StringBuilder out = new StringBuilder();
    for (Lay.Feed feed : lay.feeds()) {
      feed.supply()
          .ifPresent(
              supply ->
                  out.append(
                      Words.say(
                          "- between LED %d and LED %d the wire of the volts is **cut**: from there on supply%s feeds them, %s V, %s A; ground and data go through, and grounds of all supplies are one\n",
                          feed.at() - 1,
                          feed.at(),
                          supply.name().isEmpty() ? "" : " " + Markdown.text(supply.name()),
                          Words.number(supply.volts()),
                          Words.number(supply.milliamps() / 1000.0))));
    }
    for (Lay.Board board : lay.boards()) {
      out.append(
          Words.say(
              "- board %s, %s, at %s m: %s\n",
              Markdown.text(board.name()),
              Words.count(board.sockets(), "socket"),
              Words.number(board.metres()),
              board.signals().isEmpty() ? "none" : Markdown.text(Words.list(board.signals()))));
    }
    leads(lay, flow).forEach((wire, leds) -> out.append(lead(wire, leds)));
    return out.toString();
  }

  /** The signals with wires of their own, by their first LEDs; those of like wires together. */
  private static Map<String, List<Integer>> leads(Lay lay, Flow flow) {
    Map<String, List<Integer>> leads = new LinkedHashMap<>();
    for (int i = 0; i < lay.leads().size(); i++) {
      Lay.Lead lead = lay.leads().get(i);
      String fuse =
          flow.leadFuses()
              .get(i)
              .map(f -> Words.say(", with a fuse of %s where it leaves the cable", Words.amps(f)))
              .orElse("");
      leads
          .computeIfAbsent(wire(lead.wire()) + fuse, words -> new ArrayList<>())
          .add(lead.first() + 1);
    }
    return leads;
  }

  private static String lead(String wire, List<Integer> leds) {
    boolean one = leds.size() == 1;
    return Words.say(
        "- to the %s at %s %s: %s%s\n",
        Words.plural(leds.size(), "signal"),
        Words.plural(leds.size(), "LED"),
        String.join(", ", Words.runs(leds)),
        one ? "" : "each ",
        wire);
  }

  private static String wire(Cable wire) {
    return Words.say("%s m of %s", Words.number(wire.metres()), wire.words());
  }

  private static String fuses(Flow flow) {
    List<String> fuses = new ArrayList<>();
    List<Integer> feeds = flow.chain().feeds();
    for (int i = 0; i < feeds.size(); i++) {
      String where = feeds.get(i) == 0 ? "the cable's start" : "LED " + feeds.get(i);
      fuses.add(
          flow.fuses().get(i).map(Words::amps).orElse("none fits, use thicker wire,")
              + " for the feed at "
              + where
              + flow.chain()
                  .cable()
                  .lay()
                  .feed(feeds.get(i))
                  .map(Lay.Feed::wire)
                  .filter(Cable::isSaid)
                  .map(w -> ", by " + wire(w))
                  .orElse(""));
    }
    return String.join("; ", fuses);
  }

  private static String table(Strand strand) {
    StringBuilder out =
        new StringBuilder(
            Markdown.heads(
                with(
                    strand,
                    List.of("LED", "signal", "head", "lamp", "colours", "commanded by"),
                    "output")));
    List<Led> leds = strand.leds();
    for (int i = 0; i < leds.size(); i++) {
      int from = i;
      while (isOfNoSignal(leds.get(i)) && i + 1 < leds.size() && isOfNoSignal(leds.get(i + 1))) {
        i++;
      }
      String number = Integer.toString(leds.get(from).number());
      String numbers = from == i ? number : number + " to " + leds.get(i).number();
      String dark = isOfNoSignal(leds.get(i)) ? "no signal" : "no lamp";
      List<String> cells =
          leds.get(i)
              .lamp()
              .map(lit -> row(numbers, lit))
              .orElse(List.of(numbers, dark, "", "", "", ""));
      String output = leds.get(i).output().map(WiringMarkdown::output).orElse("");
      out.append(Markdown.row(with(strand, cells, output)));
    }
    return out.toString();
  }

  private static boolean isOfNoSignal(Led led) {
    return led.lamp().isEmpty() && led.output().isEmpty();
  }

  /** One cell more on a chain with chips. */
  private static List<String> with(Strand strand, List<String> cells, String more) {
    List<String> all = new ArrayList<>(cells);
    if (strand.leds().stream().anyMatch(l -> l.output().isPresent())) {
      all.add(more);
    }
    return all;
  }

  private static String output(Wiring.Output output) {
    String at = output.name() + " of " + output.chip().name();
    return output.limited()
        ? at
            + output
                .ohms()
                .map(ohms -> ", by " + Words.count(ohms, "ohm"))
                .orElse(", by a resistor: say the LED's \"volts\" and the supply")
        : at;
  }

  private static List<String> row(String number, Lit lit) {
    return List.of(
        number,
        lit.firstOfSignal() ? signal(lit.signal()) : "",
        lit.place() + ": " + lit.head().name(),
        lit.lamp().name(),
        lit.lamp().colours().stream().map(Colour::name).collect(Collectors.joining(", ")),
        lit.firstOfUnit()
            ? lit.unit().kind().way().word()
                + " on "
                + lit.unit().command().bus().name()
                + ", "
                + ListeningWords.words(lit.unit())
            : "");
  }

  private static String signal(Signal signal) {
    List<String> plates = signal.build().plates();
    return signal.name()
        + ", "
        + signal.build().form().name()
        + (plates.isEmpty()
            ? ""
            : Words.say(" with %s %s", Words.plural(plates.size(), "plate"), Words.list(plates)))
        + (signal.note().isEmpty() ? "" : " (" + signal.note() + ")");
  }

  private static String parts(Wiring wiring) {
    boolean priced = wiring.parts().stream().anyMatch(i -> i.price() > 0);
    StringBuilder out = new StringBuilder();
    out.append(
        Markdown.heads(
            priced ? List.of("part", "count", "each", "together") : List.of("part", "count")));
    for (Item item : wiring.parts()) {
      List<String> cells = new ArrayList<>(List.of(item.what(), Words.number(item.count())));
      if (priced) {
        cells.add(item.price() == 0 ? "" : Words.say("%.2f", item.price()));
        cells.add(item.price() == 0 ? "" : Words.say("%.2f", item.cost()));
      }
      out.append(Markdown.row(cells));
    }
    if (priced) {
      double all = wiring.parts().stream().mapToDouble(Item::cost).sum();
      out.append(
          Markdown.row(
              List.of("all that has a price", "", wiring.currency(), Words.say("%.2f", all))));
    }
    return out.toString();
  }
}
