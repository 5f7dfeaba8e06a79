package dev.doublet.check.colour;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.colour.Drive;
import dev.doublet.colour.DriveSolver;
import dev.doublet.colour.Eye;
import dev.doublet.colour.LedFamily;
import dev.doublet.colour.RegionSet;
import dev.doublet.colour.Seeing;
import dev.doublet.colour.Xyz;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.diagnostic.Fact;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.CheckOptions;
import dev.doublet.layout.Brightness;
import dev.doublet.source.SourceFile;
import java.util.ArrayList;
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

  /** A lens of 213 mm at 1:22.5 fills 20 minutes of arc up to 1.63 m: COMPUTED, facts/colour. */
  @Test
  void theLensSaysWhetherItIsASmallLamp() {
    String purple = "leds: {a: {colours: {yellow: [255, 101, 0], green: [255, 0, 197]}}}\n";
    assertThat(errors(close(SEARCHLIGHT, "green", "yellow", purple + "scale: 22.5\nviewing: 1.6")))
        .isEmpty();
    assertThat(errors(close(SEARCHLIGHT, "green", "yellow", purple + "scale: 22.5\nviewing: 1.7")))
        .hasSize(1);
    // So much smaller, it does so from so much nearer: 162 / 213 of 1.63 m are 1.24 m.
    String small = purple + "scale: 22.5\nlens: 162\n";
    assertThat(errors(close(SEARCHLIGHT, "green", "yellow", small + "viewing: 1.2"))).isEmpty();
    assertThat(errors(close(SEARCHLIGHT, "green", "yellow", small + "viewing: 1.3"))).hasSize(1);
  }

  @Test
  void coloursThatOnlyTheEndsOfTheBinsBringTogetherAreAWeakerFinding() {
    // To tritan eyes purple is 0.055 from warm white with middling LEDs and 0.024 with others.
    String family = "leds: {a: {family: one-wire-rgb-5050-bright, colours: ";
    String white = family + "{yellow: [255, 87, 9], green: [255, 0, 147]}}}";
    assertThat(close(SEARCHLIGHT, "green", "yellow", white))
        .filteredOn(d -> d.message().contains("tritan"))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.severity()).isEqualTo(Severity.NOTE);
              assertThat(d.message()).startsWith("green and yellow").contains("for some LEDs");
              assertThat(d.help()).startsWith("measure an LED of each reel");
            });
    // At a tenth of full drive purple is 0.032 from yellow, and 0.002 with other LEDs.
    String yellow = family + "{yellow: [26, 4, 0], green: [26, 0, 15]}}}";
    assertThat(close(SEARCHLIGHT, "green", "yellow", yellow))
        .filteredOn(d -> d.message().contains("tritan"))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.severity()).isEqualTo(Severity.WARNING);
              assertThat(d.message()).contains("look the same to tritan eyes, for some LEDs");
            });
  }

  @Test
  void theBinsBringNoneOfTheUsualColoursTogether() {
    List<String> usual = List.of("red", "yellow", "green", "lunar");
    for (LedFamily family : LedFamily.published()) {
      DriveSolver solver = new DriveSolver(family);
      for (int brightness = 2; brightness <= 100; brightness++) {
        List<List<Xyz>> lights = new ArrayList<>();
        for (String colour : usual) {
          List<Integer> sent = new ArrayList<>();
          for (int level :
              solver.solve(colour, RegionSet.aimedAt("")).closest().orElseThrow().levels()) {
            sent.add(Brightness.of(brightness, 100, 100).dimmed(level));
          }
          lights.add(family.corners(new Drive(sent)));
        }
        for (int i = 0; i < lights.size(); i++) {
          for (List<Xyz> other : lights.subList(i + 1, lights.size())) {
            for (Eye eye : List.of(Eye.NORMAL, Eye.TRITAN)) {
              assertThat(eye.leastDifference(lights.get(i), other))
                  .as("%s of %s at %d %%", usual.get(i), family.name(), brightness)
                  .isGreaterThan(Seeing.APART);
            }
          }
        }
      }
    }
  }

  /** 300 mm at 1:87 are told apart up to 11.9 m: COMPUTED, facts/colour. */
  @Test
  void placesTellNothingWhereLampsMerge() {
    String apart = "head h { lamp one shows red  lamp two shows green  lamp three shows yellow }";
    String same = "leds: {a: {colours: {yellow: [255, 0, 0]}}}\n";
    assertThat(close(apart, "green", "yellow", same + "viewing: 11.8")).isEmpty();
    assertThat(errors(close(apart, "green", "yellow", same + "viewing: 12")))
        .singleElement()
        .satisfies(
            d -> {
              assertThat(d.message()).startsWith("red and yellow on LEDs");
              assertThat(d.facts())
                  .extracting(Fact::value)
                  .anyMatch(f -> f.contains("seen as one"));
            });
    assertThat(errors(close(apart, "green", "flashing yellow", same + "viewing: 12"))).isEmpty();
    assertThat(errors(close(apart, "green", "yellow", "viewing: 12"))).isEmpty();
  }

  @Test
  void lampsLitTogetherAreSeenAsTheirMixture() {
    // Red and green mixed are yellow, and 0.0049 from the yellow that the same dies make.
    String head =
        "head h { lamp one shows red  lamp two shows yellow  lamp three shows green "
            + " figure mixed lights one, three }";
    String drives =
        "leds: {a: {colours: {red: [255, 0, 0], yellow: [255, 85, 0], green: [0, 84, 0]}}}\n";
    assertThat(close(head, "mixed", "yellow", drives + "viewing: 2")).isEmpty();
    assertThat(errors(close(head, "mixed", "yellow", drives + "viewing: 12")))
        .extracting(Diagnostic::message)
        .containsExactly(
            "green with red and yellow on LEDs of kind \"a\" look the same to normal and tritan eyes");
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
            "layout.yaml",
            path -> new SourceFile(path, path.endsWith("yaml") ? text : book),
            CheckOptions.ALL);
    assertThat(checked.diagnostics())
        .as("the sample itself")
        .noneMatch(
            d -> Stream.of("syntax", "unknown-name", "missing-key").anyMatch(d.name()::equals));
    return checked.diagnostics().stream().filter(d -> d.name().equals(check)).toList();
  }
}
