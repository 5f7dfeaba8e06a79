package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.stream.Collectors;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Builds killed two hundred times while they overwrite one set by another: a hundred while files
 * are written, a hundred between two renames. A gate below Java holds them there. No file is ever
 * half of one, a table beside the header of another is refused, and the next build leaves one set
 * whole. A profile of its own runs it, as each kill costs a Java.
 */
class ManyKills {
  private static final int KILLS = 100;
  private static final List<String> CONTROLLERS = List.of("east", "north", "south", "west");

  /** A table and a header for each controller, and the reader. */
  private static final int FILES = 2 * CONTROLLERS.size() + 1;

  private static final String PLAIN = "plain.yaml";
  private static final String RENAMED = "renamed.yaml";

  @TempDir private Path folder;
  private final Random random = new Random(1957);
  private Path out;
  private Path gate;
  private Session session;
  private Map<String, String> plain;
  private Map<String, String> renamed;

  @BeforeEach
  void buildBothWholeAndTheGate() throws IOException {
    session = Yard.in(folder);
    Files.writeString(folder.resolve(PLAIN), layout("{name: NAME-2}"));
    Files.writeString(folder.resolve(RENAMED), layout("{name: NAME-3, address: NUMBER}"));
    plain = built(PLAIN, "plain");
    renamed = built(RENAMED, "renamed");
    assertThat(plain.keySet()).isEqualTo(renamed.keySet()).hasSize(FILES);
    out = folder.resolve("out");
    Toolchain.assumeInstalled("gcc");
    gate = folder.resolve("gate.so");
    String source = Toolchain.resource("gate.c", folder).toString();
    List<String> gcc =
        List.of("gcc", "-Wall", "-Werror", "-shared", "-fPIC", "-o", "" + gate, source);
    assertThat(Toolchain.output(gcc)).isEmpty();
  }

  private static String layout(String second) {
    StringBuilder layout =
        new StringBuilder(Yard.LAYOUT.substring(0, Yard.LAYOUT.indexOf("  west:")));
    for (String controller : CONTROLLERS) {
      layout.append(
          """
            NAME:
              flash: 28672
              ram: 1536
              chains:
                NAME-main:
                  signals:
                  - {name: NAME-1, form: one-head, heads: [searchlight], by: aspect-number}
                  - SECOND
          """
              .replace("SECOND", second)
              .replace("NAME", controller)
              .replace("NUMBER", "" + (900 + 10 * CONTROLLERS.indexOf(controller))));
    }
    return layout.toString();
  }

  @Test
  void a_build_that_is_killed_while_it_writes_leaves_the_old_set() throws Exception {
    for (int i = 0; i < KILLS; i++) {
      // The journal is forced onto the disk twice, before the files and behind them.
      Map<String, String> lies = mended();
      killed(lies, "fsync", 1 + random.nextInt(FILES + 2));
      assertThat(whole()).isEqualTo(lies);
    }
    mended();
  }

  @Test
  void a_build_that_is_killed_between_two_renames_leaves_a_mix_that_is_refused() throws Exception {
    int refused = 0;
    for (int i = 0; i < KILLS; i++) {
      // At least one file has its name by then, and one has not.
      killed(mended(), "rename", 2 + random.nextInt(FILES - 1));
      assertThat(out.resolve(".doublet-build")).exists();
      refused += refused();
    }
    mended();
    System.out.printf("%d kills between two renames: %d tables refused%n", KILLS, refused);
    assertThat(refused).isPositive();
  }

  /** Builds the other set in a Java of its own, and kills it at a call. */
  private void killed(Map<String, String> lies, String call, int at) throws Exception {
    ProcessBuilder builder =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                classes(),
                Main.class.getName(),
                "build",
                lies.equals(plain) ? RENAMED : PLAIN,
                "--output",
                "out")
            .directory(folder.toFile());
    builder.environment().putAll(Map.of("LD_PRELOAD", "" + gate, "GATE", call, "AT", "" + at));
    Process process = builder.redirectErrorStream(true).start();
    try (BufferedReader said =
        new BufferedReader(
            new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8))) {
      assertThat(said.readLine()).isEqualTo("at the gate");
    } finally {
      process.destroyForcibly().waitFor();
    }
  }

  /** The class path of this test, as seen from any folder. */
  private static String classes() {
    return Arrays.stream(System.getProperty("java.class.path").split(File.pathSeparator))
        .map(entry -> Path.of(entry).toAbsolutePath().toString())
        .collect(Collectors.joining(File.pathSeparator));
  }

  /** The files that lie there under their names, none of them half of one. */
  private Map<String, String> whole() throws IOException {
    Map<String, String> found = OutputFolderTest.files(out);
    found.keySet().removeIf(name -> name.startsWith(".doublet-"));
    assertThat(found.keySet()).isEqualTo(plain.keySet());
    found.forEach((name, text) -> assertThat(text).isIn(plain.get(name), renamed.get(name)));
    return found;
  }

  /** How many tables are refused: those beside a header of the other set, and no others. */
  private int refused() throws IOException {
    Map<String, String> found = whole();
    int refused = 0;
    for (String controller : CONTROLLERS) {
      String table = controller + ".bin";
      boolean oldTable = found.get(table).equals(plain.get(table));
      boolean oldHeader = found.get(controller + ".h").equals(plain.get(controller + ".h"));
      assertThat(session.run("inspect", "out/" + table)).isEqualTo(oldTable == oldHeader ? 0 : 1);
      refused += oldTable == oldHeader ? 0 : 1;
    }
    return refused;
  }

  /** Builds one of the two sets once more, and finds it whole and alone. */
  private Map<String, String> mended() throws IOException {
    boolean first = random.nextBoolean();
    Map<String, String> found = built(first ? PLAIN : RENAMED, "out");
    assertThat(found).isEqualTo(first ? plain : renamed);
    return found;
  }

  private Map<String, String> built(String layout, String name) throws IOException {
    int exit = session.run("build", layout, "--output", name);
    assertThat(exit).as(session.out() + session.err()).isZero();
    return OutputFolderTest.files(folder.resolve(name));
  }
}
