package dev.doublet.check.colour;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Severity;
import dev.doublet.source.SourceFile;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/** Colours and rhythms outside the pages of their checks. */
class ColourChecksTest {
  private static final String ROAD = "colours as road { red yellow green }";
  private static final String PLAIN = "colours { red yellow green }";
  private static final String SEARCHLIGHT = "head h { lamp main shows red, yellow, green }";

  @Test
  void aHandWrittenDriveFarOffIsAnErrorThatNamesABetterOne() {
    List<Diagnostic> found = region(ROAD, "leds: {a: {colours: {green: [255, 255, 0]}}}");
    assertThat(found)
        .filteredOn(d -> d.severity() == Severity.ERROR)
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.message())
                  .isEqualTo("green on LEDs of kind \"a\" is not the green of set road");
              assertThat(d.help()).startsWith("send green: [0, 255, 31]; or ");
            });
  }

  @Test
  void withoutASetOnlyALightInNoPublishedRegionIsFound() {
    assertThat(region(PLAIN, "")).isEmpty();
    assertThat(region(PLAIN, "leds: {a: {colours: {green: [0, 255, 0]}}}")).isEmpty();
    assertThat(region(PLAIN, "leds: {a: {colours: {green: [255, 255, 0]}}}"))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.severity()).isEqualTo(Severity.WARNING);
              assertThat(d.message()).contains("in no published region of green");
            });
  }

  @Test
  void everyFamilyMeetsTheUsualSetWithAMiddlingLedAndNoneWithEvery() {
    for (String family :
        List.of(
            "one-wire-rgb-5050",
            "one-wire-rgb-5050-bright",
            "one-wire-rgb-5050-backup",
            "one-wire-rgb-5050-5ma",
            "one-wire-rgb-5050-5ma-dim",
            "one-wire-rgbw-5050-white-6500k",
            "one-wire-rgbw-5050-white-7600k")) {
      assertThat(region(ROAD, "leds: {a: {family: " + family + "}}"))
          .as(family)
          .singleElement()
          .satisfies(d -> assertThat(d.message()).startsWith("yellow").contains("a typical LED"));
    }
  }

  @Test
  void aNameOfOnesOwnIsJudgedAsWhatItMeans() {
    String colours = "colours as marine { red yellow  green as red }";
    assertThat(region(colours, "leds: {a: {colours: {green: [0, 255, 31]}}}"))
        .extracting(Diagnostic::message)
        .contains("green on LEDs of kind \"a\" is not the red of set marine");
  }

  @Test
  void aColourThatNoSetHasIsNotJudged() {
    String colours = "colours as road { red yellow green as purple }";
    assertThat(region(colours, "leds: {a: {colours: {green: [200, 0, 200]}}}"))
        .extracting(Diagnostic::message)
        .noneMatch(m -> m.startsWith("green on"));
  }

  @Test
  void protanEyesCountOnlyWhereTheLayoutSaysSo() {
    assertThat(close(SEARCHLIGHT, "green", "yellow", ""))
        .extracting(Diagnostic::severity)
        .containsOnly(Severity.NOTE);
    assertThat(close(SEARCHLIGHT, "green", "yellow", "eyes: [protan]"))
        .filteredOn(d -> d.message().startsWith("red and yellow"))
        .extracting(Diagnostic::severity)
        .containsExactly(Severity.ERROR);
  }

  @Test
  void anotherLampARhythmOrADarkOneExcusesColoursThatAreAlike() {
    String lamps = "head h { lamp one shows red, yellow  lamp two shows green }";
    String same = "leds: {a: {colours: {yellow: [255, 0, 0]}}}";
    assertThat(errors(close(lamps, "green", "yellow", same))).hasSize(1);
    assertThat(errors(close(lamps, "green", "flashing yellow", same))).isEmpty();
    String apart = "head h { lamp one shows red  lamp two shows green  lamp three shows yellow }";
    assertThat(errors(close(apart, "green", "yellow", same))).isEmpty();
  }

  @Test
  void smallLampsLeaveNobodyShortWaveCones() {
    // Yellow and purple are 0.005 to 0.010 apart in u'v' without short-wave cones: COMPUTED.
    String purple = "leds: {a: {colours: {yellow: [255, 101, 0], green: [255, 0, 197]}}}\n";
    String far = purple + "viewing: 2";
    String near = purple + "viewing: 0.3";
    assertThat(close(SEARCHLIGHT, "green", "yellow", far))
        .filteredOn(d -> d.message().startsWith("green and yellow"))
        .extracting(Diagnostic::severity)
        .containsExactly(Severity.ERROR);
    assertThat(close(SEARCHLIGHT, "green", "yellow", near))
        .filteredOn(d -> d.message().startsWith("green and yellow"))
        .extracting(Diagnostic::severity)
        .containsExactly(Severity.NOTE);
  }

  @Test
  void lampsMergeJustBeyondTheDistanceThatResolvesThem() {
    // 300 mm at 1:87 are told apart up to 11.9 m: COMPUTED, facts/colour.
    String lamps = "head h { lamp one shows red  lamp two shows green  lamp three shows yellow }";
    assertThat(found("lamps-merge", PLAIN, lamps, "green", "yellow", "viewing: 11.8")).isEmpty();
    assertThat(found("lamps-merge", PLAIN, lamps, "green", "yellow", "viewing: 11.9")).hasSize(1);
    assertThat(
            found("lamps-merge", PLAIN, lamps, "green", "yellow", "viewing: 20\nlamp-spacing: 600"))
        .isEmpty();
    assertThat(found("lamps-merge", PLAIN, SEARCHLIGHT, "green", "yellow", "viewing: 99"))
        .isEmpty();
  }

  @Test
  void aLoneWhiteMayHideInAFigureOrBehindAny() {
    String white = "colours { red yellow green as white }";
    assertThat(found("lone-white", white, SEARCHLIGHT, "green", "yellow", "")).hasSize(1);
    String figure =
        "head h { lamp a, b shows green  lamp c shows red yellow  figure row lights a%s }";
    assertThat(found("lone-white", white, figure.replace("%s", ""), "row", "yellow", ""))
        .hasSize(1);
    assertThat(found("lone-white", white, figure.replace("%s", ", b"), "row", "yellow", ""))
        .isEmpty();
    assertThat(found("lone-white", PLAIN, SEARCHLIGHT, "green", "yellow", "")).isEmpty();
  }

  private static List<Diagnostic> errors(List<Diagnostic> found) {
    return found.stream().filter(d -> d.severity() == Severity.ERROR).toList();
  }

  private static List<Diagnostic> region(String colours, String leds) {
    return found("colour-out-of-region", colours, SEARCHLIGHT, "green", "yellow", leds);
  }

  private static List<Diagnostic> close(String head, String clear, String approach, String layout) {
    return found("colours-too-close", PLAIN, head, clear, approach, layout);
  }

  private static List<Diagnostic> found(
      String check, String colours, String head, String clear, String approach, String layout) {
    String book =
        """
        rulebook "Test"
        speeds in mph { normal 60 }
        %s
        rhythms { flashing 50 per minute }
        %s
        form one-head { top }
        aspect "Clear"    { number 2  allows normal then normal  on one-head show %s }
        aspect "Approach" { number 1  allows normal then stop    on one-head show %s }
        aspect "Stop"     { number 0  allows stop                on one-head show red }
        """
            .formatted(colours, head, clear, approach);
    String text =
        """
        layout: Test
        rulebook: book.aspects
        otherwise: keep
        %s
        controllers:
          a: {flash: 9999, ram: 999, chains: {main: {signals: [
            {name: A, form: one-head, heads: [h], by: aspect-number}]}}}
        """
            .formatted(layout);
    Compiler.Checked<?> checked =
        Compiler.checkLayout(
            "layout.yaml", path -> new SourceFile(path, path.endsWith("yaml") ? text : book));
    assertThat(checked.diagnostics())
        .as("the sample itself")
        .noneMatch(
            d -> Stream.of("syntax", "unknown-name", "missing-key").anyMatch(d.name()::equals));
    return checked.diagnostics().stream().filter(d -> d.name().equals(check)).toList();
  }
}
