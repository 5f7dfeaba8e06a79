package dev.doublet;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.chart.ThrottleSheet;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Unit;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import org.junit.jupiter.api.Test;

/** Modules at meets: their tables are their own, and signals that move keep their addresses. */
class ModulesTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern" edition 2
      speeds in mph { normal 60 }
      colours { red green }
      head searchlight { lamp main shows red, green }
      form one-head { top }
      aspect "Clear"    { number 1  allows normal then normal  on one-head show green }
      aspect "Stop"     { number 0  allows stop                on one-head show red }
      """;

  private final Map<String, String> files =
      new HashMap<>(
          Map.of(
              "book.aspects", BOOK,
              "tower.yaml", module("tower", "W1", 1, "W2", 9),
              "yard.yaml", module("yard", "Y1", 1, "Y2", 2),
              "bay.yaml", module("bay", "B1", 1, "B2", 2)));

  private static String module(String name, Object... signals) {
    StringBuilder text =
        new StringBuilder(
            """
            layout: %s
            rulebook: book.aspects
            otherwise: most-restrictive
            buses:
              track: {speaks: dcc}
            kinds:
              one: {form: one-head, heads: [searchlight], by: aspect-number}
            controllers:
              %s:
                board: avr-16mhz
                chains:
                  main:
                    signals:
            """
                .formatted(name, name));
    for (int i = 0; i < signals.length; i += 2) {
      text.append(
          "        - {name: " + signals[i] + ", kind: one, address: " + signals[i + 1] + "}\n");
    }
    return text.toString();
  }

  private String meet(String... uses) {
    String text =
        """
        layout: A meet
        rulebook: book.aspects
        otherwise: most-restrictive
        uses:
        """;
    return text + "  " + String.join("\n  ", uses) + "\n";
  }

  private SortedMap<String, byte[]> tables(String path) {
    Build build = Compiler.build(path, reader());
    assertThat(build.refusal()).as("%s", build.checked().diagnostics()).isEmpty();
    return build.files();
  }

  private SourceReader reader() {
    return path -> new SourceFile(path, files.get(path));
  }

  private List<Unit> units(String path) {
    return Compiler.checkLayout(path, reader(), CheckOptions.ALL).value().orElseThrow().units();
  }

  @Test
  void a_module_has_the_same_table_at_every_meet() {
    files.put("spring.yaml", meet("t: {layout: tower.yaml, offset: 50}", "y: {layout: yard.yaml}"));
    files.put(
        "autumn.yaml",
        meet(
            "b: {layout: bay.yaml, offset: 300, prefix: x}",
            "t: {layout: tower.yaml, offset: 50, prefix: T}"));
    files.put("alone.yaml", meet("t: {layout: tower.yaml}"));
    byte[] spring = tables("spring.yaml").get("tower.bin");
    assertThat(tables("autumn.yaml").get("tower.bin")).isEqualTo(spring);
    assertThat(tables("alone.yaml").get("tower.bin"))
        .isEqualTo(tables("tower.yaml").get("tower.bin"))
        .isNotEqualTo(spring);
    assertThat(tables("spring.yaml").keySet()).contains("tower.bin", "yard.bin");
  }

  /** What a table numbers must not follow a file that is not its module's. */
  @Test
  void a_module_has_the_same_table_wherever_a_meet_declares_its_buses() {
    String two = "buses:\n  track: {speaks: dcc}\n  house: {speaks: mqtt}\n";
    String swapped = "buses:\n  house: {speaks: mqtt}\n  track: {speaks: dcc}\n";
    files.put(
        "two.yaml",
        module("two", "D1", 1).replace("buses:\n  track: {speaks: dcc}\n", two)
            + "        - {name: D2, by: topic}\n");
    byte[] alone = tables("two.yaml").get("two.bin");
    for (String buses : List.of(two, swapped)) {
      files.put("meet.yaml", meet("d: {layout: two.yaml}") + buses);
      assertThat(tables("meet.yaml").get("two.bin")).isEqualTo(alone);
    }
  }

  /** Carried from one module to another with a different offset, its line as it was. */
  @Test
  void a_signal_that_moves_between_modules_keeps_its_address() {
    String fixed = "        - {name: W9, kind: one, address: 77, offset: none}\n";
    files.put(
        "meet.yaml",
        meet("t: {layout: tower.yaml, offset: 100}", "y: {layout: yard.yaml, offset: 200}"));
    String tower = files.get("tower.yaml");
    files.put("tower.yaml", tower + fixed);
    assertThat(address("meet.yaml", "W9")).isEqualTo(77);
    files.put("tower.yaml", tower);
    files.put("yard.yaml", files.get("yard.yaml") + fixed);
    assertThat(address("meet.yaml", "W9")).isEqualTo(77);
    assertThat(address("meet.yaml", "Y2")).isEqualTo(202);
    assertThat(address("meet.yaml", "W2")).isEqualTo(109);
  }

  private int address(String path, String signal) {
    return units(path).stream()
        .filter(u -> u.name().equals(signal))
        .findFirst()
        .orElseThrow()
        .command()
        .addresses()
        .get(0);
  }

  @Test
  void a_sheet_tells_whose_addresses_are_moved() {
    files.put("meet.yaml", meet("t: {layout: tower.yaml, offset: 100, owner: A. Reed}"));
    Layout layout =
        Compiler.checkLayout("meet.yaml", reader(), CheckOptions.ALL)
            .value()
            .map(LayoutFacts::layout)
            .orElseThrow();
    assertThat(ThrottleSheet.of(layout).notes())
        .contains(
            "Signals of module t of A. Reed, on controller tower: DCC addresses are 100 more than in"
                + " its own file.");
  }
}
