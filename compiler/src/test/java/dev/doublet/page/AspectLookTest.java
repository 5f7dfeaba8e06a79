package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Compiler;
import dev.doublet.rulebook.Aspect;
import dev.doublet.rulebook.Rulebook;
import java.util.List;
import org.junit.jupiter.api.Test;

class AspectLookTest {
  private static final Rulebook BOOK =
      Compiler.readToDraw("rulebooks/brackwater.aspects", Pages::fromProject).value().orElseThrow();

  @Test
  void words_alone_hold_no_escape_and_name_every_pattern() {
    String text = new AspectLook(BOOK, BOOK.aspects()).text(false);
    long patterns = BOOK.aspects().stream().mapToLong(a -> a.patterns().size()).sum();

    assertThat(text).doesNotContain("\u001b", "\u25cf");
    assertThat(text.lines().filter(line -> line.startsWith("  "))).hasSize((int) patterns);
  }

  @Test
  void discs_have_the_colours_of_the_chart_and_end_with_a_reset() {
    Aspect aspect = BOOK.aspect("Approach Limited").orElseThrow();
    String text = new AspectLook(BOOK, List.of(aspect)).text(true);
    Inks.Ink green = Inks.of(BOOK).of("green").orElseThrow();
    String line = text.lines().filter(l -> l.contains("green over red")).findFirst().orElseThrow();

    assertThat(line).contains("yellow over flashing green over red");
    assertThat(line.split("\u25cf", -1)).hasSize(4);
    assertThat(line)
        .contains(
            "\u001b[38;2;"
                + green.screen().red()
                + ";"
                + green.screen().green()
                + ";"
                + green.screen().blue()
                + "m\u25cf\u001b[0m");
    assertThat(line.substring(line.lastIndexOf('\u001b'))).startsWith("\u001b[0m");
  }

  /** With the escapes taken away the lines are those in words, but for the discs. */
  @Test
  void colour_adds_discs_and_nothing_else() {
    AspectLook look = new AspectLook(BOOK, BOOK.aspects());
    String stripped = look.text(true).replaceAll("\u001b\\[[0-9;]*m", "");

    assertThat(stripped.replaceAll("(?m)^  [\u25cf ]*\u25cf  ", "  ")).isEqualTo(look.text(false));
  }

  @Test
  void arms_are_strokes_that_rise_with_their_positions() {
    Rulebook arms =
        Compiler.readToDraw("examples/sluice/sluice.aspects", Pages::fromProject)
            .value()
            .orElseThrow();
    String stripped =
        new AspectLook(arms, arms.aspects()).text(true).replaceAll("\u001b\\[[0-9;]*m", "");

    assertThat(stripped).contains("\u2500 \u2500  ", "\u2572 \u2572  ", "\u2572 \u2500  ");
  }
}
