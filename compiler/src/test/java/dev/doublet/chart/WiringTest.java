package dev.doublet.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.tuple;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.chart.Wiring.Led;
import dev.doublet.chart.Wiring.Lens;
import dev.doublet.chart.Wiring.Lit;
import dev.doublet.chart.Wiring.Strand;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.golden.Case;
import dev.doublet.golden.Run;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Size;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.rulebook.Display;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;

/** The wiring list, against the layouts it is made of and against published sizes. */
class WiringTest {
  private static final Path PAGES = Path.of("src/test/resources/cases/chart");

  static List<Path> pages() {
    return Case.pages(PAGES);
  }

  @ParameterizedTest
  @MethodSource("pages")
  void each_case_gives_exactly_its_page_and_its_rows(Path page) {
    Case input = Case.of(page);
    Layout layout = LayoutResolver.resolve(input.root(), input.reader()).value().orElseThrow();
    List<Wiring> wirings = Wiring.of(LayoutFacts.of(layout, CheckOptions.ALL));
    StringBuilder actual = new StringBuilder();
    wirings.forEach(w -> actual.append(WiringMarkdown.of(w)).append('\n'));
    input.verify(actual.append(WiringCsv.of(wirings)).toString());
  }

  @Test
  void whatever_a_signal_shows_an_led_of_it_only_lights_in_a_colour_of_the_lamp_listed_there() {
    for (Wiring wiring : Wiring.of(LayoutFacts.of(demo(), CheckOptions.ALL))) {
      for (Strand strand : wiring.chains()) {
        for (Led led : strand.leds()) {
          led.lamp().ifPresent(lit -> holds(led, lit));
        }
      }
    }
  }

  private static void holds(Led led, Lit lit) {
    Unit unit = lit.unit();
    assertThat(unit.led() + unit.kind().leds()).isGreaterThanOrEqualTo(led.number());
    List<Display> shown =
        unit.kind().states().stream()
            .map(s -> s.lit().get(led.number() - 1 - unit.led()))
            .filter(d -> !d.equals(Display.DARK))
            .toList();
    assertThat(shown).allMatch(d -> lit.lamp().shows(d.look()));
  }

  @Test
  void every_lamp_of_every_signal_is_listed_once_and_every_led_has_a_row() {
    Layout layout = demo();
    List<Led> leds =
        Wiring.of(LayoutFacts.of(layout, CheckOptions.ALL)).stream()
            .flatMap(w -> w.chains().stream())
            .flatMap(s -> s.leds().stream())
            .toList();
    int chained =
        layout.controllers().stream()
            .flatMap(c -> c.chains().stream())
            .mapToInt(c -> c.leds())
            .sum();
    int lamps =
        layout.controllers().stream()
            .flatMap(c -> c.signals().stream())
            .flatMap(s -> s.build().heads().stream())
            .mapToInt(h -> h.lamps().size())
            .sum();
    assertThat(leds).hasSize(chained);
    assertThat(leds).filteredOn(l -> l.lamp().isPresent()).hasSize(lamps);
  }

  /**
   * Lenses of 213 and 162 mm are AREMA signal manual 7.1.1's; what becomes of them at each scale
   * was computed from those, as the file says.
   */
  @ParameterizedTest(name = "1:{0}")
  @CsvFileSource(resources = "/facts/colour/lenses.csv", numLinesToSkip = 1)
  void lenses_have_the_size_of_the_scale(double scale, double millimetres) {
    List<Lens> lenses = lenses("scale: " + scale, "");
    assertThat(lenses).extracting(Lens::fullSize).containsExactly(213.0, 162.0);
    assertThat(lenses.get(0).wide()).isCloseTo(millimetres, within(0.0051));
    assertThat(lenses.get(1).wide() / lenses.get(0).wide()).isEqualTo(162 / 213.0, within(1e-9));
    assertThat(lenses).extracting(Lens::forms).containsExactly(List.of("high"), List.of("low"));
  }

  @Test
  void a_lens_is_as_the_signal_says_or_its_kind_or_the_layout() {
    assertThat(lenses("lens: 300", "")).extracting(Lens::fullSize).containsExactly(300.0);
    assertThat(lenses("lens: 300", "lens: 127.5"))
        .isEqualTo(
            List.of(
                new Lens(new Size(87.1, false, 300, 0), List.of("high")),
                new Lens(new Size(87.1, false, 127.5, 0), List.of("low"))));
    assertThat(lenses("kinds: {a: {form: low, heads: [h], by: topic, lens: 100}}", "kind: a"))
        .extracting(Lens::fullSize)
        .containsExactly(213.0, 100.0);
    assertThat(
            lenses("kinds: {a: {form: low, heads: [h], by: topic, lens: 100}}", "kind: a, lens: 9"))
        .extracting(Lens::fullSize)
        .containsExactly(213.0, 9.0);
  }

  /** A width on the model holds whatever the scale is, and the nearer word goes before. */
  @Test
  void a_lens_may_be_said_as_it_is_on_the_model() {
    assertThat(lenses("model-lens: 2", "scale: O"))
        .extracting(Lens::wide, Lens::fullSize, lens -> lens.size().scale())
        .containsExactly(tuple(2.0, 2 * 87.1, 87.1), tuple(2.0, 96.0, 48.0));
    assertThat(lenses("lens: 300", "model-lens: 1.5"))
        .extracting(Lens::wide)
        .containsExactly(300 / 87.1, 1.5 * 87.1 / 87.1);
    String kinds = "kinds: {a: {form: low, heads: [h], by: topic, %s}}";
    assertThat(lenses(kinds.formatted("model-lens: 3"), "kind: a, lens: 174.2"))
        .extracting(Lens::wide)
        .containsExactly(213 / 87.1, 2.0);
    assertThat(lenses(kinds.formatted("lens: 100"), "kind: a, model-lens: 1"))
        .extracting(Lens::wide)
        .containsExactly(213 / 87.1, 1.0);
  }

  /** What is seen of a lamp is the end of its fibre, and no more than its lens. */
  @Test
  void of_a_fibre_its_end_is_seen() {
    assertThat(lenses("model-lens: 2", "fibre: 0.75").get(1).size().seen()).isEqualTo(0.75);
    assertThat(lenses("model-lens: 2", "fibre: 3").get(1).size().seen()).isEqualTo(2);
    assertThat(lenses("model-lens: 2", "").get(0).size().seen()).isEqualTo(2);
  }

  /** What a check advises is what the chart has people buy. */
  @Test
  void fuses_are_those_that_wire_too_thin_asks_for() {
    Case fuses = Case.of(Path.of("src/test/resources/cases/budget/fuses.md"));
    Layout layout = LayoutResolver.resolve(fuses.root(), fuses.reader()).value().orElseThrow();
    String chart = WiringMarkdown.of(Wiring.of(LayoutFacts.of(layout, CheckOptions.ALL)).get(0));
    List<String> advice =
        Run.compile(fuses).diagnostics().stream()
            .filter(d -> d.name().equals("wire-too-thin"))
            .map(Diagnostic::help)
            .toList();
    assertThat(advice).hasSize(3);
    assertThat(advice.get(0)).endsWith("100 mA at its start");
    assertThat(chart).contains("fuse: 100 mA for the feed at the cable's start");
    assertThat(advice.get(1)).endsWith("315 mA at its start and 315 mA at LED 400");
    assertThat(chart)
        .contains(
            "fuses: 315 mA for the feed at the cable's start; 315 mA for the feed at LED 400");
    assertThat(advice.get(2)).startsWith("use thicker wire");
    assertThat(chart).contains("fuse: none fits, use thicker wire, for the feed");
  }

  private static List<Lens> lenses(String layout, String low) {
    String built = low.startsWith("kind") ? "" : ", form: low, heads: [h]";
    String said = low.isEmpty() ? "" : ", " + low;
    Map<String, String> files =
        Map.of(
            "layout.yaml",
            String.join(
                "\n",
                "layout: Test",
                "rulebook: book.aspects",
                layout,
                "buses: {house: {speaks: mqtt, topics: a}}",
                "controllers: {a: {flash: 9999, ram: 999, chains: {main: {signals: [",
                "  {name: A, form: high, heads: [h], by: topic},",
                "  {name: B, by: topic" + built + said + "}]}}}}"),
            "book.aspects",
            """
            rulebook "Test"
            speeds in mph { normal 60 }
            colours { red }
            head h { lamp main shows red }
            form high { top }
            form low dwarf { top }
            aspect "Stop" { number 0  allows stop  on high show red  on low show red }
            """);
    SourceReader reader = path -> new SourceFile(path, files.get(path));
    Layout resolved = LayoutResolver.resolve("layout.yaml", reader).value().orElseThrow();
    return Wiring.of(LayoutFacts.of(resolved, CheckOptions.ALL)).get(0).lenses();
  }

  /**
   * NMRA S-1.2 defines HO by 3.5 mm to the foot; 3/16 in, 1/4 in and 1/10 in to the foot are S, O
   * and TT by their ratios.
   */
  @ParameterizedTest
  @CsvSource({"HO, 3.5", "S, 4.7625", "O, 6.35", "TT, 2.54"})
  void heads_stand_as_many_millimetres_high_as_the_scale_has_to_the_foot(
      String scale, double millimetresToTheFoot) {
    Case masts = Case.of(PAGES.resolve("masts.md"));
    SourceReader reader =
        path -> {
          SourceFile file = masts.reader().read(path);
          return new SourceFile(path, file.text().replace("scale: S", "scale: " + scale));
        };
    Layout layout = LayoutResolver.resolve(masts.root(), reader).value().orElseThrow();
    Wiring wiring = Wiring.of(LayoutFacts.of(layout, CheckOptions.ALL)).get(0);
    // Feet of common practice, from memory, as the class Mast has them.
    stands(wiring.posts().get(0), millimetresToTheFoot, 20, 14);
    stands(wiring.posts().get(3), millimetresToTheFoot, 20, 14);
    stands(wiring.posts().get(4), millimetresToTheFoot, 2.5, 1.5);
    stands(wiring.posts().get(5), millimetresToTheFoot, 20);
  }

  private static void stands(Wiring.Post post, double toTheFoot, double... feet) {
    assertThat(post.mast().metres()).hasSize(feet.length);
    for (int head = 0; head < feet.length; head++) {
      double expected = feet[head] * toTheFoot;
      assertThat(post.height(head)).isCloseTo(expected, within(expected * 0.0002));
    }
  }

  @Test
  void text_with_bars_stays_in_its_cell() {
    assertThat(Markdown.row(List.of("a|b", "", "c"))).isEqualTo("| a\\|b | | c |\n");
  }

  private static Layout demo() {
    SourceReader reader =
        path -> {
          try {
            return new SourceFile(path, Files.readString(Path.of("..").resolve(path)));
          } catch (IOException e) {
            throw new SourceReader.Unreadable("there is no such file");
          }
        };
    return LayoutResolver.resolve("examples/brackwater/layout.yaml", reader).value().orElseThrow();
  }
}
