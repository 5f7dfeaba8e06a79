package dev.doublet.cli;

import dev.doublet.bench.GeneratedBook;
import dev.doublet.bench.GeneratedLayout;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Locale;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.Range;

/**
 * How long an editor waits after a keystroke for what is told at once and for all findings: a book
 * of 500 aspects, and a layout of 2,000 signals with its book. Every edit leaves the text sound.
 *
 * <p>Run as {@code java … EditorTimes} on a quiet machine; it prints 95th percentiles in ms.
 */
final class EditorTimes {
  private static final int WARM = 60;
  private static final int MEASURED = 100;
  private static final double NANOS = 1e6;

  private EditorTimes() {}

  public static void main(String[] arguments) throws Exception {
    Path folder = Files.createTempDirectory("editor");
    String book = GeneratedBook.of(500);
    measure("500 aspects", folder, "book.aspects", book, 1);
    Path large = Files.createTempDirectory("editor");
    GeneratedLayout.main(new String[] {large.toString(), "2000"});
    String layout = Files.readString(large.resolve("layout.yaml"));
    measure("2,000 signals", large, "layout.yaml", layout, 1);
    Runtime.getRuntime().gc();
    Runtime runtime = Runtime.getRuntime();
    System.out.println(
        "memory in use: " + (runtime.totalMemory() - runtime.freeMemory() >> 20) + " MiB");
    System.exit(0);
  }

  private static void measure(String what, Path folder, String name, String text, int roots)
      throws IOException, InterruptedException {
    Files.writeString(folder.resolve(name), text);
    try (Editor editor = new Editor(folder)) {
      editor.open(name, text);
      editor.showings(name, 1, 1 + roots);
      List<Double> quick = new ArrayList<>();
      List<Double> whole = new ArrayList<>();
      Position start = new Position(0, 0);
      boolean written = false;
      for (int i = 0; i < WARM + MEASURED; i++) {
        long from = System.nanoTime();
        // A comment comes and goes.
        Range place = new Range(start, written ? new Position(1, 0) : start);
        editor.change(name, place, written ? "" : "#\n");
        written = !written;
        long first = editor.showings(name, editor.version(name), 1);
        long last = editor.showings(name, editor.version(name), 1 + roots);
        if (i >= WARM) {
          quick.add((first - from) / NANOS);
          whole.add((last - from) / NANOS);
        }
      }
      System.out.printf(
          Locale.ROOT, "%s: at once %.0f ms, all %.0f ms%n", what, high(quick), high(whole));
    }
  }

  private static double high(List<Double> times) {
    Collections.sort(times);
    return times.get(times.size() * 95 / 100);
  }
}
