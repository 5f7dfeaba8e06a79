package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.FaultWords;
import dev.doublet.failure.Condition;
import dev.doublet.failure.Dies;
import dev.doublet.failure.Failure;
import dev.doublet.failure.Site;
import dev.doublet.failure.SiteFailures;
import dev.doublet.failure.Trial;
import dev.doublet.failure.Verdict;
import dev.doublet.layout.Kind;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Signal;
import dev.doublet.rulebook.Rulebook;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class ReadingsTest {
  /** What the page calls a false proceed is what the check reports, and nothing else. */
  @Test
  void a_dead_die_that_misleads_is_the_one_that_is_reported() throws Exception {
    Compiler.Checked<?> checked =
        Compiler.checkLayout("examples/dead-led/layout.yaml", Pages::fromProject, CheckOptions.ALL);
    List<String> reported =
        checked.diagnostics().stream()
            .filter(d -> d.name().equals("false-proceed"))
            .map(d -> d.message())
            .toList();
    Layout layout = layout("examples/dead-led/layout.yaml");
    var misleading = new TreeSet<String>();
    for (Map.Entry<Signal, Readings> one : Readings.of(layout).entrySet()) {
      Kind kind = one.getKey().units().get(0).kind();
      one.getValue()
          .byStates()
          .forEach(
              (state, readings) ->
                  readings.stream()
                      .filter(r -> r.verdict() == Verdict.MORE)
                      .forEach(
                          r ->
                              misleading.add(
                                  kind.states().get(Integer.parseInt(state)).name()
                                      + ": "
                                      + r.fault().words()
                                      + ": "
                                      + r.read())));
    }
    assertThat(misleading)
        .containsExactly("Approach: the red die in the top head is dead: [Clear]");
    assertThat(reported)
        .singleElement()
        .asString()
        .contains("\"Approach\" is read as \"Clear\" when the red die in the top head is dead");
  }

  /** The demo is clean: every fault of every picture is read, and what misleads is covered. */
  @Test
  void everything_on_the_demo_that_misleads_is_covered() {
    Layout layout = layout(Pages.DEMO);
    Map<Signal, Readings> all = Readings.of(layout);
    for (var one : all.entrySet()) {
      Readings readings = one.getValue();
      assertThat(readings.byStates()).isNotEmpty();
      readings
          .byStates()
          .values()
          .forEach(
              list -> {
                assertThat(list)
                    .allMatch(r -> r.verdict() != Verdict.MORE || !r.covered().isEmpty());
                assertThat(list.stream().map(r -> r.fault().how()).collect(Collectors.toSet()))
                    .contains(Readings.How.CHAIN);
              });
      int leds = one.getKey().units().stream().mapToInt(u -> u.kind().leds()).sum();
      assertThat(readings.faults())
          .allSatisfy(f -> assertThat(f.leds()).allMatch(led -> led >= 0 && led < leds));
    }
    assertThat(all).hasSize(layout.controllers().stream().mapToInt(c -> c.signals().size()).sum());
  }

  @Test
  void where_the_chain_breaks_stands_an_led_or_a_chip() {
    Layout quarry = layout("examples/quarry/layout.yaml");
    var words = new TreeSet<String>();
    Readings.of(quarry)
        .forEach(
            (signal, readings) ->
                readings.faults().stream()
                    .filter(fault -> fault.how() == Readings.How.CHAIN)
                    .forEach(fault -> words.add(signal.name() + ": " + fault.words())));
    assertThat(words)
        .containsExactly(
            "G1: its LED is dark",
            "G2: its LED is dark",
            "Q1: its chip is dark",
            "Q2: its chip is dark");
  }

  /** The page tries all that the checks try, and what a crew makes of it is the same. */
  @ParameterizedTest
  @ValueSource(
      strings = {
        Pages.DEMO,
        "examples/terminus/layout.yaml",
        "examples/dead-led/layout.yaml",
        "examples/quarry/layout.yaml"
      })
  void every_single_fault_that_is_tried_is_on_the_page(String path) {
    Layout layout = layout(path);
    for (Map.Entry<Signal, Readings> one : Readings.of(layout).entrySet()) {
      Rulebook book = layout.rulebook();
      Site site =
          Site.of(book, List.of(one.getKey()), part -> Dies.of(part, book, 1)).orElseThrow();
      var tried = new TreeSet<String>();
      for (Site.AspectPicture shown : site.shown()) {
        Condition whole = site.whole(shown.picture());
        List<Failure> all = new ArrayList<>(SiteFailures.failures(site, shown.picture()));
        all.addAll(SiteFailures.stuck(site, shown.picture()));
        all.addAll(SiteFailures.diesStuck(site, shown.picture(), site.dies()));
        for (Failure failure : all) {
          Trial trial = Trial.of(whole, failure);
          tried.add(FaultWords.failed(site, trial) + ": " + FaultWords.seen(trial));
        }
      }
      var read = new TreeSet<String>();
      one.getValue()
          .byStates()
          .values()
          .forEach(
              list ->
                  list.forEach(
                      r ->
                          read.add(
                              r.fault().words().replaceAll(" as it is in .*", "")
                                  + ": "
                                  + r.seen())));
      assertThat(read).as(one.getKey().name()).isEqualTo(tried);
    }
  }

  private static Layout layout(String path) {
    return Compiler.checkLayout(path, Pages::fromProject, CheckOptions.ALL)
        .value()
        .orElseThrow()
        .layout();
  }
}
