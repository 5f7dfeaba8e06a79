package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.table.TableReader;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The firmware with MQTT runs on a Cortex-M3 and on an STM32F405 in an emulator, QEMU, which joins
 * the chip's serial line with Debian's mosquitto, as a module that passes a connection on would.
 */
@Tag("slow")
class MqttOnChipTest {
  @TempDir private Path folder;

  private Session session;
  private String layout;

  @BeforeEach
  void build() throws IOException {
    ScratchBroker.assumeInstalled();
    Toolchain.assumeInstalled("qemu-system-arm");
    Toolchain.assumeInstalled("arm-none-eabi-gcc");
    for (String book : List.of("brackwater.aspects", "brackwater-heads.aspects")) {
      Files.copy(Toolchain.ROOT.resolve("rulebooks").resolve(book), folder.resolve(book));
    }
    layout =
        Files.readString(Toolchain.ROOT.resolve("examples/brackwater/layout.yaml"))
            .replace("../../rulebooks/", "");
    Files.writeString(folder.resolve("layout.yaml"), layout);
    session = new Session(folder);
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isZero();
  }

  @Test
  void commands_and_a_new_table_arrive_and_the_broker_may_go_and_come() throws Exception {
    Path program = compile();
    TableReader reader = TableReader.open(Files.readAllBytes(folder.resolve("out/bank.bin")));

    Process chip = null;
    try (ScratchBroker broker =
        ScratchBroker.of(folder, "allow_anonymous true\npersistence false\n")) {
      publish(broker, "K1", "Clear");
      chip = run("lm3s6965evb", program, broker, "-serial", "file:" + folder.resolve("leds"));
      command(reader, "K1", "Clear");
      await(reader, this::printed);
      publish(broker, "K3", "Approach");
      command(reader, "K3", "Approach");
      await(reader, this::printed);

      Files.writeString(
          folder.resolve("layout.yaml"),
          layout
              .replace("{name: K5}", "{name: K1}")
              .replaceFirst("name: K1, kind: bank", "name: K5, kind: bank"));
      assertThat(session.run("send", "layout.yaml", "--broker", broker.place()))
          .as(session.out() + session.err())
          .isZero();
      assertThat(session.out()).contains("from slot 0;").endsWith("sent, and shown\n");
      assertThat(session.run("build", "layout.yaml", "--output", "next")).isZero();
      TableReader next = TableReader.open(Files.readAllBytes(folder.resolve("next/bank.bin")));
      command(next, "K1", "Clear");
      command(next, "K3", "Approach");
      await(next, this::printed);

      // It comes back empty, with nothing retained; signals stay, and hear it again.
      broker.kill();
      broker.start();
      publish(broker, "K2", "Clear");
      command(next, "K2", "Clear");
      await(next, this::printed);
    } finally {
      if (chip != null) {
        chip.destroyForcibly().waitFor();
      }
    }
  }

  /**
   * What is written to registers is traced: the sixteens that SPI sends, by addresses and bits of
   * ST's RM0090 (from memory). The emulator keeps no table in flash, which the board notices.
   */
  @Test
  void an_stm32f405_lights_leds_by_its_spi_and_says_that_a_table_was_not_kept() throws Exception {
    Path program = compileAsThePageSays();
    TableReader reader = TableReader.open(Files.readAllBytes(folder.resolve("out/bank.bin")));
    Process chip = null;
    try (ScratchBroker broker =
        ScratchBroker.of(folder, "allow_anonymous true\npersistence false\n")) {
      publish(broker, "K1", "Clear");
      String trace = folder.resolve("trace").toString();
      chip =
          run("netduinoplus2", program, broker, "-trace", "memory_region_ops_write", "-D", trace);
      command(reader, "K1", "Clear");
      await(reader, this::sent);
      publish(broker, "K3", "Approach");
      command(reader, "K3", "Approach");
      await(reader, this::sent);

      Files.writeString(
          folder.resolve("layout.yaml"),
          layout
              .replace("{name: K5}", "{name: K1}")
              .replaceFirst("name: K1, kind: bank", "name: K5, kind: bank"));
      assertThat(session.run("send", "layout.yaml", "--broker", broker.place())).isOne();
      assertThat(session.out())
          .contains("its program's own", "refused: the memory did not keep it")
          .endsWith("sent, and refused\n");
      await(reader, this::sent);
    } finally {
      if (chip != null) {
        chip.destroyForcibly().waitFor();
      }
    }
    // A crystal of 8 MHz over M, times N, over P: 96 MHz; a quarter for the bus, half of it for
    // SPI.
    long pll = written(0x40023804).get(0);
    assertThat(pll & 1 << 22).as("from the crystal").isNotZero();
    long clock = 8_000_000 / (pll & 63) * (pll >> 6 & 511) / (2 * (pll >> 16 & 3) + 2);
    long buses = written(0x40023808).get(0);
    assertThat(buses & 3).as("clocked by the PLL").isEqualTo(2);
    assertThat(List.of(buses >> 13 & 7, buses >> 10 & 7)).as("a quarter each").containsOnly(5L);
    for (long spi : List.of(0x40013000L, 0x40003800L, 0x40003C00L)) {
      assertThat(written(spi).get(0) >> 3 & 7).as("half").isZero();
    }
    assertThat(clock / 4 / 2).isEqualTo(SerialLeds.HERTZ);
    assertThat(written(0x40011008)).as("115,200 bit/s").containsExactly(clock / 4 / 115_200);

    // Unlocked, sector 2 erased, locked; then the head, the table and the check, each by itself.
    long[] keys = {0x45670123L, 0xCDEF89ABL};
    assertThat(written(0x40023C04))
        .containsExactly(keys[0], keys[1], keys[0], keys[1], keys[0], keys[1], keys[0], keys[1]);
    long lock = 1L << 31;
    assertThat(written(0x40023C10))
        .containsExactly(0x12L, 0x10012L, lock, 1L, lock, 1L, lock, 1L, lock);
  }

  private Path compile() throws IOException {
    String board = "compiler/src/test/chip/firmware/qemu_board";
    Path program = folder.resolve("program").toAbsolutePath();
    List<String> command = new ArrayList<>(List.of("arm-none-eabi-gcc"));
    command.addAll(List.of("-mcpu=cortex-m3", "-mthumb", "-Os"));
    command.addAll(Toolchain.STRICT);
    command.addAll(List.of("-ffunction-sections", "-Wl,--gc-sections", "-nostartfiles"));
    command.addAll(List.of("--specs=nano.specs", "--specs=nosys.specs", "-T", board + ".ld"));
    command.add("-I" + folder.toAbsolutePath().resolve("out"));
    command.addAll(List.of("-Iexamples/firmware", board + ".c"));
    for (String part : List.of("mqtt_signals", "mqtt", "table_store")) {
      command.add("examples/firmware/" + part + ".c");
    }
    command.addAll(List.of("-o", program.toString()));
    compile(command);
    return program;
  }

  /** The command of {@code mqtt.md}, with warnings. */
  private Path compileAsThePageSays() throws IOException {
    String page = Files.readString(Toolchain.ROOT.resolve("examples/firmware/mqtt.md"));
    int from = page.indexOf("arm-none-eabi-gcc ");
    Path out = folder.toAbsolutePath().resolve("out");
    String command =
        page.substring(from, page.indexOf("arm-none-eabi-objcopy", from))
            .replace("-std=c99", String.join(" ", Toolchain.STRICT))
            .replace("-Iout", "-I" + out)
            .replace("-o out/", "-o " + out + "/");
    compile(List.of("bash", "-c", command));
    return out.resolve("stm32f405.elf");
  }

  /** The linker warns of calls to an operating system, which are there for none. */
  private static void compile(List<String> command) throws IOException {
    assertThat(Toolchain.output(command).lines())
        .allMatch(line -> line.contains("not implemented") || line.contains("in function"));
  }

  private Process run(String machine, Path program, ScratchBroker broker, String... more)
      throws IOException {
    List<String> command = new ArrayList<>(List.of("qemu-system-arm", "-M", machine));
    command.addAll(List.of("-kernel", program.toString(), "-display", "none", "-monitor", "none"));
    command.addAll(List.of("-serial", "tcp:" + broker.place() + ",reconnect=1"));
    command.addAll(List.of(more));
    return new ProcessBuilder(command)
        .redirectErrorStream(true)
        .redirectOutput(folder.resolve("emulator.log").toFile())
        .start();
  }

  private void publish(ScratchBroker broker, String signal, String aspect) throws Exception {
    MqttClient client = new MqttClient("tcp://" + broker.place(), "hand", new MemoryPersistence());
    client.connect();
    byte[] payload = aspect.getBytes(StandardCharsets.UTF_8);
    client.publish("brackwater/signals/" + signal, payload, 1, true);
    client.disconnect();
    client.close();
  }

  private static void command(TableReader reader, String signal, String aspect) {
    byte[] topic = ("brackwater/signals/" + signal).getBytes(StandardCharsets.UTF_8);
    assertThat(
            reader.topic(
                ScratchBroker.bus(reader), topic, aspect.getBytes(StandardCharsets.UTF_8), 0))
        .isOne();
  }

  /** Waits until the chain of the bank is lit as a reader says. */
  private static void await(TableReader reader, Callable<String> lit) throws Exception {
    String wanted = HexFormat.of().withUpperCase().formatHex(reader.leds(0, 0));
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(40);
    for (String last = ""; !last.equals(wanted); last = lit.call()) {
      assertThat(System.nanoTime()).as(last + " is not " + wanted).isLessThan(end);
      Thread.sleep(100);
    }
  }

  /** What the board printed last of its first chain, in whole lines. */
  private String printed() throws IOException {
    String last = "";
    if (Files.exists(folder.resolve("leds"))) {
      String all = Files.readString(folder.resolve("leds"));
      for (String line : all.substring(0, all.lastIndexOf('\n') + 1).split("\n")) {
        last = line.startsWith("chain 0 ") ? line.substring("chain 0 ".length()) : last;
      }
    }
    return last;
  }

  /** The last frame that the first SPI sent. */
  private String sent() throws IOException {
    SerialLeds leds = new SerialLeds();
    written(0x4001300C).forEach(sixteen -> leds.take(sixteen.intValue()));
    return leds.frame();
  }

  /** What was written to a register, in whole lines of the emulator's trace. */
  private List<Long> written(long register) throws IOException {
    Path file = folder.resolve("trace");
    String trace = Files.exists(file) ? Files.readString(file) : "";
    Matcher lines =
        Pattern.compile(String.format("addr 0x%08x value 0x([0-9a-f]+) size [0-9] ", register))
            .matcher(trace);
    return lines.results().map(line -> Long.parseLong(line.group(1), 16)).toList();
  }
}
