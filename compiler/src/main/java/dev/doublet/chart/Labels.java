package dev.doublet.chart;

import dev.doublet.diagnostic.Words;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Bus;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Command;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Lay;
import dev.doublet.layout.Signal;
import dev.doublet.layout.Unit;
import dev.doublet.power.Flow;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;

/**
 * What is stuck on signals and on both ends of their cables.
 *
 * @param title the layout's
 * @param signals one a signal, chain by chain
 * @param cables two a piece of cable, one for each end
 */
public record Labels(String title, List<Label> signals, List<Label> cables) {

  /** Copies the lists. */
  public Labels {
    signals = List.copyOf(signals);
    cables = List.copyOf(cables);
  }

  /**
   * One label.
   *
   * @param name what stands in the first line, large
   * @param lines what stands below it
   */
  public record Label(String name, List<String> lines) {

    /** Copies the list. */
    public Label {
      lines = List.copyOf(lines);
    }
  }

  /** Of a layout. */
  public static Labels of(LayoutFacts facts) {
    List<Label> signals = new ArrayList<>();
    List<Label> cables = new ArrayList<>();
    for (Controller controller : facts.layout().controllers()) {
      for (Chain chain : controller.chains()) {
        List<Signal> along =
            controller.signals().stream()
                .filter(s -> s.units().get(0).chain() == chain)
                .sorted(Comparator.comparingInt(Labels::first))
                .toList();
        String where = controller.name() + " " + chain.name();
        along.forEach(s -> signals.add(signal(s, where)));
        cables.addAll(cables(chain, along, where, facts.flow(controller, chain)));
      }
    }
    return new Labels(facts.layout().title(), signals, cables);
  }

  private static int first(Signal signal) {
    return signal.units().stream().mapToInt(Unit::led).min().orElseThrow() + 1;
  }

  private static Label signal(Signal signal, String where) {
    int last = signal.units().stream().mapToInt(u -> u.led() + u.kind().leds()).max().orElseThrow();
    int first = first(signal);
    String leds = first == last ? "LED " + first : "LED " + first + " to " + last;
    List<String> at =
        signal.units().stream().map(u -> at(u.command())).filter(s -> !s.isEmpty()).toList();
    return new Label(signal.name(), List.of(String.join("; ", at), where + ", " + leds));
  }

  private static String at(Command command) {
    if (command.bus().speaks() != Bus.Speaks.DCC) {
      return command.topic();
    }
    List<Integer> addresses = command.addresses();
    int first = addresses.get(0);
    boolean row = true;
    for (int i = 0; i < addresses.size(); i++) {
      row &= addresses.get(i) == first + i;
    }
    return addresses.size() > 1 && row
        ? first + " to " + (first + addresses.size() - 1)
        : String.join(", ", addresses.stream().map(a -> Integer.toString(a)).toList());
  }

  /** From the controller to the first signal, and from each to the next; and the feeds. */
  private static List<Label> cables(
      Chain chain, List<Signal> along, String where, Optional<Flow> flow) {
    List<Label> cables = new ArrayList<>();
    String from = where;
    double at = 0;
    Lay lay = chain.cable().lay();
    for (Signal signal : along) {
      Optional<Lay.Board> board =
          lay.boards().stream().filter(b -> b.signals().contains(signal.name())).findFirst();
      String to = board.map(Lay.Board::name).orElse(signal.name());
      double end = chain.cable().isSaid() ? chain.cable().at(first(signal), chain.leds()) : 0;
      if (!to.equals(from)) {
        String metres =
            lay.at().isEmpty() || end == at ? "" : length(end - at, chain.cable().words());
        both(cables, new Label(to, List.of(from + " to " + to, metres)));
      }
      Optional<String> lead =
          lay.leads().stream()
              .filter(l -> l.first() + 1 == first(signal))
              .map(l -> length(l.wire().metres(), l.wire().words()))
              .findFirst();
      if (board.isPresent() || lead.isPresent()) {
        String socket =
            board
                .map(b -> b.name() + " socket " + (b.signals().indexOf(signal.name()) + 1))
                .orElse("cable");
        both(
            cables,
            new Label(signal.name(), List.of(socket + " to " + signal.name(), lead.orElse(""))));
      }
      from = to;
      at = end;
    }
    for (int i = 0; i < chain.feeds().size(); i++) {
      int feed = chain.feeds().get(i);
      String fuse =
          flow.flatMap(f -> f.fuses().get(chain.feeds().indexOf(feed)))
              .map(amps -> "fuse " + Words.amps(amps))
              .orElse("");
      Chain.Section section =
          chain.sections().stream().filter(s -> s.feeds().contains(feed)).findFirst().orElseThrow();
      String volts =
          section.supply().volts() == 0 ? "" : Words.number(section.supply().volts()) + " V";
      Label label =
          new Label(
              feed == 0 ? "feed" : "feed at LED " + feed,
              List.of(
                  where,
                  String.join(
                      ", ",
                      List.of(volts, section.supply().name(), fuse).stream()
                          .filter(t -> !t.isEmpty())
                          .toList())));
      both(cables, label);
    }
    for (Lay.Feed feed : chain.cable().lay().feeds()) {
      if (feed.supply().isPresent()) {
        cables.add(
            new Label(
                "volts cut here",
                List.of(where, "between LED " + (feed.at() - 1) + " and " + feed.at())));
      }
    }
    return cables;
  }

  private static void both(List<Label> cables, Label label) {
    cables.add(label);
    cables.add(label);
  }

  private static String length(double metres, String wire) {
    return Words.say("%s m of %s", Words.number(metres), wire);
  }
}
