package dev.doublet.page;

import com.fasterxml.jackson.databind.JsonNode;
import dev.doublet.Build;
import dev.doublet.bench.GeneratedLayout;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;

/**
 * How large the page of a layout is, when something of it is first seen, and what the script takes
 * for a frame in which every lamp that can flashes, by the browser's own clock (Performance API).
 *
 * <p>Run in {@code compiler/} as {@code java … PagesBenchmark}.
 */
public final class PagesBenchmark {
  private PagesBenchmark() {}

  /** Prints a line for the demo, and one for 200 signals. */
  public static void main(String[] arguments) throws IOException, InterruptedException {
    measure("demo", Pages.built(Pages.DEMO, Pages::fromProject));
    String book = GeneratedLayout.book().replace("{ lamp", "with filament { lamp");
    Map<String, String> many =
        Map.of("book.aspects", book, "layout.yaml", GeneratedLayout.layout(200));
    measure("200 signals", Pages.built("layout.yaml", LayoutPageTest.reader(many)));
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
