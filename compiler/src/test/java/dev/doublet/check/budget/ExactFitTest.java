package dev.doublet.check.budget;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.source.SourceFile;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What fits to the last byte or milliampere is no finding, and one less is. */
class ExactFitTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red green }
      head searchlight { lamp main shows red, green }
      form one-head { top }
      aspect "Clear" { number 1  allows normal then normal  on one-head show green }
      aspect "Stop"  { number 0  allows stop                on one-head show red }
      """;

  private static final String LAYOUT =
      """
      layout: Exact Fit
      rulebook: book.aspects
      otherwise: most-restrictive
      leds: {reel: {milliamps: {channel: 20, rest: 1}, colours: {red: [255, 0, 0], green: [0, 255, 0]}}}
      controllers:
        west:
          flash: 9000
          ram: 900
          chains:
            main:
              brightness: 100
              supply: {volts: 5, amps: 1}
              signals:
              - {name: W1, form: one-head, heads: [searchlight], by: aspect-number}
              - {name: W2}
      """;

  @ParameterizedTest
  @CsvSource({"flash, 9000", "ram, 900"})
  void aControllerWithJustEnoughMemoryIsLargeEnough(String memory, int given) {
    String key = memory + ": ";
    Matcher needs =
        Pattern.compile("needs ([0-9]+) bytes of " + memory)
            .matcher(found("memory-too-small", key + given, key + 0).get(0).message());
    assertThat(needs.find()).isTrue();
    int exact = Integer.parseInt(needs.group(1));
    assertThat(found("memory-too-small", key + given, key + exact)).isEmpty();
    assertThat(found("memory-too-small", key + given, key + (exact - 1))).hasSize(1);
  }

  /** Two LEDs of 1 mA at rest, of which each lights one channel of 20 mA. */
  @Test
  void aSupplyOfJustEnoughAmpsIsLargeEnough() {
    assertThat(found("supply-too-small", "amps: 1", "amps: 0.042")).isEmpty();
    assertThat(found("supply-too-small", "amps: 1", "amps: 0.041"))
        .singleElement()
        .satisfies(d -> assertThat(d.message()).contains("can draw 42 mA", "gives 41 mA"));
  }

  @ParameterizedTest
  @ValueSource(strings = {"0.0415", "0.04249"})
  void ampsAreRoundedToTheNearestMilliampere(String amps) {
    assertThat(found("supply-too-small", "amps: 1", "amps: " + amps)).isEmpty();
  }

  @ParameterizedTest
  @ValueSource(strings = {"0.0414", "0.0405"})
  void whatRoundsToLessIsTooLittle(String amps) {
    assertThat(found("supply-too-small", "amps: 1", "amps: " + amps)).hasSize(1);
  }

  /** A chain that is dimmed by night alone has few levels left by night alone. */
  @Test
  void aColourThatOnlyTheNightChangesIsFound() {
    String leds = "colours: {red: [255, 0, 0], green: [0, 255, 0]}";
    String mixed = "colours: {red: [255, 0, 0], green: [20, 255, 60]}";
    String layout = LAYOUT.replace(leds, mixed);
    assertThat(layout).isNotEqualTo(LAYOUT);
    assertThat(of("dimmed-off-colour", layout)).isEmpty();
    String night = layout.replace("brightness: 100", "night: 1");
    assertThat(of("dimmed-off-colour", night))
        .singleElement()
        .satisfies(
            d ->
                assertThat(d.message())
                    .isEqualTo("green changes its colour on LEDs of kind \"reel\" at 1 %"));
  }

  private static List<Diagnostic> found(String check, String was, String is) {
    assertThat(LAYOUT).contains(was);
    return of(check, LAYOUT.replace(was, is));
  }

  private static List<Diagnostic> of(String check, String layout) {
    return Compiler.checkLayout(
            "layout.yaml",
            path -> new SourceFile(path, path.endsWith("yaml") ? layout : BOOK),
            CheckOptions.FINDINGS)
        .diagnostics()
        .stream()
        .filter(d -> d.name().equals(check))
        .toList();
  }
}
