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
import java.util.Map;
import java.util.concurrent.TimeUnit;
import org.eclipse.lsp4j.Diagnostic;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.Range;

/**
 * How long an editor waits after a keystroke for what is told at once and for all findings: a book
 * of 500 aspects, a layout of 2,000 signals with its book, and the book with that layout open.
 * Every edit leaves the text sound: a comment comes and goes, an aspect permits something else and
 * looks otherwise, a signal has another address.
 *
 * <p>Run as {@code java … EditorTimes}, if wished with the number of edits to warm up and to
 * measure; it prints 95th percentiles in ms by the clock, and of the processor time that all
 * threads of server and client took, which does not hang on what else the machine does.
 */
final class EditorTimes {
  private static final double NANOS = 1e6;

  /** In ms: without a word and next to no work for so long, everything has been shown. */
  private static final long QUIET = 1_500;

  private static final long IDLE = TimeUnit.MILLISECONDS.toNanos(20);

  private final int warm;
  private final int measured;

  private EditorTimes(int warm, int measured) {
    this.warm = warm;
    this.measured = measured;
  }

  /**
   * Lines of a text that are replaced, and taken back again.
   *
   * @param line the first, from 0
   * @param was none, or all of them
   */
  private record Edit(int line, List<String> was, List<String> is) {

    void make(Editor editor, String name, boolean back) {
      List<String> from = back ? is : was;
      List<String> to = back ? was : is;
      Position start = new Position(line, 0);
      Position end = new Position(line + from.size(), 0);
      editor.change(
          name, new Range(start, end), String.join("", to.stream().map(l -> l + "\n").toList()));
    }
  }

  public static void main(String[] arguments) throws Exception {
    int warm = arguments.length > 1 ? Integer.parseInt(arguments[0]) : 60;
    int measured = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 100;
    EditorTimes times = new EditorTimes(warm, measured);
    Edit comment = new Edit(0, List.of(), List.of("# something"));
    Path folder = Files.createTempDirectory("editor");
    Files.writeString(folder.resolve("book.aspects"), GeneratedBook.of(500));
    List<String> book = Files.readAllLines(folder.resolve("book.aspects"));
    int aspect = book.indexOf("aspect \"Aspect 250\" {");
    Edit meaning =
        new Edit(
            aspect + 2,
            book.subList(aspect + 2, aspect + 4),
            List.of(
                "  allows slow then slow",
                "  on four show green over green over green over green"));
    times.measure("500 aspects", folder, List.of("book.aspects"), List.of(comment, meaning));
    Path large = Files.createTempDirectory("editor");
    GeneratedLayout.main(new String[] {large.toString(), "2000"});
    List<String> layout = Files.readAllLines(large.resolve("layout.yaml"));
    int signal = layout.indexOf("        - {name: S1000, kind: k4, bus: bus0, address: 1001}");
    Edit address =
        new Edit(
            signal,
            List.of(layout.get(signal)),
            List.of(layout.get(signal).replace("1001", "1002")));
    times.measure("2,000 signals", large, List.of("layout.yaml"), List.of(comment, address));
    List<String> small = Files.readAllLines(large.resolve("book.aspects"));
    int last = small.size() - 1;
    Edit speed =
        new Edit(
            last,
            List.of(small.get(last)),
            List.of(small.get(last).replace("allows s23", "allows s22")));
    times.measure(
        "a book with 2,000 signals open",
        large,
        List.of("book.aspects", "layout.yaml"),
        List.of(comment, speed));
    Runtime.getRuntime().gc();
    Runtime runtime = Runtime.getRuntime();
    System.out.println(
        "memory in use: " + (runtime.totalMemory() - runtime.freeMemory() >> 20) + " MiB");
    System.exit(0);
  }

  /** Edits the first of some texts. */
  private void measure(String what, Path folder, List<String> names, List<Edit> edits)
      throws IOException, InterruptedException {
    String name = names.get(0);
    try (Editor editor = new Editor(folder)) {
      for (String each : names) {
        editor.open(each, Files.readString(folder.resolve(each)));
      }
      Map<String, List<Diagnostic>> before = quiet(editor);
      List<Map<String, List<Diagnostic>>> after = new ArrayList<>();
      for (Edit edit : edits) {
        edit.make(editor, name, false);
        after.add(quiet(editor));
        edit.make(editor, name, true);
        editor.shown(before);
      }
      List<Editor.Moment> atOnce = new ArrayList<>();
      List<Editor.Moment> all = new ArrayList<>();
      for (int i = 0; i < warm + measured; i++) {
        boolean back = i % 2 == 1;
        int which = i / 2 % edits.size();
        Editor.Moment from = Editor.Moment.now();
        edits.get(which).make(editor, name, back);
        Editor.Moment first = editor.firstShown(name, editor.version(name));
        Editor.Moment last = editor.shown(back ? before : after.get(which));
        if (i >= warm) {
          atOnce.add(since(from, first));
          all.add(since(from, last));
        }
      }
      System.out.printf(
          Locale.ROOT,
          "%s: at once %.0f ms, all %.0f ms; of processor time %.0f ms and %.0f ms%n",
          what,
          high(atOnce.stream().map(Editor.Moment::clock).toList()),
          high(all.stream().map(Editor.Moment::clock).toList()),
          high(atOnce.stream().map(Editor.Moment::work).toList()),
          high(all.stream().map(Editor.Moment::work).toList()));
    }
  }

  private static Editor.Moment since(Editor.Moment from, Editor.Moment to) {
    return new Editor.Moment(to.clock() - from.clock(), to.work() - from.work());
  }

  private static Map<String, List<Diagnostic>> quiet(Editor editor) throws InterruptedException {
    Editor.Moment from;
    Editor.Moment to = Editor.Moment.now();
    do {
      from = to;
      Thread.sleep(QUIET);
      to = Editor.Moment.now();
    } while (editor.last().clock() > from.clock() || to.work() - from.work() > IDLE);
    return editor.shownNow();
  }

  private static double high(List<Long> times) {
    List<Long> sorted = new ArrayList<>(times);
    Collections.sort(sorted);
    return sorted.get(sorted.size() * 95 / 100) / NANOS;
  }
}
