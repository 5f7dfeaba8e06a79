package dev.doublet.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;

/**
 * A browser without a screen, which looks at pages for tests: Debian's Chromium, driven by {@code
 * look.mjs}. It wants {@code npm install --no-save --no-package-lock --prefix
 * compiler/src/test/node playwright-core@1.65.1 axe-core@4.14.1}, run once.
 */
public final class Browser {
  private static final Path FOLDER = Path.of("src/test/node");
  private static final ObjectMapper JSON = new ObjectMapper();

  private Browser() {}

  /** Skips a test where there is no such browser. */
  public static void assumeInstalled() {
    assumeTrue(
        Files.isExecutable(Path.of("/usr/bin/chromium")),
        "chromium is not installed, so nobody looks at pages here");
    for (String library : List.of("playwright-core", "axe-core")) {
      assumeTrue(
          Files.exists(FOLDER.resolve("node_modules").resolve(library)),
          "nobody looks at pages here: " + library + " is not installed for node");
    }
  }

  /** What the browser sees of a page when it does something of {@code look.mjs}. */
  static JsonNode look(String what, Path page, Map<String, ?> asked)
      throws IOException, InterruptedException {
    return look(what, page.toAbsolutePath().toString(), asked);
  }

  /** The same of a page that is served. */
  public static JsonNode look(String what, String address, Map<String, ?> asked)
      throws IOException, InterruptedException {
    return JSON.readTree(
        node(List.of("node", "look.mjs", what, address), JSON.writeValueAsString(asked)));
  }

  /** The numbers that a script answers each line with. */
  static List<double[]> lines(String script, List<String> lines)
      throws IOException, InterruptedException {
    return node(List.of("node", script), String.join("\n", lines) + "\n")
        .lines()
        .map(line -> Arrays.stream(line.split(" ")).mapToDouble(Double::parseDouble).toArray())
        .toList();
  }

  private static String node(List<String> command, String in)
      throws IOException, InterruptedException {
    Path asked = Files.createTempFile("asked", ".txt");
    Files.writeString(asked, in);
    Process node =
        new ProcessBuilder(command)
            .directory(FOLDER.toFile())
            .redirectInput(asked.toFile())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    String seen = new String(node.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(node.waitFor()).isZero();
    Files.delete(asked);
    return seen;
  }
}
