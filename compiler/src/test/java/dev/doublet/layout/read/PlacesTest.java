package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Unit;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import net.jqwik.api.Arbitraries;
import net.jqwik.api.Arbitrary;
import net.jqwik.api.Combinators;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;
import net.jqwik.api.Tag;
import net.jqwik.api.Tuple;

/** Random cables: LEDs and addresses against a plain count that knows no resolver. */
@Tag("slow")
class PlacesTest {
  private static final String BOOK =
      """
      rulebook "Test" edition 1
      speeds in mph { normal 60 }
      colours { red green }
      head searchlight { lamp main shows red, green }
      form one-head { top }
      form three-head { top, middle, bottom }
      aspect "Clear" { number 1  allows normal then normal
        on one-head show green  on three-head show green over red over red }
      aspect "Stop" { number 0  allows stop
        on one-head show red  on three-head show red over red over red }
      """;
  private static final String HEAD =
      """
      layout: Test
      rulebook: book.aspects
      kinds:
        one: {form: one-head, heads: [searchlight], by: aspect-number}
        three: {form: three-head, heads: [searchlight, searchlight, searchlight], by: binary-coded, bits: 2}
      controllers:
        west:
          flash: 100
          ram: 100
          chains:
            main:
              signals:
      """;

  /**
   * One step along the cable.
   *
   * @param gap LEDs passed over; 0 for a signal
   * @param three true for three heads and two addresses, false for one of each
   * @param led the LED told, from 1; 0 for the next
   * @param address the address told; 0 for the next free
   */
  record Step(int gap, boolean three, int led, int address) {}

  @Provide
  Arbitrary<List<Step>> cables() {
    Arbitrary<Integer> told = Arbitraries.integers().between(1, 30);
    Arbitrary<Integer> sometimes =
        Arbitraries.frequencyOf(Tuple.of(3, Arbitraries.just(0)), Tuple.of(1, told));
    Arbitrary<Integer> gaps =
        Arbitraries.frequencyOf(
            Tuple.of(4, Arbitraries.just(0)), Tuple.of(1, Arbitraries.integers().between(1, 4)));
    return Combinators.combine(gaps, Arbitraries.of(true, false), sometimes, sometimes)
        .as(Step::new)
        .list()
        .ofMinSize(1)
        .ofMaxSize(8);
  }

  @Property(seed = "1957")
  void signalsHangAndListenWhereAPlainCountPutsThem(@ForAll("cables") List<Step> cable) {
    StringBuilder text = new StringBuilder(HEAD);
    List<Integer> leds = new ArrayList<>();
    List<List<Integer>> addresses = new ArrayList<>();
    Set<Integer> hung = new HashSet<>();
    Set<Integer> taken = new HashSet<>();
    boolean shared = false;
    int next = 1;
    int last = 0;
    int end = 0;
    for (Step step : cable) {
      if (step.gap() > 0) {
        text.append("          - {gap: ").append(step.gap()).append("}\n");
        next += step.gap();
        end = Math.max(end, next - 1);
        continue;
      }
      int led = step.led() > 0 ? step.led() : next;
      int count = step.three() ? 2 : 1;
      int address = step.address() > 0 ? step.address() : last + 1;
      while (step.address() == 0
          && (taken.contains(address) || taken.contains(address + count - 1))) {
        address++;
      }
      text.append(
          "          - {name: S%d, kind: %s"
              .formatted(leds.size(), step.three() ? "three" : "one"));
      text.append(step.led() > 0 ? ", led: " + led : "");
      text.append(step.address() > 0 ? ", address: " + address : "").append("}\n");
      List<Integer> own = new ArrayList<>();
      for (int i = 0; i < count; i++) {
        own.add(address + i);
      }
      taken.addAll(own);
      addresses.add(own);
      leds.add(led);
      last = address + count - 1;
      next = led + (step.three() ? 3 : 1);
      end = Math.max(end, next - 1);
      for (int i = led; i < next; i++) {
        shared |= !hung.add(i);
      }
    }
    Outcome<Layout> outcome = resolve(text.toString());
    assertThat(outcome.diagnostics().stream().anyMatch(d -> d.name().equals("led-overlap")))
        .as(text.toString())
        .isEqualTo(shared);
    if (!shared) {
      assertThat(outcome.diagnostics()).filteredOn(Diagnostic::isFinding).isEmpty();
      Controller controller = outcome.value().orElseThrow().controllers().get(0);
      assertThat(controller.chains().get(0).leds()).isEqualTo(end);
      for (Unit unit : controller.units()) {
        int index = Integer.parseInt(unit.name().substring(1));
        assertThat(unit.led() + 1).isEqualTo(leds.get(index));
        assertThat(unit.command().addresses()).isEqualTo(addresses.get(index));
      }
    }
  }

  private static Outcome<Layout> resolve(String layout) {
    return LayoutResolver.resolve(
        "layout.yaml", path -> new SourceFile(path, path.endsWith("yaml") ? layout : BOOK));
  }
}
