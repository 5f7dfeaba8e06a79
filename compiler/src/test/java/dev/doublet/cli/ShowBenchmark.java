package dev.doublet.cli;

import com.fasterxml.jackson.databind.JsonNode;
import dev.doublet.page.Browser;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.stream.StreamSupport;

/**
 * How long after a file was saved it is on the screen: the demo, with its title changed again and
 * again, in Chromium. Run in {@code compiler/} as {@code java … ShowBenchmark}.
 */
final class ShowBenchmark {
  private static final int SAVED = 40;

  private ShowBenchmark() {}

  /** Prints the median and the 95th percentile of all but the first ten. */
  public static void main(String[] arguments) throws IOException, InterruptedException {
    Path root = Files.createTempDirectory("show");
    for (String file :
        List.of(
            "examples/brackwater/layout.yaml",
            "rulebooks/brackwater.aspects",
            "rulebooks/brackwater-heads.aspects")) {
      Files.createDirectories(root.resolve(file).getParent());
      Files.copy(Path.of("..").resolve(file), root.resolve(file));
    }
    // So far up files may be read.
    Files.createDirectories(root.resolve(".git"));
    Path layout = root.resolve("examples/brackwater/layout.yaml");
    String text = Files.readString(layout);
    List<List<String>> texts = new ArrayList<>();
    for (int i = 0; i < SAVED; i++) {
      String title = "Number " + (1000 + i);
      texts.add(List.of(title, text.replaceFirst("layout: .*", "layout: " + title)));
    }
    try (Showing it = Showing.of(layout.getParent())) {
      Map<String, ?> asked = Map.of("file", layout.toString(), "texts", texts);
      JsonNode took = Browser.look("follow", it.address().toString(), asked);
      double[] millis =
          StreamSupport.stream(took.spliterator(), false)
              .skip(10)
              .mapToDouble(JsonNode::asDouble)
              .sorted()
              .toArray();
      System.out.printf(
          "saved and on the screen: median %.0f ms, 95th percentile %.0f ms%n",
          millis[millis.length / 2], millis[millis.length * 95 / 100]);
    }
    System.exit(0);
  }
}
