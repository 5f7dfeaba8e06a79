package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * What the README and the pages of its tour show is what happens: every block marked {@code
 * console} is run, line by line, and must print what stands below each command; lists of findings
 * and changes name all there are. {@code -Ddoublet.update=true} writes what was printed.
 */
class ReadmeTest {
  private static final Path ROOT = Path.of("..");
  private static final String MAIN = "compiler/src/main/java";
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)#\\s]+)[^)]*\\)");
  private static final String PROMPT = "$ compiler/doublet ";

  @ParameterizedTest
  @ValueSource(strings = {"README.md", "examples/README.md", "compiler/findings.md"})
  void every_command_prints_what_the_page_shows(String name) throws IOException {
    Path page = ROOT.resolve(name);
    List<String> lines = Files.readAllLines(page);
    List<String> actual = replay(page, lines);
    if (Boolean.getBoolean("doublet.update") && System.getenv("CI") == null) {
      Files.write(page, actual);
    } else {
      assertThat(actual).isEqualTo(lines);
    }
  }

  @Test
  void every_link_between_our_pages_leads_to_a_file() throws IOException {
    List<Path> pages =
        new ArrayList<>(
            List.of(
                ROOT.resolve("README.md"),
                ROOT.resolve("DEVELOPERS.md"),
                ROOT.resolve("compiler/src/test/README.md")));
    for (String folder :
        List.of("examples", "grammar", "compiler/src/main/java", "compiler/src/test/bench")) {
      try (Stream<Path> all = Files.walk(ROOT.resolve(folder))) {
        all.filter(f -> f.toString().endsWith(".md")).forEach(pages::add);
      }
    }
    for (Path page : pages) {
      LINK.matcher(Files.readString(page))
          .results()
          .map(link -> link.group(1))
          .filter(to -> !to.contains(":"))
          .forEach(to -> assertThat(page.resolveSibling(to)).as("a link of " + page).exists());
    }
  }

  private static List<String> replay(Path shown, List<String> lines) throws IOException {
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
      List<String> list =
          switch (line) {
            case "<!-- families -->" -> families(shown);
            case "<!-- findings -->" -> table(shown, ExplainPages.all());
            case "<!-- changes -->" -> table(shown, ExplainPages.ofChanges());
            default -> List.of();
          };
      if (!list.isEmpty()) {
        replayed.add(line);
        replayed.add("");
        replayed.addAll(list);
        replayed.add("");
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

  /** The findings of each family or reader in a line, with links to their pages. */
  private static List<String> families(Path shown) throws IOException {
    Map<String, Path> files = files();
    Map<String, List<String>> families = new TreeMap<>();
    for (ExplainPage page : ExplainPages.all()) {
      Path file = files.get(page.name());
      String family = file.getParent().getFileName().toString();
      families.computeIfAbsent(family, f -> new ArrayList<>()).add(link(shown, page.name(), file));
    }
    List<String> rows = new ArrayList<>();
    families.forEach((family, links) -> rows.add("- " + family + ": " + String.join(", ", links)));
    return rows;
  }

  /** Every finding or change, with what it is. */
  private static List<String> table(Path shown, List<ExplainPage> pages) throws IOException {
    Map<String, Path> files = files();
    return pages.stream()
        .map(p -> "- " + link(shown, p.name(), files.get(p.name())) + ": " + p.summary())
        .toList();
  }

  private static String link(Path shown, String name, Path file) {
    assertThat(file).as("the page of " + name).isNotNull();
    return "["
        + name
        + "]("
        + shown.getParent().relativize(file).toString().replace('\\', '/')
        + ")";
  }

  /** The pages beside the code, by title. */
  private static Map<String, Path> files() throws IOException {
    Map<String, Path> files = new HashMap<>();
    try (Stream<Path> all = Files.walk(ROOT.resolve(MAIN))) {
      for (Path file : all.filter(f -> f.toString().endsWith(".md")).toList()) {
        files.put(Files.readAllLines(file).get(0).substring(2), file);
      }
    }
    return files;
  }
}
