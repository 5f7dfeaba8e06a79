package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.doublet.layout.Bus;
import dev.doublet.table.TableModel;
import dev.doublet.table.TableReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;

/** Debian's mosquitto, an MQTT broker, run for one test. */
final class ScratchBroker implements AutoCloseable {
  private static final Path PROGRAM = Path.of("/usr/sbin/mosquitto");

  private final Path folder;
  private final String settings;
  private final int port;
  private Process process;

  private ScratchBroker(Path folder, String settings) throws IOException {
    this.folder = folder;
    this.settings = settings;
    try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      this.port = free.getLocalPort();
    }
  }

  static void assumeInstalled() {
    assumeTrue(Files.isExecutable(PROGRAM), "mosquitto is not installed, so no broker is joined");
  }

  /** A broker that is answering. */
  static ScratchBroker of(Path folder, String settings) throws IOException, InterruptedException {
    ScratchBroker broker = new ScratchBroker(folder, settings);
    broker.start();
    return broker;
  }

  /** The number of the bus that a broker is, in a table. */
  static int bus(TableReader reader) {
    List<Bus.Speaks> buses = reader.model().buses().stream().map(TableModel.Bus::speaks).toList();
    return buses.indexOf(Bus.Speaks.MQTT);
  }

  int port() {
    return port;
  }

  String place() {
    return "localhost:" + port;
  }

  void start() throws IOException, InterruptedException {
    Path file = folder.resolve("mosquitto.conf");
    // Started as root it would become a user who may not read the folder; others stay who they are.
    Files.writeString(file, "user root\nlistener " + port + " localhost\n" + settings);
    process =
        new ProcessBuilder(PROGRAM.toString(), "-c", file.toString())
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("mosquitto.log").toFile())
            .start();
    for (int tries = 0; !answers(); tries++) {
      assertThat(tries).as(Files.readString(folder.resolve("mosquitto.log"))).isLessThan(500);
      Thread.sleep(20);
    }
  }

  /** Kills it, as a cut of the mains would. */
  void kill() throws InterruptedException {
    process.destroyForcibly();
    process.waitFor();
  }

  private boolean answers() {
    try (Socket socket = new Socket(InetAddress.getLoopbackAddress(), port)) {
      return socket.isConnected();
    } catch (IOException e) {
      return false;
    }
  }

  @Override
  public void close() {
    process.destroyForcibly();
  }
}
