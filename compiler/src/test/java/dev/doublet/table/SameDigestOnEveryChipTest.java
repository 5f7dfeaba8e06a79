package dev.doublet.table;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.layout.Controller;
import dev.doublet.layout.Layout;
import dev.doublet.layout.Unit;
import dev.doublet.layout.read.LayoutResolver;
import dev.doublet.source.SourceFile;
import dev.doublet.source.SourceReader;
import dev.doublet.table.TableModel.Kind;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * One walk over the demo's tables, random ones and hostile ones gives the same digest here, on
 * 8-bit AVR, Cortex-M0 and M3 and RISC-V, and in the reader in Java where that opens the table.
 */
@Tag("slow")
class SameDigestOnEveryChipTest {
  private static final int STEPS = 160;
  private static final List<String> CHIPS = List.of("here", "avr", "m0", "m3", "rv32");

  @TempDir private Path folder;

  private final List<byte[]> tables = new ArrayList<>();
  private final List<String> topics = new ArrayList<>();

  @Test
  void whenLampsSwitch() throws Exception {
    agree(false);
  }

  @Test
  void whenLampsFade() throws Exception {
    agree(true, "-DDOUBLET_FADES");
  }

  private void agree(boolean fading, String... options) throws Exception {
    for (String tool : List.of("gcc", "avr-gcc", "arm-none-eabi-gcc", "qemu-system-riscv32")) {
      Compilation.assumeCompiler(tool);
    }
    demo();
    Random random = new Random(11);
    for (int i = 0; i < 50; i++) {
      add(RandomController.of(random));
    }
    for (int i = 0; i < 20; i++) {
      hostile(random);
    }
    Files.writeString(folder.resolve("tables.h"), header());
    Map<String, List<String>> digests = digests(options);
    assertThat(digests.keySet()).containsExactlyInAnyOrderElementsOf(CHIPS);
    List<String> here = digests.get("here");
    assertThat(here).hasSize(tables.size());
    CHIPS.forEach(chip -> assertThat(digests.get(chip)).as(chip).isEqualTo(here));
    int hostile = 0;
    for (int i = 0; i < tables.size(); i++) {
      String[] said = here.get(i).split(" ");
      try {
        TableModel model = TableDecoder.decode(tables.get(i));
        assertThat(here.get(i))
            .as("table " + i)
            .isEqualTo(String.format("%02x 0 %08x", i, new Walk(i, model, fading).digest()));
      } catch (TableFault fault) {
        hostile += said[1].equals("0") ? 1 : 0;
      }
    }
    assertThat(hostile).as("hostile tables that the reader in C opens").isBetween(5, 20);
  }

  private void demo() throws TableFault {
    Layout demo =
        LayoutResolver.resolve(
                "examples/brackwater/layout.yaml", SameDigestOnEveryChipTest::fromProject)
            .value()
            .orElseThrow();
    for (Controller controller : demo.controllers()) {
      tables.add(TableWriter.write(Lowering.lower(demo.rulebook(), controller)));
      topics.add("");
    }
  }

  private static SourceFile fromProject(String path) throws SourceReader.Unreadable {
    try {
      return new SourceFile(path, Files.readString(Path.of("..").resolve(path)));
    } catch (IOException e) {
      throw new SourceReader.Unreadable("there is no such file");
    }
  }

  private void add(Controller controller) {
    tables.add(Samples.write(controller));
    topics.add(
        controller.units().stream()
            .map((Unit u) -> u.command().topic())
            .filter(t -> !t.isEmpty() && t.matches("[a-z0-9/]+"))
            .findFirst()
            .orElse(""));
  }

  /** A table that breaks a rule, under a checksum that fits. */
  private void hostile(Random random) {
    for (; ; ) {
      byte[] table = Samples.write(RandomController.of(random));
      for (int damage = 1 + random.nextInt(3); damage > 0; damage--) {
        table[18 + random.nextInt(table.length - 22)] = (byte) random.nextInt(256);
      }
      Samples.seal(table);
      try {
        TableDecoder.decode(table);
      } catch (TableFault fault) {
        tables.add(table);
        topics.add("");
        return;
      }
    }
  }

  private String header() {
    StringBuilder text = new StringBuilder();
    StringBuilder list = new StringBuilder("#define TABLES(X)");
    for (int i = 0; i < tables.size(); i++) {
      text.append("static const uint8_t bytes_").append(i).append("[] FLASH = {");
      for (byte b : tables.get(i)) {
        text.append(b & 0xFF).append(',');
      }
      text.append("};\n");
      list.append(" X(").append(i).append(", \"").append(topics.get(i)).append("\")");
    }
    return text.append(list).append('\n').toString();
  }

  private Map<String, List<String>> digests(String... options) throws Exception {
    List<String> command = new ArrayList<>(List.of("src/test/chip/digest", folder.toString()));
    command.addAll(List.of(options));
    Process process = new ProcessBuilder(command).redirectErrorStream(true).start();
    String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
    assertThat(process.waitFor()).as(output).isZero();
    Map<String, List<String>> digests = new TreeMap<>();
    for (String line : output.split("\n")) {
      String[] parts = line.split(" ", 2);
      assertThat(parts).as(line).hasSize(2);
      digests.computeIfAbsent(parts[0], c -> new ArrayList<>()).add(parts[1]);
    }
    return digests;
  }

  /** The walk of walk.c. */
  private final class Walk {
    private final byte[] bytes;
    private final ByteBuffer table;
    private final String topic;
    private final TableModel model;
    private final TableReader reader;
    private final FadingReader fades;
    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private int seed;
    private long now = 1000;

    Walk(int number, TableModel model, boolean fading) {
      this.bytes = tables.get(number);
      this.table = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
      this.topic = topics.get(number);
      this.seed = number;
      this.model = model;
      this.reader = new TableReader(model);
      this.fades = fading ? new FadingReader(reader) : null;
    }

    private int chance() {
      seed = seed * 1664525 + 1013904223;
      return seed >>> 16;
    }

    private void put16(int number) {
      out.write(number);
      out.write(number >> 8);
    }

    int digest() {
      int units = model.units().size();
      for (int step = 0; step < STEPS; step++) {
        now += 1 + (chance() & 63);
        if (!model.buses().isEmpty()) {
          command(step % model.buses().size(), step);
        }
        if (units > 0) {
          int unit = chance() % units;
          int number = chance();
          if (step % 8 == 0) {
            reader.setApproach(unit, (number & 1) == 1, now);
          }
          if (step % 8 == 4) {
            out.write(reader.set(unit, number & 15, now) ? 1 : 0);
          }
          out.write(reader.number(unit, now));
        }
        if (step % 16 == 15) {
          reader.setNight((step >> 4 & 1) == 1);
          reader.setTest(step == 79 && model.colours() > 0 ? 1 : 0);
          for (int chain = 0; chain < model.chains().size(); chain++) {
            out.writeBytes(fades == null ? reader.leds(chain, now) : fades.leds(chain, now));
          }
        }
      }
      save();
      return Checksum.of(out.toByteArray(), out.size());
    }

    private void command(int bus, int step) {
      int record = 30 + 11 * bus;
      int one = chance();
      int other = chance();
      switch (model.buses().get(bus).speaks()) {
        case DCC -> {
          int lowest = table.getShort(record + 2) & 0xFFFF;
          int highest = table.getShort(record + 4) & 0xFFFF;
          int address = lowest <= highest ? lowest + one % (highest - lowest + 1) : one & 2047;
          address = step % 32 > 28 ? 2047 : address;
          put16(reader.accessory(bus, address, other & 1, now));
          put16(reader.extended(bus, address, other >> 1 & 31, now));
        }
        case MQTT ->
            put16(
                reader.topic(
                    bus,
                    topic.getBytes(StandardCharsets.UTF_8),
                    new byte[] {(byte) ('0' + one % 10)},
                    now));
        case OPENLCB -> {
          int records = table.getShort(record + 8) & 0xFFFF;
          int place = table.getShort(record + 6) & 0xFFFF;
          long key = records > 0 ? table.getLong(place + 14 * (one % records)) : 0;
          put16(reader.event(bus, key + (other & 3), now));
        }
      }
    }

    private void save() {
      int units = model.units().size();
      if (units == 0) {
        return;
      }
      byte[] saved = new byte[units + 4];
      for (int unit = 0; unit < units; unit++) {
        Kind kind = model.kinds().get(model.units().get(unit).kind());
        saved[unit] = (byte) (reader.state(unit) ^ kind.rest());
      }
      System.arraycopy(bytes, bytes.length - 4, saved, units, 4);
      out.writeBytes(saved);
      int sum = Checksum.of(saved, saved.length);
      for (int i = 0; i < 4; i++) {
        out.write(sum >> 8 * i);
      }
    }
  }
}
