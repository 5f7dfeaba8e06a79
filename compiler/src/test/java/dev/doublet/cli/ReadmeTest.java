package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;

/**
 * What the README shows is what happens: every block marked {@code console} is run, line by line,
 * and must print what stands below each command. {@code -Ddoublet.update=true} writes what was
 * printed.
 */
class ReadmeTest {
  private static final Path ROOT = Path.of("..");
  private static final Path README = ROOT.resolve("README.md");
  private static final String MAIN = "compiler/src/main/java";
  private static final String PROMPT = "$ compiler/doublet ";

  @Test
  void every_command_of_the_tour_prints_what_the_readme_shows() throws IOException {
    List<String> lines = Files.readAllLines(README);
    List<String> actual = replay(lines);
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.write(README, actual);
    } else {
      assertThat(actual).isEqualTo(lines);
    }
  }

  private static List<String> replay(List<String> lines) throws IOException {
    List<String> replayed = new ArrayList<>();
    Session session = new Session(ROOT);
    boolean inConsole = false;
    boolean inTable = false;
    for (String line : lines) {
      if (line.equals("<!-- end -->")) {
        inTable = false;
      }
      if (inTable) {
        continue;
      }
      boolean fence = line.startsWith("```");
      if (fence) {
        inConsole = line.equals("```console");
      }
      if (line.equals("<!-- findings -->")) {
        replayed.add(line);
        replayed.addAll(table(Pages.all()));
        inTable = true;
      } else if (line.equals("<!-- changes -->")) {
        replayed.add(line);
        replayed.addAll(table(Pages.ofChanges()));
        inTable = true;
      } else if (fence || !inConsole) {
        replayed.add(line);
      } else if (line.startsWith(PROMPT)) {
        replayed.add(line);
        session.run(line.substring(PROMPT.length()).split(" "));
        replayed.addAll((session.out() + session.err()).lines().toList());
      }
    }
    return replayed;
  }

  /** Every finding or change, with a link to its page, which lies beside the code that makes it. */
  private static List<String> table(List<Page> pages) throws IOException {
    Map<String, String> files = new HashMap<>();
    try (Stream<Path> all = Files.walk(ROOT.resolve(MAIN))) {
      for (Path file : all.filter(f -> f.toString().endsWith(".md")).toList()) {
        String title = Files.readAllLines(file).get(0);
        files.put(title, ROOT.relativize(file).toString().replace('\\', '/'));
      }
    }
    List<String> rows = new ArrayList<>(List.of(""));
    for (Page page : pages) {
      String file = files.get("# " + page.name());
      assertThat(file).as("the page of " + page.name()).isNotNull();
      rows.add("- [" + page.name() + "](" + file + "): " + page.summary());
    }
    rows.add("");
    return rows;
  }
}
