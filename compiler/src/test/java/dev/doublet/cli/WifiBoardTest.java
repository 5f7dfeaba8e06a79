package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.table.TableReader;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.net.SocketTimeoutException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * The file from which a board with a radio begins, with a computer as its kit: what its SPI sends
 * are the bits of LEDs, and it takes a table through Debian's mosquitto.
 */
@Tag("slow")
@Timeout(120)
class WifiBoardTest {
  @TempDir private Path folder;
  private final SerialLeds leds = new SerialLeds();
  private Process board;
  private Path program;
  private Session session;

  @BeforeEach
  void compile() throws Exception {
    session = new Session(Toolchain.ROOT);
    String layout = "examples/brackwater/layout.yaml";
    String out = folder.resolve("out").toAbsolutePath().toString();
    assertThat(session.run("build", layout, "--output", out)).isZero();
    CompiledC.source(folder, "kit.h");
    List<String> parts = new ArrayList<>(List.of("-I" + folder, "-I" + out));
    parts.add(CompiledC.source(folder, "kit.c"));
    for (String part : List.of("mqtt_signals", "mqtt", "table_store", "sockets", "wifi_board")) {
      parts.add(part + ".c");
    }
    program = CompiledC.program(folder, "board", parts);
  }

  @AfterEach
  void end() throws InterruptedException {
    if (board != null) {
      board.destroyForcibly().waitFor();
    }
  }

  private BufferedReader start(int port) throws IOException {
    ProcessBuilder builder = new ProcessBuilder(program.toString());
    builder.environment().put("PORT", Integer.toString(port));
    board = builder.redirectError(folder.resolve("errors").toFile()).start();
    return board.inputReader(StandardCharsets.UTF_8);
  }

  /** Follows the first chain until something holds. */
  private void follow(BufferedReader lines, BooleanSupplier until) throws IOException {
    while (!until.getAsBoolean()) {
      String line = lines.readLine();
      assertThat(line).as(Files.readString(folder.resolve("errors"))).isNotNull();
      if (line.startsWith("0 ")) {
        leds.take(Integer.parseInt(line.substring(2), 16));
      }
    }
  }

  @Test
  void commands_and_a_table_come_to_the_leds() throws Exception {
    ScratchBroker.assumeInstalled();
    byte[] table = Files.readAllBytes(folder.resolve("out/bank.bin"));
    TableReader reader = TableReader.open(table);
    try (ScratchBroker broker = ScratchBroker.of(folder, "allow_anonymous true\n")) {
      BufferedReader lines = start(broker.port());
      follow(lines, () -> leds.frame().equals(lit(reader)));
      publish(broker, "brackwater/signals/K1", "-m", "Clear");
      byte[] topic = "brackwater/signals/K1".getBytes(StandardCharsets.UTF_8);
      assertThat(
              reader.topic(
                  ScratchBroker.bus(reader), topic, "Clear".getBytes(StandardCharsets.UTF_8), 0))
          .isOne();
      follow(lines, () -> leds.frame().equals(lit(reader)));

      // Another table, which is written to flash and read back before it is shown.
      Path other = Files.createDirectories(folder.resolve("other"));
      for (String book : List.of("brackwater.aspects", "brackwater-heads.aspects")) {
        Files.copy(Toolchain.ROOT.resolve("rulebooks").resolve(book), other.resolve(book));
      }
      Files.writeString(
          other.resolve("layout.yaml"),
          Files.readString(Toolchain.ROOT.resolve("examples/brackwater/layout.yaml"))
              .replace("../../rulebooks/", "")
              .replace("{name: K5}", "{name: K1}")
              .replaceFirst("name: K1, kind: bank", "name: K5, kind: bank"));
      Session there = new Session(other);
      assertThat(there.run("build", "layout.yaml", "--output", "out")).isZero();
      TableReader next = TableReader.open(Files.readAllBytes(other.resolve("out/bank.bin")));
      assertThat(
              next.topic(
                  ScratchBroker.bus(next), topic, "Clear".getBytes(StandardCharsets.UTF_8), 0))
          .isOne();
      assertThat(lit(next)).isNotEqualTo(lit(reader));
      publish(broker, "bank/table", "-f", other.resolve("out/bank.bin").toString());
      follow(lines, () -> leds.frame().equals(lit(next)));
    }
  }

  /**
   * A port whose queue of connections is full answers nothing at all, as a computer that is off.
   */
  @Test
  void lamps_are_served_while_a_broker_does_not_answer() throws Exception {
    List<Socket> filling = new ArrayList<>();
    try (ServerSocket silent = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      boolean full = false;
      while (!full) {
        assertThat(filling).hasSizeLessThan(100);
        Socket socket = new Socket();
        filling.add(socket);
        try {
          socket.connect(silent.getLocalSocketAddress(), 300);
        } catch (SocketTimeoutException nobody) {
          full = true;
        }
      }
      BufferedReader lines = start(silent.getLocalPort());
      long begun = System.nanoTime();
      int[] frames = {0};
      String[] before = {""};
      follow(lines, () -> !leds.frame().isEmpty());
      while (frames[0] < 8) {
        String line = lines.readLine();
        frames[0] += line.equals("0 0000") && !before[0].equals(line) ? 1 : 0;
        before[0] = line;
      }
      assertThat(TimeUnit.NANOSECONDS.toSeconds(System.nanoTime() - begun)).isLessThan(13);
    } finally {
      for (Socket socket : filling) {
        socket.close();
      }
    }
  }

  private static String lit(TableReader reader) {
    return HexFormat.of().withUpperCase().formatHex(reader.leds(0, 0));
  }

  private static void publish(ScratchBroker broker, String topic, String how, String what)
      throws Exception {
    List<String> command = new ArrayList<>(List.of("mosquitto_pub", "-h", "localhost"));
    command.addAll(List.of("-p", broker.port() + "", "-q", "1", "-r", "-t", topic, how, what));
    CompiledC.run(command, "");
  }
}
