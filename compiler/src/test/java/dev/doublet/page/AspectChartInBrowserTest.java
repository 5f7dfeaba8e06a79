package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import dev.doublet.Compiler;
import dev.doublet.rulebook.Rulebook;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A rulebook's aspect chart, as a browser shows it. */
@Tag("slow")
class AspectChartInBrowserTest {
  @TempDir private Path folder;

  @ParameterizedTest
  @ValueSource(strings = {"brackwater", "canada", "germany-light"})
  void it_breaks_no_rule_of_accessibility_and_asks_nothing_of_a_network(String name)
      throws Exception {
    Browser.assumeInstalled();
    assertThat(audit(chart("rulebooks/" + name + ".aspects", Pages::fromProject))).isEmpty();
  }

  @Test
  void names_that_are_tags_do_no_harm() throws Exception {
    Browser.assumeInstalled();
    assertThat(audit(chart("book.aspects", LayoutPageTest.reader(LayoutPageTest.HOSTILE))))
        .isEmpty();
  }

  @Test
  void words_beside_the_sequence_are_not_cut_off() throws Exception {
    Browser.assumeInstalled();
    Rulebook book =
        Compiler.readToDraw("rulebooks/brackwater.aspects", Pages::fromProject)
            .value()
            .orElseThrow();
    List<Gap> gaps =
        List.of(
            new Gap(
                List.of("Clear"),
                "no sequence of aspects brings a train from \"Clear\" to \"DROP DOWN STOP\""));
    assertThat(audit(AspectChart.html(book, gaps))).isEmpty();
  }

  private JsonNode audit(String html) throws Exception {
    return Browser.look("audit", Files.writeString(folder.resolve("a.html"), html), Map.of());
  }

  static String chart(String path, dev.doublet.source.SourceReader reader) {
    return AspectChart.html(Compiler.readToDraw(path, reader).value().orElseThrow(), List.of());
  }
}
