package dev.doublet.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.layout.Layout;
import dev.doublet.source.SourceFile;
import dev.doublet.table.Lowering;
import dev.doublet.table.TableFault;
import dev.doublet.table.TableModel;
import dev.doublet.table.TableWriter;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import picocli.CommandLine;

/** A writer of tables with a fault never gets its bytes out: nothing is written, old files stay. */
class BrokenWriterTest {
  private static final String BOOK =
      """
      rulebook "Brackwater & Northern"
      speeds in mph { normal 60 }
      colours { red yellow green }
      head searchlight { lamp main shows red, yellow, green }
      form one-head { top }
      aspect "Clear"    { number 2  allows normal then normal  on one-head show green }
      aspect "Approach" { number 1  allows normal then stop    on one-head show yellow }
      aspect "Stop"     { number 0  allows stop                on one-head show red }
      cover die-out because "every lamp is tried in each colour before a session"
      """;
  private static final String LAYOUT =
      """
      layout: Coalpit Yard
      rulebook: book.aspects
      otherwise: most-restrictive
      kinds:
        home: {form: one-head, heads: [searchlight], by: aspect-number}
      controllers:
        east:
          flash: 28672
          ram: 1536
          chains:
            main:
              signals: [{name: E1, kind: home}]
        west:
          flash: 28672
          ram: 1536
          chains:
            main:
              signals: [{name: W1, kind: home}, {name: W2, kind: home}]
      """;

  @TempDir private Path folder;

  @BeforeEach
  void build_once_with_the_sound_writer() throws IOException {
    Files.writeString(folder.resolve("book.aspects"), BOOK);
    Files.writeString(folder.resolve("layout.yaml"), LAYOUT);
    assertThat(run(TableWriter::write)).isEmpty();
    assertThat(files())
        .containsOnlyKeys("doublet_reader.h", "east.bin", "east.h", "west.bin", "west.h");
    // What follows would change these files, if it were built.
    Files.writeString(folder.resolve("layout.yaml"), LAYOUT.replace("W2", "W3"));
  }

  @Test
  void no_bytes_at_all_are_refused() throws IOException {
    refused(model -> new byte[0], "the table cannot be opened: ");
  }

  @Test
  void a_byte_that_fell_over_is_refused() throws IOException {
    refused(
        model -> {
          byte[] table = TableWriter.write(model);
          table[table.length / 2] ^= 1;
          return table;
        },
        "the table cannot be opened: ");
  }

  /** Sound in form: only sending commands and looking at the lamps tells. */
  @Test
  void a_whole_table_that_does_what_another_layout_says_is_refused() throws IOException {
    for (String other :
        new String[] {
          LAYOUT.replace("{name: W1, kind: home}", "{name: W1, kind: home, address: 9}"),
          LAYOUT.replace("otherwise: most-restrictive", "otherwise: keep"),
          LAYOUT.replace("main:\n        signals", "main:\n        brightness: 50\n        signals")
        }) {
      assertThat(other).isNotEqualTo(LAYOUT);
      refused(model -> model.units().size() == 1 ? TableWriter.write(model) : west(other), "");
    }
  }

  @Test
  void a_writer_that_gives_up_is_refused() throws IOException {
    refused(
        model -> {
          throw new TableFault(TableFault.Reason.TOO_MUCH, "it does not fit");
        },
        "it does not fit");
  }

  private void refused(Build.Writing writer, String why) throws IOException {
    Map<String, String> before = files();
    assertThat(run(writer))
        .startsWith("doublet: the table for controller ")
        .contains(" does not do what the layout says (" + why)
        .endsWith(
            "), so nothing was written; this is a fault in Doublet: please report it with the"
                + " layout\n");
    assertThat(files()).isEqualTo(before);
  }

  private byte[] west(String layout) throws TableFault {
    Layout other =
        Compiler.checkLayout("layout.yaml", path -> text(path, layout), CheckOptions.ALL)
            .value()
            .map(LayoutFacts::layout)
            .orElseThrow();
    TableModel model = Lowering.lower(other.rulebook(), other.controllers().get(1));
    return TableWriter.write(model);
  }

  private static SourceFile text(String path, String layout) {
    return new SourceFile(path, path.endsWith(".yaml") ? layout : BOOK);
  }

  /** Builds, and returns what went to standard error; the exit code is 2 when that is anything. */
  private String run(Build.Writing writer) {
    ByteArrayOutputStream err = new ByteArrayOutputStream();
    PrintStream out = new PrintStream(new ByteArrayOutputStream(), true, UTF_8);
    Terminal terminal = new Terminal(out, new PrintStream(err, true, UTF_8), false, false, folder);
    BuildVerb verb =
        new BuildVerb(terminal, (path, reader) -> Compiler.build(path, reader, writer));
    int code = new CommandLine(verb).execute("layout.yaml", "--output", "out");
    String said = err.toString(UTF_8);
    assertThat(code).as(said).isEqualTo(said.isEmpty() ? 0 : 2);
    return said;
  }

  private Map<String, String> files() throws IOException {
    Map<String, String> files = new TreeMap<>();
    try (Stream<Path> all = Files.list(folder.resolve("out"))) {
      for (Path file : all.toList()) {
        files.put(file.getFileName().toString(), Arrays.toString(Files.readAllBytes(file)));
      }
    }
    return files;
  }
}
