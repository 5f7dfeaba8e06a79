package dev.doublet.page;

import com.fasterxml.jackson.databind.JsonNode;
import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.bench.GeneratedBook;
import dev.doublet.bench.GeneratedLayout;
import dev.doublet.rulebook.Rulebook;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;

/**
 * How large a chart of 500 aspects is and what it takes, from its text to both files; how large the
 * page of a layout is, when something of it is first seen, and what the script takes for a frame in
 * which every lamp that can flashes, by the browser's own clock (Performance API).
 *
 * <p>Run in {@code compiler/} as {@code java … PagesBenchmark}.
 */
public final class PagesBenchmark {
  private PagesBenchmark() {}

  /** Prints a line for the chart, one for the demo, and one for 200 signals. */
  public static void main(String[] arguments) throws IOException, InterruptedException {
    chart(GeneratedBook.of(500));
    measure("demo", Pages.built(Pages.DEMO, Pages::fromProject));
    String book = GeneratedLayout.book().replace("{ lamp", "with filament { lamp");
    Map<String, String> many =
        Map.of("book.aspects", book, "layout.yaml", GeneratedLayout.layout(200));
    measure("200 signals", Pages.built("layout.yaml", LayoutPageTest.reader(many)));
  }

  /** As a run of {@code chart} does it: once, in a machine that is cold. */
  private static void chart(String text) {
    long from = System.nanoTime();
    long begun = ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    Rulebook book =
        Compiler.readToDraw("book.aspects", path -> new SourceFile(path, text))
            .value()
            .orElseThrow();
    int bytes = AspectChart.html(book, List.of()).getBytes(StandardCharsets.UTF_8).length;
    int words = AspectChart.markdown(book).getBytes(StandardCharsets.UTF_8).length;
    long millis = (System.nanoTime() - from) / 1_000_000;
    long worked =
        (ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime() - begun) / 1_000_000;
    System.out.println(
        "chart of 500 aspects: "
            + bytes
            + " and "
            + words
            + " bytes, cold "
            + millis
            + " ms, "
            + worked
            + " of processor");
  }

  private static void measure(String what, Build build) throws IOException, InterruptedException {
    byte[] page = Pages.html(build).getBytes(StandardCharsets.UTF_8);
    Path file = Files.write(Files.createTempFile("page", ".html"), page);
    JsonNode took = Browser.look("measure", file, Map.of());
    System.out.println(
        what
            + ": "
            + page.length
            + " bytes, first seen after "
            + took.get(0).asDouble()
            + " ms, a frame at the 95th percentile "
            + took.get(1).asDouble()
            + " ms");
    Files.delete(file);
  }
}
