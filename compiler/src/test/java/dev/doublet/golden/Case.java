package dev.doublet.golden;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;

/**
 * A golden case: a Markdown page with fenced blocks. A block whose fence bears a file name (as in
 * {@code ```aspects yard.aspects}) is an input, the first one being what is checked; the block
 * marked {@code ```output} is the exact output expected after it. {@code -Ddoublet.update=true}
 * writes the actual output into the page instead, which is refused where the variable CI is set.
 */
public final class Case {
  private final Path page;
  private final List<String> lines;
  private final Map<String, String> files = new LinkedHashMap<>();
  private final int outputStart;
  private final int outputEnd;

  private Case(Path page, List<String> lines, int from, int to) {
    this.page = page;
    this.lines = lines;
    int start = -1;
    int end = -1;
    for (int i = from; i < to; i++) {
      if (!lines.get(i).startsWith("```")) {
        continue;
      }
      int close = i + 1;
      while (!lines.get(close).equals("```")) {
        close++;
      }
      String[] fence = lines.get(i).substring(3).trim().split(" ");
      if (fence[0].equals("output")) {
        start = i + 1;
        end = close;
      } else if (fence.length > 1) {
        files.put(fence[1], String.join("\n", lines.subList(i + 1, close)) + "\n");
      }
      i = close;
    }
    this.outputStart = start;
    this.outputEnd = end;
  }

  /** A whole page as one case. */
  public static Case of(Path page) {
    List<String> lines = read(page);
    return new Case(page, lines, 0, lines.size());
  }

  /** The part of a page under a second-level heading, such as {@code Bad}. */
  public static Case section(Path page, String heading) {
    List<String> lines = read(page);
    int from = lines.indexOf("## " + heading);
    assertThat(from).as("%s has a part \"## %s\"", page.getFileName(), heading).isNotNegative();
    int to = from + 1;
    while (to < lines.size() && !lines.get(to).startsWith("## ")) {
      to++;
    }
    return new Case(page, lines, from, to);
  }

  /** Every page below a folder, sorted. */
  public static List<Path> pages(Path folder) {
    try (Stream<Path> walk = Files.walk(folder)) {
      return walk.filter(p -> p.toString().endsWith(".md")).sorted().toList();
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }

  /** The inputs by name, in order. */
  public Map<String, String> files() {
    return files;
  }

  /** The name of the input that is checked: the first. */
  public String root() {
    return files.keySet().iterator().next();
  }

  /** Reads this case's inputs. */
  public SourceReader reader() {
    return path -> {
      String text = files.get(path);
      if (text == null) {
        throw new SourceReader.Unreadable("there is no such file");
      }
      return new SourceFile(path, text);
    };
  }

  /** The output that the page expects; empty when it has none. */
  public String expected() {
    return outputStart < 0
        ? ""
        : String.join("\n", lines.subList(outputStart, outputEnd))
            + (outputEnd > outputStart ? "\n" : "");
  }

  /** Asserts that the output is the expected one, or writes it into the page when asked to. */
  public void verify(String actual) {
    if (Boolean.getBoolean("doublet.update") && outputStart >= 0 && !actual.equals(expected())) {
      assertThat(System.getenv("CI")).as("goldens are not updated where CI is set").isNull();
      List<String> updated = new ArrayList<>(lines.subList(0, outputStart));
      updated.addAll(actual.lines().toList());
      updated.addAll(lines.subList(outputEnd, lines.size()));
      try {
        Files.writeString(page, String.join("\n", updated) + "\n");
      } catch (IOException e) {
        throw new UncheckedIOException(e);
      }
      return;
    }
    assertThat(actual).as(page.getFileName().toString()).isEqualTo(expected());
  }

  private static List<String> read(Path page) {
    try {
      return Files.readAllLines(page);
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
  }
}
