package dev.doublet.cli;

import com.sun.management.OperatingSystemMXBean;
import dev.doublet.bench.GeneratedBook;
import dev.doublet.bench.GeneratedLayout;
import java.io.IOException;
import java.lang.management.ManagementFactory;
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
 * of 500 aspects, and a layout of 2,000 signals with its book. Every edit leaves the text sound: a
 * comment comes and goes, or in the book an aspect permits something else and looks otherwise.
 *
 * <p>Run as {@code java … EditorTimes} on a quiet machine; it prints 95th percentiles in ms, and
 * how much processor time server and client took for an edit.
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
      double taken = 0;
      for (int i = 0; i < WARM + MEASURED; i++) {
        taken = i == WARM ? processorTime() : taken;
        long from = System.nanoTime();
        edit(editor, name, text, i);
        long first = editor.showings(name, editor.version(name), 1);
        long last = editor.showings(name, editor.version(name), 1 + roots);
        if (i >= WARM) {
          quick.add((first - from) / NANOS);
          whole.add((last - from) / NANOS);
        }
      }
      System.out.printf(
          Locale.ROOT,
          "%s: at once %.0f ms, all %.0f ms, %.0f ms of processor time an edit%n",
          what,
          high(quick),
          high(whole),
          (processorTime() - taken) / NANOS / MEASURED);
    }
  }

  /** Edits come in pairs, the second of which takes the first back. */
  private static void edit(Editor editor, String name, String text, int number) {
    boolean back = number % 2 == 1;
    boolean comment = number % 4 < 2 || !name.endsWith(".aspects");
    if (comment) {
      Position start = new Position(0, 0);
      Range place = new Range(start, back ? new Position(1, 0) : start);
      editor.change(name, place, back ? "" : "#\n");
      return;
    }
    String[] lines = text.split("\n");
    int line = lines.length / 2;
    while (!lines[line].startsWith("  allows")) {
      line++;
    }
    Range place =
        new Range(new Position(line, 0), new Position(line + 1, lines[line + 1].length()));
    String other = "  allows slow then slow\n  on four show green over green over green over green";
    editor.change(name, place, back ? lines[line] + "\n" + lines[line + 1] : other);
  }

  private static double processorTime() {
    return ManagementFactory.getPlatformMXBean(OperatingSystemMXBean.class).getProcessCpuTime();
  }

  private static double high(List<Double> times) {
    Collections.sort(times);
    return times.get(times.size() * 95 / 100);
  }
}
