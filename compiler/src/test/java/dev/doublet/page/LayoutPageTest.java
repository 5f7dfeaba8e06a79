package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import dev.doublet.Build;
import dev.doublet.colour.Die;
import dev.doublet.colour.Drive;
import dev.doublet.colour.Screen;
import dev.doublet.colour.Xyz;
import dev.doublet.layout.Chain;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Part;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;

class LayoutPageTest {
  private static final ObjectMapper JSON = new ObjectMapper();

  /** A layout all of whose names are tags, marks of direction and emoji. */
  static final Map<String, String> HOSTILE =
      Map.of(
          "layout.yaml",
          """
          layout: "</script><script>alert(1)</script>{book}"
          rulebook: book.aspects
          buses:
            "<b>track</b>": {speaks: dcc}
            "&lt;": {speaks: mqtt, topics: "</script>/\\U0001f682"}
          kinds:
            one: {form: post, heads: [one], plates: [number], by: aspect-number, bus: "<b>track</b>"}
            two: {form: post, heads: [one], by: topic, bus: "&lt;"}
          controllers:
            west:
              flash: 28672
              ram: 1536
              chains:
                "<img src=x onerror=alert(2)>":
                  signals:
                  - {name: "<script>alert(3)</script>", kind: one, address: 5}
                  - {name: "A\\U0001f682", kind: two}
          """,
          "book.aspects",
          """
          rulebook "</title><script>alert(4)</script>" edition 1
          speeds in mph { normal 60 }
          colours { red green }
          head one { lamp a shows red, green }
          form post { top }
          plate number
          aspect "<img src=x onerror=alert(5)>" { number 1  allows normal then normal  on post show green }
          aspect "</script>" { number 0  allows stop  on post show red }
          """);

  static SourceReader reader(Map<String, String> files) {
    return path -> {
      if (!files.containsKey(path)) {
        throw new SourceReader.Unreadable("there is no such file");
      }
      return new SourceFile(path, files.get(path));
    };
  }

  @Test
  void the_page_of_the_demo_is_small_and_the_same_every_time() {
    Build build = Pages.built(Pages.DEMO, Pages::fromProject);
    String page = Pages.html(build);

    assertThat(page.getBytes(StandardCharsets.UTF_8).length).isLessThan(100_000);
    assertThat(Pages.html(build)).isEqualTo(page);
    assertThat(page)
        .contains("default-src 'none'")
        .doesNotContain("http:", "https:", "src=", "url(");
  }

  @Test
  void it_holds_the_tables_that_controllers_get_and_what_is_sent_to_them() throws IOException {
    Build build = Pages.built(Pages.DEMO, Pages::fromProject);
    JsonNode data = data(Pages.html(build));

    List<JsonNode> controllers = new ArrayList<>();
    data.get("controllers").forEach(controllers::add);
    assertThat(controllers).hasSize(Pages.layout(build).controllers().size());
    for (JsonNode controller : controllers) {
      byte[] table = Base64.getDecoder().decode(controller.get("table").asText());
      assertThat(table).isEqualTo(build.files().get(controller.get("name").asText() + ".bin"));
    }
    JsonNode first = controllers.get(0).get("signals").get(0).get("units").get(0);
    assertThat(first.get("calls").get(0).get(0)).hasToString("[1,0]");
  }

  @Test
  void names_that_are_tags_are_names() throws IOException {
    String page = Pages.html(Pages.built("layout.yaml", reader(HOSTILE)));

    assertThat(Pattern.compile("<script").matcher(page).results()).hasSize(3);
    assertThat(Pattern.compile("</script").matcher(page).results()).hasSize(3);
    assertThat(page).doesNotContain("<img").doesNotContain("<b>");
    assertThat(page)
        .contains("<h1>Signals of &lt;/script&gt;&lt;script&gt;alert(1)&lt;/script&gt;{book}</h1>");
    JsonNode bus = data(page).get("buses").get(1);
    assertThat(bus.get("name").asText()).isEqualTo("&lt;");
    assertThat(bus.get("topics").asText()).isEqualTo("</script>/\ud83d\ude82");
  }

  @Test
  void each_number_in_a_window_is_an_led_with_its_ring() {
    String layout =
        """
        layout: Numbers
        rulebook: rulebooks/germany-ks.aspects
        otherwise: most-restrictive
        buses: {dcc: {speaks: dcc, aspect-bits: 8}}
        kinds:
          main: {form: main, heads: [zs3, ks, zs3v], by: aspect-number}
        controllers:
          west:
            flash: 28672
            ram: 1536
            chains: {main: {signals: [{name: N1, kind: main}]}}
        """;
    SourceReader reader =
        path -> path.equals("layout.yaml") ? new SourceFile(path, layout) : Pages.fromProject(path);
    String page = Pages.html(Pages.built("layout.yaml", reader));

    for (int led = 0; led < 21; led++) {
      List<String> drawn =
          Pattern.compile("<(text|circle|rect) class=\"([a-z ]*)\"[^>]* data-led=\"" + led + "\"")
              .matcher(page)
              .results()
              .map(found -> found.group(1) + " " + found.group(2))
              .toList();
      assertThat(drawn)
          .as("LED %d", led)
          .isEqualTo(
              led >= 9 && led < 12
                  ? List.of("circle lamp", "circle ring")
                  : List.of("text numeral lamp", "rect ring"));
    }
    assertThat(page).contains(">12</text>");
  }

  /** No such name is built; a page shows what it is all the same. */
  @Test
  void a_name_that_turns_text_round_is_shown_by_its_numbers() throws IOException {
    Build build = Pages.built(Pages.DEMO, Pages::fromProject);
    Layout as = Pages.layout(build);
    Layout turned =
        new Layout(
            "a\u202eb",
            as.rulebook(),
            as.scale(),
            as.viewingOrNull(),
            as.prices(),
            as.buses(),
            as.controllers(),
            as.modules(),
            as.acceptances(),
            as.errors(),
            as.pinning(),
            as.whole(),
            as.mentions(),
            as.span());
    String page = LayoutPage.html(turned, Pages.tables(build));

    assertThat(page).doesNotContain("\u202e").contains("Signals of a&lt;U+202E&gt;b");
    assertThat(data(page).get("title").asText()).isEqualTo("a<U+202E>b");
  }

  @Test
  void a_table_is_refused_in_the_words_of_the_reader_in_c() throws IOException {
    String header = resource("/dev/doublet/doublet_reader.h");
    List<String> names =
        found("enum doublet_reason \\{([^}]*)\\}", header)
            .get(0)
            .lines()
            .map(line -> line.strip().replace(",", ""))
            .filter(line -> !line.isEmpty())
            .toList();
    List<String> theirs =
        names.stream()
            .map(name -> found("case " + name + ": return \"([^\"]*)\"", header).get(0))
            .toList();
    String list =
        found("REASONS = \\[([^\\]]*)\\]", resource("/dev/doublet/page/reader.js")).get(0);

    assertThat(found("'([^']*)'", list)).isEqualTo(theirs);
  }

  /** The one function from bytes to colours is the compiler's. */
  @Test
  void bytes_look_on_the_page_as_the_compiler_works_them_out()
      throws IOException, InterruptedException {
    assumeTrue(
        Files.exists(Path.of("src/test/node/node_modules")), "nothing is installed for node");
    Random random = new Random(1);
    List<String> asked = new ArrayList<>();
    List<double[]> expected = new ArrayList<>();
    Build build = Pages.built(Pages.DEMO, Pages::fromProject);
    JsonNode parts = data(Pages.html(build)).get("parts");
    List<Part> all =
        Pages.layout(build).controllers().stream()
            .flatMap(c -> c.chains().stream())
            .map(Chain::part)
            .distinct()
            .toList();
    for (int i = 0; i < 2000; i++) {
      int part = i % all.size();
      List<Integer> bytes =
          random.ints(all.get(part).channels(), 0, 256).map(b -> b < 90 ? 0 : b).boxed().toList();
      double full = 1 + random.nextInt(2000);
      asked.add(
          JSON.writeValueAsString(Map.of("bytes", bytes, "part", parts.get(part), "full", full)));
      expected.add(drawn(light(all.get(part), bytes), full));
    }

    List<double[]> seen = Browser.lines("screen.mjs", asked);
    assertThat(seen).hasSameSizeAs(expected);
    for (int i = 0; i < seen.size(); i++) {
      assertThat(seen.get(i)).as(asked.get(i)).containsExactly(expected.get(i), within(1e-9));
    }
  }

  /** What an LED shines that is sent some bytes. */
  private static Xyz light(Part part, List<Integer> sent) {
    List<Integer> levels = new ArrayList<>();
    for (Die die : part.family().dies()) {
      levels.add(sent.get(part.order().indexOf(die.channel().name().charAt(0))));
    }
    return part.family().light(new Drive(levels));
  }

  private static double[] drawn(Xyz light, double full) {
    if (light.y() == 0) {
      return new double[] {0, 0, 0, 1, 0};
    }
    Screen screen = Screen.of(light.chromaticity());
    return new double[] {
      screen.red(),
      screen.green(),
      screen.blue(),
      screen.within() ? 1 : 0,
      strength(light.y(), full)
    };
  }

  static JsonNode data(String page) throws IOException {
    return JSON.readTree(found("id=\"layout\">(.*?)</script>", page).get(0));
  }

  private static List<String> found(String pattern, String text) {
    return Pattern.compile(pattern, Pattern.DOTALL)
        .matcher(text)
        .results()
        .map((MatchResult one) -> one.group(1))
        .toList();
  }

  private static String resource(String name) throws IOException {
    try (InputStream in = LayoutPageTest.class.getResourceAsStream(name)) {
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  /** How strongly a screen shows light as bright as that, by sRGB's curve (IEC 61966-2-1). */
  private static double strength(double light, double full) {
    double linear = Math.min(1, light / full);
    return linear <= 0.0031308 ? 12.92 * linear : 1.055 * Math.pow(linear, 1 / 2.4) - 0.055;
  }
}
