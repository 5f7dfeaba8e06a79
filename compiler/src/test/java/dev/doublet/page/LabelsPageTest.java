package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.doublet.chart.Labels;
import dev.doublet.chart.ManySignals;
import dev.doublet.chart.PartsList;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Labels and lists of parts as pages. */
class LabelsPageTest {
  private static final String CHROMIUM = "/usr/bin/chromium";

  @TempDir private Path folder;

  @Test
  void names_are_shown_as_they_are_and_nothing_is_asked_of_a_network() {
    LayoutFacts facts = facts(LayoutPageTest.HOSTILE::get);
    String labels = LabelsPage.html(Labels.of(facts), 60, 12);
    String parts = PartsPage.html(PartsList.of(facts));
    for (String page : List.of(labels, parts)) {
      assertThat(page)
          .contains("default-src 'none'; style-src 'unsafe-inline'")
          .doesNotContain("<script", "<img", "<b>track", "src=\"", "href=", "url(");
    }
    assertThat(labels).contains("&lt;");
  }

  /**
   * Every line of a label begins and ends within it, by the widest letters that were counted on.
   */
  @Test
  void lines_stay_within_their_label() {
    String page = LabelsPage.html(Labels.of(facts(219)), 20, 8);
    Matcher text =
        Pattern.compile("<text[^>]* y=\"([0-9.]+)\" font-size=\"([0-9.]+)\">([^<]*)<")
            .matcher(page);
    int lines = 0;
    while (text.find()) {
      lines++;
      assertThat(Double.parseDouble(text.group(1))).isLessThan(8);
      double size = Double.parseDouble(text.group(2));
      String shown = text.group(3).replaceAll("&[^;]+;", "x");
      assertThat(shown.length() * size * 0.62).as(shown).isLessThan(20 - 2 * 1.2 + size);
    }
    assertThat(lines).isGreaterThan(219);
  }

  /** CSS: 96 px are 25.4 mm. */
  @Tag("slow")
  @ParameterizedTest
  @CsvSource({"31, 10", "62, 12", "186, 20"})
  void a_browser_draws_them_as_large_as_they_are_said(int width, int height) throws Exception {
    assumeTrue(Files.isExecutable(Path.of(CHROMIUM)), "chromium is not installed");
    String page = LabelsPage.html(Labels.of(facts(12)), width, height);
    String measured =
        """
        <script>document.title='';const all=[...document.querySelectorAll('.labels svg')];
        document.body.innerHTML='<p>'+all.map(s=>{const r=s.getBoundingClientRect(),t=[...s.querySelectorAll('text')];
        return [r.width*25.4/96,r.height*25.4/96,r.right*25.4/96,Math.max(...t.map(x=>x.getBoundingClientRect().right-r.right))]
        .map(n=>n.toFixed(3)).join(' ')}).join(';')+'</p>'</script>
        """;
    Path html = folder.resolve("labels.html");
    Files.writeString(
        html,
        page.replaceFirst("<meta http-equiv[^>]*>", "").replace("</body>", measured + "</body>"));
    String dump = chromium("--dump-dom", html.toUri().toString());
    Matcher found = Pattern.compile("<p>([^<]+)</p>").matcher(dump);
    assertThat(found.find()).as(dump).isTrue();
    String[] labels = found.group(1).split(";");
    assertThat(labels).hasSizeGreaterThan(30);
    for (String label : labels) {
      String[] numbers = label.split(" ");
      assertThat(Double.parseDouble(numbers[0])).isCloseTo(width, within(0.05));
      assertThat(Double.parseDouble(numbers[1])).isCloseTo(height, within(0.05));
      assertThat(Double.parseDouble(numbers[2])).as("right edge").isLessThan(190.1);
      assertThat(Double.parseDouble(numbers[3])).as("letters beyond it").isLessThan(0);
    }
  }

  /** 5 labels of 31 by 10 mm beside one another and 24 rows are 120 a page, and two headings. */
  @Tag("slow")
  @ParameterizedTest
  @CsvSource({"12, A4, 1", "12, Letter, 1", "219, A4, 6", "219, Letter, 7"})
  void a_browser_prints_them_on_few_pages(int signals, String paper, int most) throws Exception {
    assumeTrue(Files.isExecutable(Path.of(CHROMIUM)), "chromium is not installed");
    String page = LabelsPage.html(Labels.of(facts(signals)), 31, 10);
    assertThat(page).contains("@page{margin");
    Path html = folder.resolve("labels.html");
    Files.writeString(html, page.replace("@page{", "@page{size:" + paper + ";"));
    Path pdf = folder.resolve("labels.pdf");
    chromium("--no-pdf-header-footer", "--print-to-pdf=" + pdf, html.toUri().toString());
    String printed = Files.readString(pdf, StandardCharsets.ISO_8859_1);
    // ISO 32000-1, 7.7.3.3: each page is an object of type Page.
    assertThat(Pattern.compile("/Type\\s*/Page\\b").matcher(printed).results().count())
        .isBetween(1L, (long) most);
  }

  private String chromium(String... options) throws IOException, InterruptedException {
    List<String> command =
        new ArrayList<>(List.of(CHROMIUM, "--headless", "--no-sandbox", "--disable-gpu"));
    command.add("--user-data-dir=" + folder.resolve("profile"));
    command.addAll(List.of(options));
    Path out = folder.resolve("out.txt");
    Process process =
        new ProcessBuilder(command)
            .redirectError(ProcessBuilder.Redirect.DISCARD)
            .redirectOutput(out.toFile())
            .start();
    assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
    return Files.readString(out);
  }

  private static LayoutFacts facts(int signals) {
    return LayoutFacts.of(ManySignals.layout(signals), CheckOptions.ALL);
  }

  private static LayoutFacts facts(Function<String, String> files) {
    Layout layout =
        LayoutResolver.resolve("layout.yaml", path -> new SourceFile(path, files.apply(path)))
            .value()
            .orElseThrow();
    return LayoutFacts.of(layout, CheckOptions.ALL);
  }
}
