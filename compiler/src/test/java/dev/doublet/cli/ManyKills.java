package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URISyntaxException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Writers killed at any moment, two hundred times: no file is ever half of one, and opening the
 * folder the next time leaves one set whole. A profile of its own runs it, as each kill costs a
 * Java.
 */
class ManyKills {
  private static final int KILLS = 200;
  private static final int FILES = 24;

  /** Writes two sets in turn until it is killed: the renames are much of what it does. */
  public static final class Writer {
    private Writer() {}

    public static void main(String[] arguments) throws IOException {
      for (int i = 0; ; i++) {
        if (i == 2) {
          System.out.println("ready");
        }
        OutputFolder.write(Path.of(arguments[0]), "out", set(i % 2 == 0 ? "A" : "B"));
      }
    }
  }

  @Test
  void a_killed_writer_leaves_whole_files_and_the_next_run_a_whole_set(@TempDir Path folder)
      throws Exception {
    Random random = new Random(1957);
    Path out = folder.resolve("out");
    int cutShort = 0;
    int mixed = 0;
    for (int i = 0; i < KILLS; i++) {
      Process writer = new ProcessBuilder(command(folder)).redirectErrorStream(true).start();
      try (BufferedReader said =
          new BufferedReader(
              new InputStreamReader(writer.getInputStream(), StandardCharsets.UTF_8))) {
        assertThat(said.readLine()).isEqualTo("ready");
        Thread.sleep(random.nextInt(60));
        writer.destroyForcibly().waitFor();
      }
      if (!Files.isDirectory(out)) {
        continue;
      }
      Map<String, String> found = OutputFolderTest.files(out);
      cutShort += found.containsKey(".doublet-build") ? 1 : 0;
      found.keySet().removeIf(name -> name.startsWith(".doublet-"));
      mixed += found.values().stream().distinct().count() > 1 ? 1 : 0;
      assertThat(found.values()).allMatch(text -> text.equals(text("A")) || text.equals(text("B")));

      Journal.open(out).close();
      Map<String, String> after = OutputFolderTest.files(out);
      assertThat(after.values().stream().distinct().count()).as("after kill %d", i).isLessThan(2);
      assertThat(after.size()).isIn(0, FILES);
    }
    System.out.printf(
        "%d kills: %d cut short, %d of them while renaming%n", KILLS, cutShort, mixed);
    assertThat(cutShort).isGreaterThan(KILLS / 4);
    assertThat(mixed).isPositive();
  }

  private static Path place(Class<?> type) throws URISyntaxException {
    return Path.of(type.getProtectionDomain().getCodeSource().getLocation().toURI());
  }

  private static List<String> command(Path folder) throws URISyntaxException {
    return List.of(
        Path.of(System.getProperty("java.home"), "bin", "java").toString(),
        "-XX:TieredStopAtLevel=1",
        "-XX:+UseSerialGC",
        "-cp",
        place(Writer.class) + File.pathSeparator + place(OutputFolder.class),
        Writer.class.getName(),
        folder.toString());
  }

  private static List<Product> set(String which) {
    List<Product> set = new ArrayList<>();
    for (int i = 0; i < FILES; i++) {
      set.add(Product.text("file" + i + ".h", text(which)));
    }
    return set;
  }

  private static String text(String which) {
    return "Made by the Doublet compiler\n" + which.repeat(5_000);
  }
}
