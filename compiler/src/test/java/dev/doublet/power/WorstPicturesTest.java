package dev.doublet.power;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Cable;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.State;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Display;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The pictures taken for the worst, against every picture of every signal together. */
class WorstPicturesTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red yellow green }
      head row { lamp a, b, c, d shows red, yellow, green
                 figure near lights a in yellow, b in yellow
                 figure far lights c in red, d in red
                 figure wide lights a in green, d in green }
      form one-head { top }
      aspect "Clear"    { number 2  allows normal then normal  on one-head show near }
      aspect "Approach" { number 1  allows normal then stop    on one-head show wide }
      aspect "Stop"     { number 0  allows stop                on one-head show far }
      """;

  private static final String LAYOUT =
      """
      layout: Power
      rulebook: book.aspects
      leds:
        rgb: {colours: {red: [250, 0, 0], yellow: [200, 60, 0], green: [0, 240, 0]}}
      controllers:
        west:
          flash: 9000
          ram: 900
          chains:
            main:
              supply: {volts: 5, amps: 2}
              cable: {awg: 28, metres: 20}
              feeds: FEEDS
              signals:
              - {name: W1, form: one-head, heads: [row], by: aspect-number}
              - {name: W2}
              - {gap: 3}
              - {name: W3}
              - {name: W4}
      """;

  @ParameterizedTest
  @ValueSource(strings = {"[0]", "[19]", "[0, 19]", "[6]", "[3, 12]"})
  void no_choice_of_pictures_leaves_any_led_less(String feeds) {
    Layout layout = layout(feeds);
    Controller controller = layout.controllers().get(0);
    Chain chain = controller.chains().get(0);
    Flow flow = Flow.of(chain, Draw.of(layout.rulebook(), controller, chain)).orElseThrow();
    Cable cable = chain.cable();
    double ohms = 2 * cable.ohmsPerMetre() * cable.metres() / chain.leds();
    double[] most = new double[chain.leds()];
    for (double[] loads : choices(controller, chain)) {
      double[] drops = Kirchhoff.solve(loads, ohms, chain.feeds()).drops();
      for (int led = 0; led < most.length; led++) {
        most[led] = Math.max(most[led], drops[led + 1]);
      }
    }
    for (int led = 0; led < most.length; led++) {
      assertThat(5 - flow.volts(led)).isCloseTo(most[led], within(1e-9));
    }
  }

  @Test
  void no_choice_of_pictures_draws_more() {
    Layout layout = layout("[0]");
    Controller controller = layout.controllers().get(0);
    Chain chain = controller.chains().get(0);
    double most =
        choices(controller, chain).stream()
            .mapToDouble(c -> Arrays.stream(c).sum())
            .max()
            .orElseThrow();
    assertThat(Draw.of(layout.rulebook(), controller, chain).milliamps() / 1000)
        .isCloseTo(most, within(1e-12));
  }

  /** Amperes at each place of the cable, for every choice of pictures. */
  private static List<double[]> choices(Controller controller, Chain chain) {
    List<double[]> all = new ArrayList<>();
    for (List<State> choice : choices(controller.units())) {
      double[] loads = new double[chain.leds() + 1];
      for (int led = 1; led < loads.length; led++) {
        loads[led] = 0.001;
      }
      for (int i = 0; i < choice.size(); i++) {
        List<Display> lit = choice.get(i).lit();
        for (int lamp = 0; lamp < lit.size(); lamp++) {
          loads[controller.units().get(i).led() + lamp + 1] += amps(lit.get(lamp));
        }
      }
      all.add(loads);
    }
    return all;
  }

  private static double amps(Display display) {
    return switch (display.look()) {
      case "red" -> 0.020 * 250 / 255;
      case "yellow" -> 0.020 * 260 / 255;
      case "green" -> 0.020 * 240 / 255;
      default -> 0;
    };
  }

  private static List<List<State>> choices(List<Unit> units) {
    List<List<State>> all = List.of(List.of());
    for (Unit unit : units) {
      List<List<State>> longer = new ArrayList<>();
      for (List<State> before : all) {
        for (State state : unit.kind().states()) {
          List<State> with = new ArrayList<>(before);
          with.add(state);
          longer.add(with);
        }
      }
      all = longer;
    }
    return all;
  }

  private static Layout layout(String feeds) {
    String text = LAYOUT.replace("FEEDS", feeds);
    SourceReader reader = path -> new SourceFile(path, path.equals("layout.yaml") ? text : BOOK);
    Outcome<Layout> outcome = LayoutResolver.resolve("layout.yaml", reader);
    return outcome.value().orElseThrow(() -> new AssertionError(outcome.diagnostics()));
  }
}
