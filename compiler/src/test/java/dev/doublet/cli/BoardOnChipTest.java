package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.doublet.facts.CheckOptions;
import dev.doublet.facts.LayoutFacts;
import dev.doublet.facts.RefreshTime;
import dev.doublet.layout.Board;
import dev.doublet.layout.Layout;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A refresh takes on the 8-bit board what layouts are told: a program that is never idle, with
 * packets as fast as a track carries them, in a simulator that is true to the cycle.
 */
@Tag("slow")
class BoardOnChipTest {
  private static final Path SIMAVR = Path.of("/usr/include/simavr/sim_avr.h");

  private static final Path LAYOUTS = Path.of("src/test/chip/layouts");

  @TempDir private Path folder;

  /**
   * More lamps are counted as fading than commands do that come as fast as a track carries them.
   */
  @ParameterizedTest
  @CsvSource({"219, false", "219, true", "60, false"})
  void a_refresh_takes_what_is_told(int signals, boolean fades) throws IOException {
    assumeChip();
    copy("brackwater.aspects", "brackwater-heads.aspects");
    if (fades) {
      Files.copy(LAYOUTS.resolve("glow-heads.aspects"), folder.resolve("glow-heads.aspects"));
      Path book = folder.resolve("brackwater.aspects");
      Files.writeString(book, Files.readString(book).replace("brackwater-heads", "glow-heads"));
    }
    assertToldAsMeasured(layout(signals), fades, List.of());
  }

  /**
   * What a table needs more of the reader is counted, and left out of the reader where it is not.
   */
  @ParameterizedTest
  @CsvSource({
    "false, ''",
    "false, LEVELS",
    "false, CHIPS",
    "false, NUMERALS",
    "false, LEVELS CHIPS NUMERALS",
    "true, LEVELS CHIPS NUMERALS"
  })
  void what_a_table_needs_is_counted(boolean fades, String needs) throws IOException {
    assumeChip();
    String book = Files.readString(LAYOUTS.resolve("lamps.aspects"));
    Files.writeString(
        folder.resolve("lamps.aspects"),
        fades ? book.replace("head triple", "head triple with filament") : book);
    List<String> needed = needs.isEmpty() ? List.of() : List.of(needs.split(" "));
    assertToldAsMeasured(layoutThatNeeds(needed), fades, needed);
  }

  private static void assumeChip() {
    Toolchain.assumeInstalled("gcc");
    Toolchain.assumeInstalled("avr-gcc");
    assumeTrue(Files.exists(SIMAVR), "libsimavr's headers are not installed");
  }

  private void assertToldAsMeasured(String layout, boolean fades, List<String> needs)
      throws IOException {
    Files.writeString(folder.resolve("layout.yaml"), layout);
    Session session = new Session(folder);
    assertThat(session.run("build", "layout.yaml", "--output", "out")).as(session.out()).isZero();
    double told = told();
    double measured = measured(fades, needs) / 16.0;
    assertThat(told).isBetween(measured * 0.93, measured * (fades ? 1.3 : 1.07));
  }

  /** A plain kind, one of two heads, one whose brightness is its own, and one with a numeral. */
  private static String layoutThatNeeds(List<String> needs) {
    StringBuilder text =
        new StringBuilder(
            """
            layout: What is needed
            rulebook: lamps.aspects
            otherwise: most-restrictive
            buses:
              track: {speaks: dcc, first-decoder: 1, aspect-bits: 8}
            chips:
              triple: {outputs: [R, G, B]}
            kinds:
              home: {form: home, heads: [triple], by: aspect-number}
              junction: {form: junction, heads: [triple, triple], by: aspect-number%s}
              dim: {form: home, heads: [triple], by: aspect-number%s}
              numbered: {form: %s], by: aspect-number}
            controllers:
              c:
                board: avr-16mhz
                ram: 4096
                chains:
            """
                .formatted(
                    needs.contains("CHIPS") ? ", chip: triple" : "",
                    needs.contains("LEVELS") ? ", brightness: 50" : "",
                    needs.contains("NUMERALS")
                        ? "numbered, heads: [speed, triple"
                        : "home, heads: [triple"));
    List<String> kinds = List.of("home", "junction", "dim", "numbered");
    for (int chain = 0; chain < 2; chain++) {
      text.append("      chain" + chain + ":\n        signals:\n");
      for (int i = 0; i < 60; i++) {
        String name = "S" + (60 * chain + i);
        text.append("        - {name: " + name + ", kind: " + kinds.get(i % 4) + "}\n");
      }
    }
    return text.toString();
  }

  /** Six kinds in turn on two chains, one LED passed over after every tenth signal. */
  private static String layout(int signals) {
    StringBuilder text =
        new StringBuilder(
            """
            layout: A big yard
            rulebook: brackwater.aspects
            otherwise: most-restrictive
            buses:
              track: {speaks: dcc, first-decoder: 1, aspect-bits: 5}
            kinds:
              home: {form: two-head, heads: [searchlight, searchlight], by: aspect-number}
              junction: {form: three-head, heads: [searchlight, searchlight, searchlight], by: aspect-number}
              starter: {form: one-head, heads: [three-lamp], aspects: [Stop, Approach, Clear], by: binary-coded, bits: 2}
              ground: {form: ground, heads: [searchlight], aspects: [Stop, Restricting, Slow Approach, Slow Clear], by: one-per-output}
              dwarf: {form: ground, heads: [searchlight], by: aspect-number}
              bay: {form: one-head, heads: [two-lamp], aspects: [Stop, Approach], by: binary-coded, bits: 1}
            controllers:
              c:
                board: avr-16mhz
                ram: 4096
                chains:
            """);
    List<String> kinds = List.of("home", "junction", "starter", "ground", "dwarf", "bay");
    for (int chain = 0; chain < 2; chain++) {
      text.append("      chain" + chain + ":\n        signals:\n");
      for (int i = chain; i < signals; i += 2) {
        text.append("        - {name: S" + i + ", kind: " + kinds.get(i / 2 % 6) + "}\n");
        if (i / 2 % 10 == 9) {
          text.append("        - {gap: 1}\n");
        }
      }
    }
    return text.toString();
  }

  private double told() {
    Layout layout =
        LayoutResolver.resolve(
                "layout.yaml",
                path -> {
                  try {
                    return new SourceFile(path, Files.readString(folder.resolve(path)));
                  } catch (IOException e) {
                    throw new java.io.UncheckedIOException(e);
                  }
                })
            .value()
            .orElseThrow();
    RefreshTime time =
        RefreshTime.of(LayoutFacts.of(layout, CheckOptions.FINDINGS), layout.controllers().get(0))
            .orElseThrow();
    assertThat(time.board()).isEqualTo(Board.ALL.get(0));
    return time.micros();
  }

  /** Cycles of a refresh, as the program of the chip benchmark has them on average. */
  private long measured(boolean fades, List<String> needs) throws IOException {
    Path chip = Path.of("compiler/src/test/chip");
    List<String> command =
        new ArrayList<>(List.of("avr-gcc", "-std=gnu99", "-Os", "-mmcu=atmega328p"));
    command.addAll(List.of("-ffunction-sections", "-fdata-sections", "-Wl,--gc-sections"));
    command.addAll(List.of("-DDOUBLET_NO_TOPICS", "-DDOUBLET_NO_EVENTS"));
    Stream.of("NUMERALS", "LEVELS", "CHIPS")
        .filter(part -> !needs.contains(part))
        .forEach(part -> command.add("-DDOUBLET_NO_" + part));
    if (fades) {
      command.add("-DDOUBLET_FADES");
    }
    command.addAll(List.of("-I" + chip + "/board", "-Icompiler/src/main/resources/dev/doublet"));
    command.add("-I" + file("out"));
    command.addAll(List.of(chip + "/busy.c", chip + "/board/avr.c", "-o", file("busy")));
    assertThat(Toolchain.output(command)).isEmpty();
    assertThat(
            Toolchain.output(
                List.of(
                    "gcc",
                    "-std=gnu99",
                    "-O2",
                    "-I/usr/include/simavr",
                    "-o",
                    file("simulate"),
                    chip + "/simulate.c",
                    "-lsimavr")))
        .isEmpty();
    String refresh =
        Toolchain.output(List.of(file("simulate"), file("busy")))
            .lines()
            .filter(line -> line.startsWith("refresh "))
            .findFirst()
            .orElseThrow();
    return Long.parseLong(refresh.split(" ")[2]);
  }

  private void copy(String... books) throws IOException {
    for (String book : books) {
      Files.copy(Toolchain.ROOT.resolve("rulebooks").resolve(book), folder.resolve(book));
    }
  }

  private String file(String name) {
    return folder.toAbsolutePath().resolve(name).toString();
  }
}
