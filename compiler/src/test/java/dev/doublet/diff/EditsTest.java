package dev.doublet.diff;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.chart.Answers;
import dev.doublet.chart.AnswersCsv;
import dev.doublet.diagnostic.Severity;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.golden.Edition;
import dev.doublet.page.AspectChart;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;

/**
 * Edits of our own books and layouts at random: whatever makes another table, another answer or
 * another picture is told, by an event that is not text only, and not by the table's alone.
 */
class EditsTest {
  private static final Path ROOT = Path.of("..");
  private static final List<String> LAYOUTS =
      List.of(
          "examples/brackwater/layout.yaml",
          "examples/yard/layout.yaml",
          "examples/terminus/layout.yaml");
  private static final List<String> BOOKS =
      List.of(
          "rulebooks/brackwater.aspects",
          "rulebooks/brackwater-heads.aspects",
          "examples/terminus/saltmarsh.aspects");
  private static final Pattern WORD = Pattern.compile("\"[^\"\n]*\"|[A-Za-z][A-Za-z-]*|\\d+");

  /** What an edit did: the tables, the answers and the pictures then and now. */
  private record World(
      Map<String, byte[]> tables, String answers, String pictures, boolean sound) {}

  @Test
  void a_few_edits_are_told() throws IOException {
    assertThat(tried(new Random(1957), 60)).isGreaterThan(4);
  }

  @Test
  @Tag("slow")
  void many_edits_are_told() throws IOException {
    assertThat(tried(new Random(2_001), 600)).isGreaterThan(30);
  }

  private static int tried(Random random, int tries) throws IOException {
    Map<String, String> texts = new TreeMap<>();
    for (String name : LAYOUTS) {
      texts.put(name, Files.readString(ROOT.resolve(name)));
    }
    for (String name : BOOKS) {
      texts.put(name, Files.readString(ROOT.resolve(name)));
    }
    Map<String, World> before = new TreeMap<>();
    LAYOUTS.forEach(layout -> before.put(layout, world(texts, layout)));
    int told = 0;
    for (int i = 0; i < tries; i++) {
      String layout = LAYOUTS.get(i % LAYOUTS.size());
      List<String> files = filesOf(layout);
      String file = files.get(random.nextInt(files.size()));
      Map<String, String> edited = new TreeMap<>(texts);
      edited.put(file, edit(random, texts.get(file)));
      World now = world(edited, layout);
      if (now.sound() && !edited.equals(texts)) {
        told += hold(only(texts, files), only(edited, files), before.get(layout), now) ? 1 : 0;
      }
    }
    return told;
  }

  private static List<String> filesOf(String layout) {
    return layout.contains("terminus")
        ? List.of(layout, BOOKS.get(2))
        : List.of(layout, BOOKS.get(0), BOOKS.get(1));
  }

  private static Edition only(Map<String, String> texts, List<String> files) {
    Map<String, String> some = new TreeMap<>(texts);
    some.keySet().retainAll(files);
    return new Edition(some);
  }

  /** Returns true when the edit changed anything that is compared. */
  private static boolean hold(Edition old, Edition now, World before, World after) {
    Changes changes = Edition.changes(old, now);
    List<Event> heavy =
        changes.events().stream()
            .filter(e -> e.consequence() != Consequence.TEXT && e.sort() != Sort.TABLE_CHANGED)
            .toList();
    String edit = difference(old, now);
    boolean other = false;
    if (!same(before.tables(), after.tables())) {
      assertThat(heavy).as("other tables: %s, %s", edit, changes.events()).isNotEmpty();
      other = true;
    }
    if (!before.answers().equals(after.answers()) || !before.pictures().equals(after.pictures())) {
      assertThat(changes.events()).as("other answers or pictures: %s", edit).isNotEmpty();
      other = true;
    }
    return other;
  }

  private static String difference(Edition old, Edition now) {
    StringBuilder difference = new StringBuilder();
    old.texts()
        .forEach(
            (name, text) -> {
              List<String> lines = text.lines().toList();
              List<String> others = now.texts().get(name).lines().toList();
              for (int i = 0; i < Math.min(lines.size(), others.size()); i++) {
                if (!lines.get(i).equals(others.get(i))) {
                  difference.append(lines.get(i)).append(" -> ").append(others.get(i)).append('\n');
                }
              }
            });
    return difference.toString();
  }

  /** The same but for editions, checksums over them, and the names of controllers. */
  private static boolean same(Map<String, byte[]> old, Map<String, byte[]> now) {
    return bare(old).equals(bare(now));
  }

  private static List<String> bare(Map<String, byte[]> tables) {
    return tables.values().stream().map(t -> Arrays.toString(bare(t))).sorted().toList();
  }

  private static byte[] bare(byte[] table) {
    byte[] rest = Arrays.copyOf(table, table.length - 4);
    rest[8] = 0;
    rest[9] = 0;
    return rest;
  }

  private static World world(Map<String, String> texts, String layout) {
    SourceReader reader =
        path -> {
          if (!texts.containsKey(path)) {
            throw new SourceReader.Unreadable("there is no such file");
          }
          return new SourceFile(path, texts.get(path));
        };
    Build build = Compiler.build(layout, reader);
    Compiler.Checked<LayoutFacts> checked = build.checked();
    boolean sound =
        checked.value().isPresent()
            && checked.diagnostics().stream().noneMatch(d -> d.severity() == Severity.ERROR);
    if (!sound) {
      return new World(Map.of(), "", "", false);
    }
    LayoutFacts facts = checked.value().get();
    Map<String, byte[]> tables = new TreeMap<>(build.files());
    tables.keySet().removeIf(name -> !name.endsWith(".bin"));
    return new World(
        tables,
        AnswersCsv.of(Answers.of(facts.layout())),
        AspectChart.markdown(facts.layout().rulebook()),
        true);
  }

  /** One word for another of the same sort, a number for one near it, or a line away. */
  private static String edit(Random random, String text) {
    List<MatchResult> words = WORD.matcher(text).results().toList();
    MatchResult word = words.get(random.nextInt(words.size()));
    if (random.nextInt(8) == 0) {
      List<String> lines = new ArrayList<>(text.lines().toList());
      lines.remove(random.nextInt(lines.size()));
      return String.join("\n", lines) + "\n";
    }
    String other;
    if (Character.isDigit(word.group().charAt(0))) {
      other = Integer.toString(Math.max(0, Integer.parseInt(word.group()) + random.nextInt(7) - 3));
    } else {
      boolean quoted = word.group().startsWith("\"");
      List<String> others =
          words.stream().map(MatchResult::group).filter(w -> w.startsWith("\"") == quoted).toList();
      other = others.get(random.nextInt(others.size()));
      other = Character.isDigit(other.charAt(0)) ? word.group() : other;
    }
    return text.substring(0, word.start()) + other + text.substring(word.end());
  }
}
