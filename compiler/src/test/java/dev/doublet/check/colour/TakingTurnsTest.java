package dev.doublet.check.colour;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.diagnostic.Diagnostic;
import dev.doublet.facts.CheckOptions;
import dev.doublet.source.SourceFile;
import java.util.List;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * Lamps that take turns are no lamps of too alike a rate, unless only their order tells aspects.
 */
class TakingTurnsTest {
  private static final String RHYTHMS = "early 50 per minute  late 50 per minute starting dark";

  @ParameterizedTest
  @CsvSource({
    // In turn, and in turn against together.
    "early yellow over late yellow, green over red, 0",
    "early yellow over late yellow, early yellow over early yellow, 0",
    "late yellow over late yellow, early yellow over late yellow, 0",
    "early green over late yellow, early yellow over late green, 0",
    // Which of two began is not to be seen.
    "early yellow over late yellow, late yellow over early yellow, 1",
    "early yellow over early yellow, late yellow over late yellow, 1",
    "early yellow over red, late yellow over red, 1",
    "early green over late yellow, late green over early yellow, 1",
    "early yellow over (red or late yellow), late yellow over any, 1"
  })
  void turns_are_found_only_where_an_aspect_becomes_another(String one, String other, int found) {
    assertThat(found(RHYTHMS, one, other)).hasSize(found);
  }

  @ParameterizedTest
  @CsvSource({
    "early 50 per minute  late 60 per minute starting dark",
    "early 50 per minute  late 50 per minute"
  })
  void rhythms_that_do_not_keep_step_are_found(String rhythms) {
    assertThat(found(rhythms, "early yellow over late yellow", "green over red")).hasSize(1);
  }

  private static List<Diagnostic> found(String rhythms, String one, String other) {
    String book =
        """
        rulebook "Turns" edition 1
        speeds in mph { normal 60 slow 15 }
        colours { red yellow green }
        rhythms { %s }
        head searchlight { lamp main shows red, yellow, green }
        form high { top, bottom }
        aspect "One" { number 2  allows normal then normal  on high show %s }
        aspect "Other" { number 1  allows slow then normal  on high show %s }
        aspect "Stop" { number 0  allows stop  on high show red over red }
        """
            .formatted(rhythms, one, other);
    return Compiler.checkRulebook(
            "book.aspects", path -> new SourceFile(path, book), CheckOptions.ALL)
        .diagnostics()
        .stream()
        .filter(d -> d.name().equals("rates-too-alike"))
        .toList();
  }
}
