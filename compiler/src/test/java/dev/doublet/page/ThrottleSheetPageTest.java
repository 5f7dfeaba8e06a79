package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.doublet.chart.ManySignals;
import dev.doublet.chart.ThrottleSheet;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.TimeUnit;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class ThrottleSheetPageTest {
  @TempDir private Path folder;

  @Test
  void names_are_shown_as_they_are_and_nothing_is_asked_of_a_network() {
    Layout layout =
        LayoutResolver.resolve(
                "layout.yaml", path -> new SourceFile(path, LayoutPageTest.HOSTILE.get(path)))
            .value()
            .orElseThrow();
    String page = ThrottleSheetPage.html(ThrottleSheet.of(layout));
    assertThat(page)
        .contains("default-src 'none'; style-src 'unsafe-inline'")
        .contains("&lt;script&gt;alert(3)&lt;/script&gt;")
        .doesNotContain("<script", "<img", "<b>track", "src=\"", "href=", "url(");
  }

  @Tag("slow")
  @ParameterizedTest
  @CsvSource({"12, A4, 1", "12, Letter, 1", "219, A4, 6", "219, Letter, 6"})
  void a_browser_prints_it_on_few_pages(int signals, String paper, int most)
      throws IOException, InterruptedException {
    assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/chromium")),
        "chromium is not installed, so nobody prints pages here");
    String page = ThrottleSheetPage.html(ThrottleSheet.of(ManySignals.layout(signals)));
    assertThat(page).contains("@page{margin");
    Path html = folder.resolve("sheet.html");
    Files.writeString(html, page.replace("@page{", "@page{size:" + paper + ";"));
    Path pdf = folder.resolve("sheet.pdf");
    Process printer =
        new ProcessBuilder(
                "/usr/bin/chromium",
                "--headless",
                "--no-sandbox",
                "--disable-gpu",
                "--no-pdf-header-footer",
                "--user-data-dir=" + folder.resolve("profile"),
                "--print-to-pdf=" + pdf,
                html.toUri().toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("said.txt").toFile())
            .start();
    assertThat(printer.waitFor(60, TimeUnit.SECONDS)).isTrue();
    String printed = Files.readString(pdf, StandardCharsets.ISO_8859_1);
    // ISO 32000-1, 7.7.3.3: each page is an object of type Page.
    long pages = Pattern.compile("/Type\\s*/Page\\b").matcher(printed).results().count();
    assertThat(pages).isBetween(1L, (long) most);
  }
}
