package dev.doublet.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.source.Visible;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Whatever stands in files, their names and arguments, no verb prints or writes a character that
 * moves a cursor, turns letters round or cannot be seen.
 */
class StrangeLettersTest {
  private static final String ESCAPE = "\u001B[2J\u001B]0;title\u0007";

  /** One of each sort that is hidden, and what a terminal makes something of. */
  private static final List<String> STRANGE =
      List.of(
          ESCAPE,
          "\u0008",
          "\u007F",
          "\u0085",
          "\u009B31m",
          "\u00AD",
          "\u061C",
          "\u200B",
          "\u200E",
          "\u200F",
          "\u2028",
          "\u2029",
          "\u202A",
          "\u202E",
          "\u2066",
          "\u2069",
          "\u3164",
          "\uFE0F",
          "\uFEFF",
          "\uFFF9",
          "\uD800",
          "\uDC00",
          "\uDB40\uDC41",
          "\u001B[31m",
          "\r",
          "\t",
          "\n");

  private static final List<String> VERBS =
      List.of(
          "check",
          "check --notes",
          "build",
          "answers",
          "answers --format csv",
          "wiring",
          "wiring --format csv",
          "sequence",
          "inspect",
          "explain");

  private record Ran(String printed, int code) {}

  @Test
  void texts_with_strange_letters_anywhere_are_shown_without(@TempDir Path folder)
      throws IOException {
    Random random = new Random(1957);
    for (int i = 0; i < 250; i++) {
      String book = i % 2 == 0 ? Yard.BOOK : with(random, Yard.BOOK);
      String layout = i % 3 == 0 ? Yard.LAYOUT : with(random, Yard.LAYOUT);
      Files.write(folder.resolve("book.aspects"), book.getBytes(UTF_8));
      Files.write(folder.resolve("layout.yaml"), layout.getBytes(UTF_8));
      String verb = VERBS.get(random.nextInt(VERBS.size()));
      boolean ofBook = verb.equals("sequence") || verb.startsWith("check") && random.nextBoolean();
      List<String> arguments = new ArrayList<>(List.of(verb.split(" ")));
      arguments.add(ofBook ? "book.aspects" : "layout.yaml");
      if (verb.equals("build")) {
        arguments.addAll(List.of("--output", "out" + i));
      }
      assertShown(run(folder, random.nextBoolean(), arguments), book + layout);
      assertShown(folder.resolve("out" + i));
    }
  }

  @Test
  void names_that_a_sound_layout_may_have_are_shown_without(@TempDir Path folder)
      throws IOException {
    for (String strange : STRANGE) {
      // A line end or a control is an error there; the others are sound names.
      Files.write(
          folder.resolve("book.aspects"),
          Yard.BOOK.replace("\"Stop\"", "\"St" + strange + "op\"").getBytes(UTF_8));
      String name = "W\\u%04X1".formatted((int) strange.charAt(0));
      Files.write(
          folder.resolve("layout.yaml"),
          Yard.LAYOUT.replace("name: W1", "name: \"" + name + "\"").getBytes(UTF_8));
      for (String verb : VERBS) {
        List<String> arguments = new ArrayList<>(List.of(verb.split(" ")));
        arguments.add(verb.equals("sequence") ? "book.aspects" : "layout.yaml");
        if (verb.equals("build") || verb.equals("wiring")) {
          arguments.addAll(List.of("--output", "out"));
        }
        assertShown(run(folder, false, arguments), name);
      }
      assertShown(folder.resolve("out"));
    }
  }

  @Test
  void arguments_and_names_of_files_are_shown_without(@TempDir Path folder) throws IOException {
    Yard.in(folder);
    for (String strange : STRANGE) {
      String name = "a" + strange + "b";
      for (String verb : VERBS) {
        List<String> arguments = new ArrayList<>(List.of(verb.split(" ")));
        arguments.add(name);
        assertShown(run(folder, true, arguments), name);
        arguments.add("--" + name);
        assertShown(run(folder, true, arguments), name);
      }
      assertShown(run(folder, true, List.of(name)), name);
      assertShown(run(folder, true, List.of("answers", "layout.yaml", "--signal", name)), name);
      assertShown(run(folder, true, List.of("build", "layout.yaml", "--output", name)), name);
      assertShown(run(folder, true, List.of("wiring", "layout.yaml", "--format", name)), name);
    }
    for (String strange : STRANGE) {
      if (strange.indexOf('\uD800') < 0 && strange.indexOf('\uDC00') != 0) {
        Path odd = Files.createDirectories(folder.resolve("odd" + strange));
        Files.writeString(odd.resolve(strange + ".aspects"), Yard.BOOK.replace("red", strange));
        Files.writeString(odd.resolve(strange + "layout.yaml"), "layout:\n- " + strange);
      }
    }
    assertShown(run(folder, true, List.of("check", ".")), "folders");
  }

  /** A text with some strange letters put in, or in a word's place. */
  private static String with(Random random, String text) {
    String changed = text;
    for (int i = 0; i <= random.nextInt(3); i++) {
      String strange = STRANGE.get(random.nextInt(STRANGE.size()));
      int at = random.nextInt(changed.length());
      int end = Math.min(changed.length(), at + random.nextInt(4));
      changed = changed.substring(0, at) + strange + changed.substring(end);
    }
    return changed;
  }

  private static Ran run(Path folder, boolean colour, List<String> arguments) {
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    PrintStream stream = new PrintStream(bytes, true, UTF_8);
    Terminal terminal = new Terminal(stream, stream, colour, false, folder);
    int code = Main.run(terminal, arguments.toArray(String[]::new));
    return new Ran(bytes.toString(UTF_8), code);
  }

  private static void assertShown(Ran ran, String of) {
    String own = ran.printed().replaceAll("\u001B\\[(1;3[136]|0)m", "");
    assertThat(own.codePoints().filter(c -> c != '\n' && Visible.isHidden(c)).toArray())
        .as("%s%nprinted of%n%s", own, of)
        .isEmpty();
    assertThat(own).doesNotContain("\tat ").doesNotContain("Exception");
    assertThat(ran.code()).isBetween(0, 2);
  }

  private static void assertShown(Path folder) throws IOException {
    if (!Files.isDirectory(folder)) {
      return;
    }
    try (Stream<Path> files = Files.list(folder)) {
      for (Path file : files.filter(f -> !f.toString().endsWith(".bin")).toList()) {
        assertShown(new Ran(Files.readString(file), 0), file.toString());
      }
    }
  }
}
