package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Aspects that look alike, as a terminal shows them. */
class TwinsOnTerminalTest {
  @TempDir private Path folder;

  private static String stripped(String text) {
    return text.replaceAll("\u001b\\[[0-9;]*m", "");
  }

  @Test
  void twins_stand_beside_each_other_where_there_are_colours_and_in_words_elsewhere() {
    Path mistakes = Path.of("../examples/mistakes");
    Session plain = new Session(mistakes);
    Session coloured = Session.inColour(mistakes);
    assertThat(plain.run("check", ".")).isEqualTo(1);
    assertThat(coloured.run("check", ".")).isEqualTo(1);
    String drawn =
        """
            Approach   Approach Medium
               \u25cf              \u25cf
               \u25cf              \u25cf

        """;
    assertThat(plain.out()).doesNotContain("\u25cf", "\u001b");
    assertThat(stripped(coloured.out())).contains(drawn);
    assertThat(stripped(coloured.out()).replace(drawn, "")).isEqualTo(plain.out());
    // The discs are those of look, and colour ends with each line.
    Session look = Session.inColour(mistakes);
    assertThat(look.run("look", "branch.aspects", "Approach Medium")).isZero();
    String yellow =
        look.out().substring(look.out().indexOf('\u001b'), look.out().indexOf('\u25cf'));
    assertThat(yellow).startsWith("\u001b[38;2;");
    String line =
        coloured.out().lines().filter(l -> l.contains("\u25cf")).findFirst().orElseThrow();
    assertThat(line.split("\u25cf", -1)).hasSize(3);
    assertThat(line).contains(yellow + "\u25cf\u001b[0m").endsWith("\u001b[0m");
  }

  @Test
  void long_names_are_cut_many_twins_counted_and_figures_drawn_whole() throws IOException {
    String most = "m".repeat(200);
    StringBuilder book = new StringBuilder("rulebook \"b\" edition 1\nspeeds in mph {");
    for (int i = 1; i < 6; i++) {
      book.append(" s").append(i).append(' ').append(i * 5);
    }
    book.append(
        " }\ncolours { amber }\nhead row { lamp left shows amber lamp right shows amber figure both lights left, right }\n");
    book.append("form post { top, bottom }\n");
    for (int i = 0; i < 6; i++) {
      String name = i == 1 ? most : "A" + i;
      book.append("aspect \"").append(name).append("\" { allows ");
      book.append(i == 0 ? "stop" : "s" + i + " then stop");
      book.append(" on post show both over dark }\n");
    }
    Files.writeString(folder.resolve("b.aspects"), book);
    Session coloured = Session.inColour(folder);
    assertThat(coloured.run("check", "b.aspects")).isEqualTo(1);
    String line =
        coloured
            .out()
            .lines()
            .filter(l -> l.startsWith("    ") && !l.contains("|") && l.contains("mmmm\u2026"))
            .findFirst()
            .orElseThrow();
    assertThat(line).endsWith("   \u2026").hasSizeLessThan(120);
    assertThat(
            coloured
                .out()
                .lines()
                .map(TwinsOnTerminalTest::stripped)
                .filter(l -> l.contains("\u25cf\u25cf")))
        .hasSize(1);
  }
}
