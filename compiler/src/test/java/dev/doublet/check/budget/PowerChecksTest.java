package dev.doublet.check.budget;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Outcome;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

/** Power and time of chains, beyond what the checks' pages show. */
class PowerChecksTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red yellow green }
      rhythms { flashing 300 per minute }
      head searchlight { lamp main shows red, yellow, green }
      form one-head { top }
      aspect "Clear"    { number 2  allows normal then normal  on one-head show green }
      aspect "Approach" { number 1  allows normal then stop    on one-head show flashing yellow }
      aspect "Stop"     { number 0  allows stop                on one-head show red }
      """;

  @Test
  void chains_that_share_a_supply_are_added_up_over_controllers() {
    String chain =
        """
              main:
                supply: bench
                signals:
                - {name: %s, form: one-head, heads: [searchlight], by: aspect-number}
        """;
    String one = "  %s:\n    flash: 9000\n    ram: 900\n    chains:\n";
    String layout = "supplies:\n  bench: {volts: 5, amps: 0.05}\ncontrollers:\n";
    String west = one.replace("%s", "west") + chain.replace("%s", "W1");
    String east = one.replace("%s", "east") + chain.replace("%s", "E1");
    assertThat(found("supply-too-small", layout + west)).isEmpty();
    assertThat(found("supply-too-small", layout + west + east))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.message())
                  .startsWith("chains main and main can draw ")
                  .endsWith(" mA, and supply bench gives 50 mA");
              assertThat(d.related()).hasSize(1);
            });
  }

  /** Of lamps on one clock either is lit; two controllers were not started at one moment. */
  @Test
  void chains_of_one_controller_take_turns_and_those_of_two_do_not() {
    String book =
        """
        rulebook "Turns"
        speeds in mph { normal 60 }
        colours { red yellow }
        rhythms { early 60 per minute  late 60 per minute starting dark }
        head lantern { lamp main shows red, yellow }
        form early-post { top }
        form late-post { top }
        aspect "Early" { number 1  allows normal  on early-post show early yellow }
        aspect "Late"  { number 2  allows normal  on late-post show late yellow }
        """;
    String chain =
        """
              %s:
                supply: bench
                signals:
                - {name: %s, form: %s-post, heads: [lantern], by: aspect-number}
        """;
    String early = chain.formatted("first", "W1", "early");
    String late = chain.formatted("second", "W2", "late");
    String controller = "  %s:\n    flash: 9000\n    ram: 900\n    chains:\n";
    String head =
        """
        layout: Turns
        rulebook: book.aspects
        supplies:
          bench: {volts: 5, amps: 0.06}
        leds:
          rgb:
            milliamps: {channel: 20, rest: 1}
            colours: {red: [255, 0, 0], yellow: [255, 255, 0]}
        controllers:
        """;
    String west = controller.formatted("west");
    String east = controller.formatted("east");
    assertThat(tooSmall(book, head + west + early + late)).isEmpty();
    assertThat(tooSmall(book, head + west + early + east + late))
        .singleElement()
        .satisfies(d -> assertThat(d.message()).contains("can draw 82 mA"));
  }

  private static List<Diagnostic> tooSmall(String book, String layout) {
    Outcome<Layout> outcome =
        LayoutResolver.resolve(
            "layout.yaml", path -> new SourceFile(path, path.endsWith("yaml") ? layout : book));
    Layout made = outcome.value().orElseThrow(() -> new AssertionError(outcome.diagnostics()));
    return new SupplyTooSmall().find(LayoutFacts.of(made, CheckOptions.ALL));
  }

  @Test
  void voltage_that_only_a_warm_day_takes_away_is_a_warning() {
    assertThat(found("voltage-too-low", chain("{awg: 28, metres: 35}", "", 98)))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.severity()).isEqualTo(Severity.WARNING);
              assertThat(d.message()).contains("little more than the 3.7 V its LEDs need");
            });
    assertThat(found("voltage-too-low", chain("{awg: 28, metres: 10}", "", 98))).isEmpty();
  }

  @Test
  void the_feed_and_the_wire_that_are_advised_are_enough() {
    String help = found("voltage-too-low", chain("{awg: 28, metres: 60}", "", 98)).get(0).help();
    Matcher feed = Pattern.compile("LED ([0-9]+)").matcher(help);
    Matcher gauge = Pattern.compile("AWG ([0-9]+)").matcher(help);
    assertThat(feed.find() && gauge.find()).as(help).isTrue();
    String fed = "        feeds: [0, " + feed.group(1) + "]\n";
    assertThat(found("voltage-too-low", chain("{awg: 28, metres: 60}", fed, 98))).isEmpty();
    String thicker = "{awg: " + gauge.group(1) + ", metres: 60}";
    assertThat(found("voltage-too-low", chain(thicker, "", 98))).isEmpty();
    String thinner = "{awg: " + (Integer.parseInt(gauge.group(1)) + 2) + ", metres: 60}";
    assertThat(found("voltage-too-low", chain(thinner, "", 98))).isNotEmpty();
  }

  @Test
  void a_supply_of_too_few_volts_is_no_fault_of_the_cable() {
    String layout = chain("{awg: 24, metres: 1}", "", 1).replace("volts: 5", "volts: 3.3");
    assertThat(found("voltage-too-low", layout).get(0).help())
        .isEqualTo("use a supply of more volts, up to the 5.3 V that its LEDs bear");
  }

  @Test
  void what_neither_feed_nor_wire_mends_is_to_be_split() {
    assertThat(found("voltage-too-low", chain("{awg: 30, metres: 1000}", "", 3000)).get(0).help())
        .startsWith("split the chain");
  }

  @Test
  void the_signals_to_split_at_leave_chains_that_are_sent_in_time() {
    List<Diagnostic> slow = found("slow-chain", chain("{awg: 18, metres: 1}", "", 800, 800, 3));
    assertThat(slow)
        .singleElement()
        .satisfies(
            d ->
                assertThat(d.help())
                    .isEqualTo(
                        "begin a new chain at signal W3 (LED 1603): each is then sent in time"));
    assertThat(found("slow-chain", chain("{awg: 18, metres: 1}", "", 800))).isEmpty();
  }

  @Test
  void leds_behind_the_last_signal_are_told_of() {
    String layout = chain("{awg: 18, metres: 1}", "", 3) + "        - {gap: 2000}\n";
    assertThat(found("slow-chain", layout).get(0).help())
        .isEqualTo("end the chain after LED 5: the LEDs behind it belong to no signal");
  }

  /** A chain with signals and so many LEDs passed over between them. */
  private static String chain(String cable, String feeds, int... gaps) {
    StringBuilder layout =
        new StringBuilder(
            """
            controllers:
              west:
                flash: 9000
                ram: 90000
                chains:
                  main:
                    supply: {volts: 5, amps: 9}
            """);
    layout.append("        cable: ").append(cable).append('\n').append(feeds);
    layout.append("        signals:\n");
    layout.append(
        "        - {name: W1, form: one-head, heads: [searchlight], by: aspect-number}\n");
    for (int i = 0; i < gaps.length; i++) {
      layout.append("        - {gap: ").append(gaps[i]).append("}\n");
      layout.append("        - {name: W").append(i + 2).append("}\n");
    }
    return layout.toString();
  }

  private static List<Diagnostic> found(String name, String rest) {
    String layout = "layout: Power\nrulebook: book.aspects\notherwise: keep\n" + rest;
    SourceReader reader = path -> new SourceFile(path, path.equals("layout.yaml") ? layout : BOOK);
    Compiler.Checked<?> checked = Compiler.checkLayout("layout.yaml", reader, CheckOptions.ALL);
    assertThat(checked.value()).as("%s", checked.diagnostics()).isPresent();
    return checked.diagnostics().stream().filter(d -> d.name().equals(name)).toList();
  }
}
