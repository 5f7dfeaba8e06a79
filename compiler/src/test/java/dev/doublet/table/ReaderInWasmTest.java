package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.Build;
import dev.doublet.Compiler;
import dev.doublet.bus.Accessory;
import dev.doublet.bus.Packet;
import dev.doublet.golden.Case;
import dev.doublet.layout.Controller;
import dev.doublet.layout.Unit;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.table.Samples.Arrangement;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The reader of pages gives the bytes that the one in Java gives. A WebAssembly runtime in Java
 * (Chicory) runs it, so no browser is needed.
 */
@Tag("slow")
class ReaderInWasmTest {
  private static final Path MAKING = Path.of("src/main/wasm");
  private static final Path ROOT = Path.of("..");

  @TempDir private Path folder;

  @Test
  void every_sort_of_table_gives_the_same_bytes() throws IOException {
    ReaderInWasm reader = new ReaderInWasm(ReaderInWasm.shipped());
    samples(reader, 50);
  }

  @Test
  void every_table_of_the_examples_and_cases_gives_the_same_bytes() throws IOException {
    ReaderInWasm reader = new ReaderInWasm(ReaderInWasm.shipped());
    Random random = new Random(8);
    int tables = 0;
    for (String example : List.of("brackwater", "quarry", "terminus", "yard")) {
      String path = "examples/" + example + "/layout.yaml";
      tables += converse(Compiler.build(path, ReaderInWasmTest::fromProject), random, reader);
    }
    for (Path page : Case.pages(Path.of("src/test/resources/cases"))) {
      Case one = Case.of(page);
      if (!one.files().isEmpty() && one.root().endsWith(".yaml")) {
        tables += converse(Compiler.build(one.root(), one.reader()), random, reader);
      }
    }
    assertThat(tables).isGreaterThan(20);
  }

  @Test
  void what_is_no_table_is_refused_for_the_same_reason() throws IOException {
    ReaderInWasm reader = new ReaderInWasm(ReaderInWasm.shipped());
    byte[] table = Samples.write(RandomController.of(new Random(3)));
    for (int length = 0; length < table.length; length++) {
      refuse(Arrays.copyOf(table, length), reader);
    }
    for (int at = 0; at < table.length; at++) {
      byte[] flipped = table.clone();
      flipped[at] ^= (byte) (1 << at % 8);
      refuse(flipped, reader);
    }
  }

  @Test
  void the_shortest_rhythm_is_that_of_the_table() throws IOException {
    ReaderInWasm reader = new ReaderInWasm(ReaderInWasm.shipped());
    Random random = new Random(7);
    for (int i = 0; i < 50; i++) {
      byte[] table = Samples.write(RandomController.of(random));
      Dialogue dialogue = new Dialogue(table, true);
      reader.ask(dialogue.request());
      assertThat(reader.shortest())
          .isEqualTo(
              dialogue.reader().model().rhythms().stream()
                  .mapToInt(TableModel.Rhythm::period)
                  .min()
                  .orElse(0));
    }
  }

  @Test
  void it_is_small() throws IOException {
    assertThat(ReaderInWasm.shipped().length).isLessThan(8192);
  }

  /**
   * What is shipped is made of the reader as it is: byte for byte where the compilers are of the
   * versions that made it, by what it does elsewhere.
   */
  @Test
  void it_is_made_of_the_reader_in_c() throws IOException, InterruptedException {
    for (String tool : List.of("clang", "wasm-ld", "wasm-opt")) {
      Compilation.assumeCompiler(tool);
    }
    Compilation compilation = new Compilation(folder);
    Path again = folder.resolve("again.wasm");
    String build = MAKING.resolve("build").toAbsolutePath().toString();
    compilation.compile(build, "to", again.toString());
    String versions = compilation.compile(build, "versions");
    if (Files.readString(MAKING.resolve("compiler-versions")).equals(versions)) {
      assertThat(Files.readAllBytes(again))
          .as("reader.wasm is old: run compiler/src/main/wasm/build")
          .isEqualTo(ReaderInWasm.shipped());
    } else {
      samples(new ReaderInWasm(Files.readAllBytes(again)), 20);
    }
  }

  private static void samples(ReaderInWasm reader, int count) throws IOException {
    Random random = new Random(2);
    for (Arrangement arrangement : Arrangement.values()) {
      converse(Samples.fleet(40, arrangement), random, reader);
    }
    converse(Samples.everyMode(), random, reader);
    converse(Samples.everyLight(), random, reader);
    converse(Samples.everyGlow(), random, reader);
    for (int i = 0; i < count; i++) {
      converse(RandomController.of(random), random, reader);
    }
  }

  private static int converse(Build build, Random random, ReaderInWasm reader) {
    build
        .files()
        .forEach(
            (name, table) -> {
              if (name.endsWith(".bin")) {
                List<Controller> all = build.checked().value().orElseThrow().layout().controllers();
                all.stream()
                    .filter(c -> name.equals(c.name() + ".bin"))
                    .forEach(c -> converse(c, table, random, reader));
              }
            });
    return (int) build.files().keySet().stream().filter(n -> n.endsWith(".bin")).count();
  }

  private static void converse(Controller controller, Random random, ReaderInWasm reader) {
    converse(controller, Samples.write(controller), random, reader);
  }

  /** Random commands for what listens and for what does not, and frames at random times. */
  private static void converse(
      Controller controller, byte[] table, Random random, ReaderInWasm reader) {
    Dialogue dialogue = new Dialogue(table, true);
    List<Unit> units = Lowering.order(controller);
    for (int i = 0; i < 40; i++) {
      if (!units.isEmpty()) {
        int unit = random.nextInt(units.size());
        dialogue.approach(unit, random.nextInt(3) > 0);
        command(dialogue, controller, units.get(random.nextInt(units.size())), random);
      }
      dialogue.night(random.nextInt(4) == 0);
      for (int chain = 0; chain < controller.chains().size(); chain++) {
        dialogue.leds(chain, 700 * i + random.nextInt(700));
      }
    }
    dialogue.aspects();
    agree(dialogue, reader);
  }

  private static void command(Dialogue dialogue, Controller controller, Unit unit, Random random) {
    int bus = Lowering.buses(controller).indexOf(unit.command().bus());
    for (int address : unit.command().addresses()) {
      int binary = Accessory.binary(address, unit.command().bus().firstDecoder());
      dialogue.packet(bus, new Packet.ExtendedAccessory(binary, random.nextInt(32)).bytes());
      dialogue.packet(
          bus, new Packet.BasicAccessory(binary, random.nextInt(2), random.nextBoolean()).bytes());
    }
    for (long event : unit.command().events()) {
      dialogue.event(bus, event + random.nextInt(2));
    }
    String name = unit.kind().states().get(random.nextInt(unit.kind().states().size())).name();
    for (String payload : List.of(name, "" + random.nextInt(12), name + "x")) {
      dialogue.topic(
          bus,
          unit.command().topic().getBytes(StandardCharsets.UTF_8),
          payload.getBytes(StandardCharsets.UTF_8));
    }
  }

  private static void refuse(byte[] bytes, ReaderInWasm reader) {
    Dialogue dialogue = new Dialogue(bytes, true);
    assertThat(dialogue.isOpen()).isFalse();
    agree(dialogue, reader);
  }

  private static void agree(Dialogue dialogue, ReaderInWasm reader) {
    int at = Arrays.mismatch(dialogue.answer(), reader.ask(dialogue.request()));
    assertThat(at).as("first byte of the answer that differs").isEqualTo(-1);
  }

  private static SourceFile fromProject(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(ROOT.resolve(path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }
}
