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
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The firmware with MQTT runs on a Cortex-M3 in an emulator, QEMU, which joins the chip's serial
 * line with Debian's mosquitto, as a module that passes a connection on would.
 */
@Tag("slow")
class MqttOnChipTest {
  @TempDir private Path folder;

  @Test
  void commands_and_a_new_table_arrive_and_the_broker_may_go_and_come() throws Exception {
    ScratchBroker.assumeInstalled();
    Toolchain.assumeInstalled("qemu-system-arm");
    Toolchain.assumeInstalled("arm-none-eabi-gcc");
    for (String book : List.of("brackwater.aspects", "brackwater-heads.aspects")) {
      Files.copy(Toolchain.ROOT.resolve("rulebooks").resolve(book), folder.resolve(book));
    }
    String layout =
        Files.readString(Toolchain.ROOT.resolve("examples/brackwater/layout.yaml"))
            .replace("../../rulebooks/", "");
    Files.writeString(folder.resolve("layout.yaml"), layout);
    Session session = new Session(folder);
    assertThat(session.run("build", "layout.yaml", "--output", "out")).isZero();
    Path program = compile();
    TableReader reader = TableReader.open(Files.readAllBytes(folder.resolve("out/bank.bin")));

    Process chip = null;
    try (ScratchBroker broker =
        ScratchBroker.of(folder, "allow_anonymous true\npersistence false\n")) {
      publish(broker, "K1", "Clear");
      chip = run(program, broker);
      command(reader, "K1", "Clear");
      await(reader);
      publish(broker, "K3", "Approach");
      command(reader, "K3", "Approach");
      await(reader);

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
      await(next);

      // It comes back empty, with nothing retained; signals stay, and hear it again.
      broker.kill();
      broker.start();
      publish(broker, "K2", "Clear");
      command(next, "K2", "Clear");
      await(next);
    } finally {
      if (chip != null) {
        chip.destroyForcibly().waitFor();
      }
    }
  }

  private Path compile() throws IOException {
    String board = "compiler/src/test/chip/firmware/qemu_board";
    Path program = folder.resolve("program").toAbsolutePath();
    List<String> command = new ArrayList<>(List.of("arm-none-eabi-gcc"));
    command.addAll(List.of("-mcpu=cortex-m3", "-mthumb", "-Os"));
    command.addAll(Toolchain.STRICT.subList(0, Toolchain.STRICT.size() - 2));
    command.addAll(List.of("-ffunction-sections", "-Wl,--gc-sections", "-nostartfiles"));
    command.addAll(List.of("--specs=nano.specs", "--specs=nosys.specs", "-T", board + ".ld"));
    command.add("-I" + folder.toAbsolutePath().resolve("out"));
    command.addAll(List.of("-Iexamples/firmware", board + ".c"));
    for (String part : List.of("mqtt_signals", "mqtt", "table_store")) {
      command.add("examples/firmware/" + part + ".c");
    }
    command.addAll(List.of("-o", program.toString()));
    // The linker warns of calls to an operating system, which are there for none.
    assertThat(Toolchain.output(command).lines())
        .allMatch(line -> line.contains("not implemented") || line.contains("in function"));
    return program;
  }

  private Process run(Path program, ScratchBroker broker) throws IOException {
    return new ProcessBuilder(
            "qemu-system-arm",
            "-M",
            "lm3s6965evb",
            "-kernel",
            program.toString(),
            "-display",
            "none",
            "-monitor",
            "none",
            "-serial",
            "tcp:" + broker.place() + ",reconnect=1",
            "-serial",
            "file:" + folder.resolve("leds"))
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
    assertThat(reader.topic(0, topic, aspect.getBytes(StandardCharsets.UTF_8), 0)).isOne();
  }

  /** Waits until the chain of the bank is lit as a reader says. */
  private void await(TableReader reader) throws Exception {
    String wanted = "chain 0 " + HexFormat.of().withUpperCase().formatHex(reader.leds(0, 0));
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(40);
    String last = "";
    while (!last.equals(wanted)) {
      assertThat(System.nanoTime()).as(last + " is not " + wanted).isLessThan(end);
      Thread.sleep(50);
      if (Files.exists(folder.resolve("leds"))) {
        for (String line : Files.readString(folder.resolve("leds")).split("\n", -1)) {
          last = line.startsWith("chain 0 ") && line.length() == wanted.length() ? line : last;
        }
      }
    }
  }
}
