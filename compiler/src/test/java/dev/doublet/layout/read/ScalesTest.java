package dev.doublet.layout.read;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.doublet.diagnostic.Outcome;
import dev.doublet.layout.Layout;
import dev.doublet.source.SourceFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvFileSource;

/** Scales by letter and by number, against the ratios that NMRA S-1.2 and MOROP NEM 010 print. */
class ScalesTest {
  private static final String BOOK =
      """
      rulebook "Test" edition 1
      speeds in mph { normal 60 }
      colours { red }
      head searchlight { lamp main shows red }
      form one-head { top }
      aspect "Stop" { number 0  allows stop  on one-head show red }
      """;

  /** HO is 1:87.1 to one decimal, which is 0.02 % from 3.5 mm to the foot. */
  @ParameterizedTest
  @CsvFileSource(resources = "/facts/scales.csv", numLinesToSkip = 1)
  void a_scale_has_the_published_ratio(String scale, double ratio) {
    Layout layout = resolve("scale: " + scale).value().orElseThrow();
    assertThat(layout.scale()).isCloseTo(ratio, within(ratio * 0.0002));
  }

  @Test
  void an_empty_scale_is_told_of_once() {
    assertThat(resolve("scale: \"\"").diagnostics())
        .extracting(d -> d.message())
        .containsOnlyOnce("this text is empty")
        .noneMatch(m -> m.contains("scale"));
  }

  private static Outcome<Layout> resolve(String scale) {
    String layout =
        "layout: Test\nrulebook: book.aspects\n"
            + scale
            + "\ncontrollers:\n"
            + "  west: {flash: 1, ram: 1, chains: {main: {signals: [{gap: 1}]}}}\n";
    return LayoutResolver.resolve(
        "layout.yaml", path -> new SourceFile(path, path.endsWith("yaml") ? layout : BOOK));
  }
}
