package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import dev.doublet.page.Browser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A page that is served, as a browser shows it. */
@Tag("slow")
class ShowInBrowserTest {
  @TempDir private Path folder;

  @BeforeAll
  static void wantABrowser() {
    Browser.assumeInstalled();
  }

  /** Sound, but for two things that are better said. */
  private Showing showing() throws IOException, InterruptedException {
    Yard.in(folder);
    Files.writeString(
        folder.resolve("layout.yaml"), Yard.LAYOUT.replace("otherwise: most-restrictive\n", ""));
    return Showing.of(folder);
  }

  private static List<String> seen(String what, Showing it, Map<String, ?> asked)
      throws IOException, InterruptedException {
    JsonNode all = Browser.look(what, it.address().toString(), asked);
    return StreamSupport.stream(all.spliterator(), false).map(JsonNode::asText).toList();
  }

  @Test
  void the_page_alive_breaks_no_rule_of_accessibility_and_asks_nobody_else() throws Exception {
    try (Showing it = showing()) {
      assertThat(seen("audit", it, Map.of())).isEmpty();
    }
  }

  @Test
  void a_finding_leads_to_its_line() throws Exception {
    try (Showing it = showing()) {
      String script =
          """
          [location.pathname.split('/').pop(), document.querySelector(':target').textContent,
           document.querySelectorAll('.found').length, document.scripts.length].join(' | ')
          """;
      List<String> seen = seen("open", it, Map.of("link", "#findings a", "script", script));
      assertThat(seen).hasSize(1);
      assertThat(seen.get(0)).startsWith("text1 | ").contains("warning: ").endsWith(" | 1 | 0");
    }
  }
}
