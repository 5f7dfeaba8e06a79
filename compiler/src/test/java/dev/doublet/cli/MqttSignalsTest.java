package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import dev.doublet.table.TableReader;
import java.io.BufferedReader;
import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.TimeUnit;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The firmware with MQTT, as a process beside Debian's mosquitto, a broker of general use: LEDs are
 * what the reader in Java shows, and tables come and go by message. And its store, cut everywhere.
 */
@Tag("slow")
class MqttSignalsTest {
  private static final Path ROOT = Path.of("..");

  @TempDir Path folder;
  private final List<Process> processes = new ArrayList<>();
  private final Map<String, String> topics = new ConcurrentHashMap<>();
  private final Map<String, String> chains = new ConcurrentHashMap<>();
  private Path tables;
  private int port;

  @BeforeEach
  void build() throws IOException {
    tables = folder.resolve("out");
    assertThat(build("examples/brackwater/layout.yaml", ROOT, tables)).isZero();
    try (ServerSocket socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
      port = socket.getLocalPort();
    }
  }

  @AfterEach
  void end() throws InterruptedException {
    for (Process process : processes) {
      process.destroyForcibly().waitFor();
    }
  }

  @Test
  void power_that_fails_at_any_byte_of_a_writing_leaves_a_whole_table() throws Exception {
    Path program =
        CompiledC.program(
            folder,
            "cuts",
            List.of(
                "-I" + tables, CompiledC.source(folder, "mqtt_cuts.c"), "mqtt.c", "table_store.c"));
    // Of all cuts only the last, which is none, leaves the new table.
    String eachTime = "the new one after 1, the old one after all others\n";
    assertThat(CompiledC.run(List.of(program.toString()), ""))
        .isEqualTo(
            eachTime.repeat(6)
                + "at rest with the program's own table: no slot holds a whole one; 1\n"
                + "sound, but what the other slot holds is not; 1\n");
  }

  /**
   * A broker that a fuzzer plays: any bytes, tables that are torn or odd, cuts of power anywhere.
   */
  @Test
  void no_broker_makes_it_step_outside_its_buffers_or_come_up_without_a_table() throws Exception {
    CompiledC.assumeInstalled("clang", "no fuzzer makes up packets");
    Path fuzzer = folder.resolve("fuzzer");
    List<String> clang = new ArrayList<>(List.of("clang", "-g", "-O1", "-std=c99", "-Wall"));
    clang.add("-fsanitize=fuzzer,address,undefined");
    clang.addAll(List.of("-fno-sanitize-recover=all", "-I.", "-I" + tables.toAbsolutePath()));
    clang.addAll(List.of("../../compiler/src/test/chip/fuzz/board.c", "mqtt.c", "table_store.c"));
    clang.addAll(List.of("-o", fuzzer.toString()));
    CompiledC.run(clang, "");
    assertThat(CompiledC.fuzzed(fuzzer, 10_000)).contains("DONE");
  }

  /** They may be longer than any packet that the board has to say. */
  @Test
  void commands_are_heard_under_topics_of_any_length() throws Exception {
    String prefix = "brackwater/" + "n".repeat(800) + "/signals";
    Path copy = copy(text -> text.replace("brackwater/signals", prefix));
    assertThat(build("layout.yaml", copy, tables)).isZero();
    Path host = host();
    broker();
    board(host);
    TableReader reader = TableReader.open(Files.readAllBytes(tables.resolve("bank.bin")));
    await(() -> lit(reader));
    publish(prefix + "/K1", "Clear");
    byte[] topic = (prefix + "/K1").getBytes(StandardCharsets.UTF_8);
    assertThat(
            reader.topic(
                ScratchBroker.bus(reader), topic, "Clear".getBytes(StandardCharsets.UTF_8), 0))
        .isOne();
    await(() -> lit(reader));
  }

  /**
   * Cut to the room for them, its topics would be one, and the board would hear itself for ever.
   */
  @Test
  void a_name_too_long_for_its_topics_is_refused() throws Exception {
    String host = host().toString();
    for (int length : new int[] {0, 89, 94}) {
      Process board =
          start(
              "named" + length,
              host,
              "n".repeat(length),
              "localhost",
              "" + port,
              folder.toString());
      assertThat(board.waitFor()).isEqualTo(2);
    }
  }

  /** They would not fit its first packet, and the board would try for ever without a word. */
  @Test
  void a_user_and_password_too_long_to_be_sent_are_refused() throws Exception {
    String host = host().toString();
    String user = "u".repeat(15);
    for (int length : new int[] {200, 201}) {
      String log = "password" + length;
      String at = Integer.toString(port);
      Process board =
          start(log, host, "bank", "localhost", at, folder.toString(), user, "p".repeat(length));
      if (length == 200) {
        assertThat(board.inputReader(StandardCharsets.UTF_8).readLine()).startsWith("chain 0 ");
      } else {
        assertThat(board.waitFor()).isEqualTo(2);
        assertThat(folder.resolve(log))
            .hasContent("host: twice the name, the user and the password have 223 bytes at most");
      }
    }
  }

  @Test
  void commands_and_tables_come_by_message() throws Exception {
    Path host = host();
    Process broker = broker();
    byte[] first = Files.readAllBytes(tables.resolve("bank.bin"));
    byte[] second = Files.readAllBytes(otherTables().resolve("bank.bin"));
    assertThat(second).isNotEqualTo(first);

    // A retained command is there before the board is.
    publish("brackwater/signals/K1", "Clear");
    Process watch = watch();
    Process board = board(host);
    TableReader reader = TableReader.open(first);
    command(reader, "K1", "Clear");
    await(() -> lit(reader));
    await(
        () ->
            state()
                .startsWith(
                    "installed "
                        + sum(first)
                        + " edition 3 offered 00000000 slot none room 4096 "));
    await(() -> reported(reader));

    // A live command, one for no signal, and one of no aspect.
    publish("brackwater/signals/K3", "Advance Approach");
    command(reader, "K3", "Advance Approach");
    publish("brackwater/signals/K9", "Clear");
    publish("brackwater/signals/K2", "Clear");
    publish("brackwater/signals/K2", "no such aspect");
    command(reader, "K2", "Clear");
    command(reader, "K2", "no such aspect");
    await(() -> lit(reader) && reported(reader));

    // A new table; what is retained is said to its signals again.
    publishFile(second);
    TableReader next = TableReader.open(second);
    command(next, "K1", "Clear");
    command(next, "K2", "no such aspect");
    command(next, "K3", "Advance Approach");
    await(() -> state().equals(told(second, second, 0, "sound")));
    await(() -> lit(next) && reported(next));
    assertThat(lit(reader)).isFalse();

    // Damage is refused and told, and the old one stays.
    byte[] damaged = first.clone();
    damaged[60] ^= 1;
    publishFile(damaged);
    await(() -> state().equals(told(second, first, 0, "damaged: the checksum does not fit")));
    publishFile(Arrays.copyOf(first, 100));
    await(() -> state().endsWith("slot 0 room 4096 reason cut short, or followed by more"));
    publishFile("text of no table".getBytes(StandardCharsets.UTF_8));
    await(() -> state().endsWith("slot 0 room 4096 reason too few bytes for a table"));
    publishFile(new byte[4097]);
    await(
        () ->
            state()
                .equals(
                    "installed "
                        + sum(second)
                        + " edition 3 offered 00000000 slot 0 room 4096"
                        + " reason refused: over the room for a table"));
    publishFile(Files.readAllBytes(longTables().resolve("bank.bin")));
    await(() -> state().endsWith(" slot 0 room 4096 reason refused: over the room for chains"));
    publishFile(second);
    await(() -> state().endsWith("reason sound"));
    publishFile(Files.readAllBytes(manyTables().resolve("bank.bin")));
    await(() -> state().endsWith("reason refused: over the room for chains"));
    assertThat(lit(next)).isTrue();

    // The older one is published to go back.
    publishFile(first);
    await(() -> state().equals(told(first, first, 1, "sound")));
    await(() -> lit(reader) && reported(reader));

    // It comes up with it too, once it was cut off: the broker then says the will.
    board.destroyForcibly().waitFor();
    await(() -> state().equals("lost"));
    chains.clear();
    board = board(host);
    await(() -> state().equals(told(first, first, 1, "sound")));
    await(() -> lit(reader));

    // The broker goes and comes back empty; signals stay as they are, and are reported again.
    broker.destroyForcibly().waitFor();
    watch.destroyForcibly().waitFor();
    topics.clear();
    broker();
    watch();
    publish("brackwater/signals/K4", "Approach");
    command(reader, "K4", "Approach");
    await(() -> lit(reader) && reported(reader));
    await(() -> state().equals(told(first, first, 1, "sound")));

    // Switched off, it says goodbye, and no will is sent.
    board.destroy();
    assertThat(board.waitFor(5, TimeUnit.SECONDS)).isTrue();
    await(() -> state().equals("away"));
    assertThat(board.exitValue()).isZero();
    assertThat(Files.readString(folder.resolve("errors"))).isEmpty();
  }

  private static String sum(byte[] table) {
    StringBuilder text = new StringBuilder();
    for (int i = 1; i <= 4; i++) {
      text.append(String.format(Locale.ROOT, "%02X", table[table.length - i]));
    }
    return text.toString();
  }

  private static String told(byte[] installed, byte[] offered, int slot, String reason) {
    return "installed "
        + sum(installed)
        + " edition 3 offered "
        + sum(offered)
        + " slot "
        + slot
        + " room 4096 reason "
        + reason;
  }

  private String state() {
    return topics.getOrDefault("bank/state", "");
  }

  private static void command(TableReader reader, String signal, String aspect) {
    byte[] topic = ("brackwater/signals/" + signal).getBytes(StandardCharsets.UTF_8);
    byte[] payload = aspect.getBytes(StandardCharsets.UTF_8);
    int taken = 0;
    for (int bus = 0; bus < reader.model().buses().size(); bus++) {
      taken += reader.topic(bus, topic, payload, 0);
    }
    assertThat(taken).isOne();
  }

  private boolean lit(TableReader reader) {
    for (int chain = 0; chain < reader.model().chains().size(); chain++) {
      String leds = HexFormat.of().withUpperCase().formatHex(reader.leds(chain, 0));
      if (!leds.equals(chains.get(Integer.toString(chain)))) {
        return false;
      }
    }
    return true;
  }

  private boolean reported(TableReader reader) {
    for (int unit = 0; unit < reader.model().units().size(); unit++) {
      if (!Integer.toString(reader.number(unit, 0)).equals(topics.get("bank/shown/" + unit))) {
        return false;
      }
    }
    return true;
  }

  private Path host() throws Exception {
    CompiledC.assumeInstalled("mosquitto", "the firmware has no broker to speak with");
    CompiledC.assumeInstalled("mosquitto_pub", "nothing can be said to the firmware");
    return CompiledC.program(
        folder,
        "host",
        List.of("-I" + tables, "mqtt_signals.c", "mqtt.c", "table_store.c", "sockets.c", "host.c"));
  }

  /** The tables of the same layout with its first and fifth signal in each other's place. */
  private Path otherTables() throws IOException {
    Path copy =
        copy(
            layout -> {
              assertThat(layout).contains("{name: K1, kind: bank}", "{name: K5}");
              return layout
                  .replace("{name: K5}", "{name: K1}")
                  .replaceFirst("name: K1, kind: bank", "name: K5, kind: bank");
            });
    Path out = folder.resolve("other");
    assertThat(build("layout.yaml", copy, out)).isZero();
    return out;
  }

  /** Tables of a layout with a chain of 3,072 bytes and more. */
  private Path longTables() throws IOException {
    Path out = folder.resolve("long");
    Path copy =
        copy(
            layout -> layout.replace("{name: K5}", "{name: K5, led: 900}").replace("1536", "9000"));
    assertThat(build("layout.yaml", copy, out)).isZero();
    return out;
  }

  /** Tables of a layout with four chains. */
  private Path manyTables() throws IOException {
    Path out = folder.resolve("many");
    String chain = "\n      c%1$d: {leds: tuneable, signals: [{name: C%1$d, kind: bank}]}";
    String more = chain.formatted(3) + chain.formatted(4);
    Path copy = copy(layout -> layout.replace("{name: K5}", "{name: K5}" + more));
    assertThat(build("layout.yaml", copy, out)).isZero();
    return out;
  }

  /** The layout, changed, in a folder beside its rulebooks. */
  private Path copy(UnaryOperator<String> change) throws IOException {
    Path copy = Files.createTempDirectory(folder, "copy");
    String layout = Files.readString(ROOT.resolve("examples/brackwater/layout.yaml"));
    Files.writeString(
        copy.resolve("layout.yaml"), change.apply(layout).replace("../../rulebooks/", ""));
    for (String book : List.of("brackwater.aspects", "brackwater-heads.aspects")) {
      Files.copy(ROOT.resolve("rulebooks").resolve(book), copy.resolve(book));
    }
    return copy;
  }

  private static int build(String layout, Path root, Path out) {
    return new Session(root).run("build", layout, "--output", out.toAbsolutePath().toString());
  }

  private Process broker() throws Exception {
    Path configuration = folder.resolve("broker.conf");
    Files.writeString(
        configuration,
        "listener " + port + " 127.0.0.1\nallow_anonymous true\npersistence false\n");
    String program =
        Files.isExecutable(Path.of("/usr/sbin/mosquitto")) ? "/usr/sbin/mosquitto" : "mosquitto";
    Process process = start("broker.log", program, "-c", configuration.toString());
    await(this::isListening);
    return process;
  }

  private boolean isListening() {
    try (Socket socket = new Socket("127.0.0.1", port)) {
      return socket.isConnected();
    } catch (IOException e) {
      return false;
    }
  }

  private Process board(Path host) throws IOException {
    Path slots = Files.createDirectories(folder.resolve("slots"));
    Process process =
        start(
            "errors",
            host.toString(),
            "bank",
            "127.0.0.1",
            Integer.toString(port),
            slots.toString());
    follow(process, words -> chains.put(words[1], words[2]), 3);
    return process;
  }

  /** Follows all topics but that of tables. */
  private Process watch() throws IOException {
    String[] command = {
      "mosquitto_sub",
      "-h",
      "127.0.0.1",
      "-p",
      Integer.toString(port),
      "-v",
      "-t",
      "bank/state",
      "-t",
      "bank/shown/+"
    };
    Process process = start("watch.log", command);
    follow(process, words -> topics.put(words[0], words[1]), 2);
    return process;
  }

  private static void follow(Process process, Consumer<String[]> to, int words) {
    BufferedReader lines = process.inputReader(StandardCharsets.UTF_8);
    Thread thread =
        new Thread(
            () -> {
              try {
                for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                  to.accept(line.split(" ", words));
                }
              } catch (IOException e) {
                // The process was ended.
              }
            });
    thread.setDaemon(true);
    thread.start();
  }

  private Process start(String log, String... command) throws IOException {
    Process process =
        new ProcessBuilder(command)
            .redirectError(ProcessBuilder.Redirect.appendTo(folder.resolve(log).toFile()))
            .start();
    processes.add(process);
    return process;
  }

  private void publish(String topic, String text) throws Exception {
    tell(topic, "-m", text);
  }

  private void publishFile(byte[] table) throws Exception {
    tell("bank/table", "-f", Files.write(folder.resolve("table"), table).toString());
  }

  private void tell(String topic, String how, String what) throws Exception {
    String number = Integer.toString(port);
    List<String> command =
        List.of(
            "mosquitto_pub",
            "-h",
            "127.0.0.1",
            "-p",
            number,
            "-q",
            "1",
            "-r",
            "-t",
            topic,
            how,
            what);
    CompiledC.run(command, "");
  }

  private void await(BooleanSupplier condition) throws Exception {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(20);
    while (!condition.getAsBoolean()) {
      String now = topics + " " + chains;
      assertThat(System.nanoTime()).as(now).isLessThan(end);
      Thread.sleep(20);
    }
  }
}
