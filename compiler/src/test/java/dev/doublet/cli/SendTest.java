package dev.doublet.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.net.Socket;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import org.eclipse.paho.client.mqttv3.MqttClient;
import org.eclipse.paho.client.mqttv3.MqttConnectOptions;
import org.eclipse.paho.client.mqttv3.persist.MemoryPersistence;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Tables sent to the firmware with MQTT, a process of its own, through Debian's mosquitto. */
@Tag("slow")
class SendTest {
  private static final String OPEN = "allow_anonymous true\n";
  private static final String LOST = "  the board is lost: it went without a word; offered ";

  @TempDir private Path folder;
  private final List<Process> processes = new ArrayList<>();
  private final BlockingQueue<String> published = new LinkedBlockingQueue<>();
  private Session session;
  private String layout;

  @BeforeEach
  void write() throws IOException {
    ScratchBroker.assumeInstalled();
    for (String book : List.of("brackwater.aspects", "brackwater-heads.aspects")) {
      Files.copy(Toolchain.ROOT.resolve("rulebooks").resolve(book), folder.resolve(book));
    }
    layout =
        Files.readString(Toolchain.ROOT.resolve("examples/brackwater/layout.yaml"))
            .replace("../../rulebooks/", "");
    session = new Session(folder);
    Files.writeString(folder.resolve("layout.yaml"), layout);
    build("first");
    // Its first and fifth signal in each other's place.
    String other =
        layout
            .replace("{name: K5}", "{name: K1}")
            .replaceFirst("name: K1, kind: bank", "name: K5, kind: bank");
    Files.writeString(folder.resolve("layout.yaml"), other);
    build("second");
    assertThat(sum("first")).isNotEqualTo(sum("second"));
  }

  @AfterEach
  void end() throws InterruptedException {
    for (Process process : processes) {
      process.destroyForcibly().waitFor();
    }
  }

  private void build(String out) {
    assertThat(session.run("build", "layout.yaml", "--output", out)).isZero();
  }

  private String sum(String built) throws IOException {
    byte[] table = Files.readAllBytes(folder.resolve(built).resolve("bank.bin"));
    int sum = ByteBuffer.wrap(table).order(ByteOrder.LITTLE_ENDIAN).getInt(table.length - 4);
    return String.format(Locale.ROOT, "%08X", sum);
  }

  private int send(ScratchBroker broker, String... more) {
    List<String> arguments =
        new ArrayList<>(List.of("send", "layout.yaml", "--broker", broker.place()));
    arguments.addAll(List.of(more));
    return session.run(arguments.toArray(String[]::new));
  }

  private Process board(ScratchBroker broker, String... more) throws Exception {
    Path program = folder.resolve("host");
    if (!Files.exists(program)) {
      CompiledC.program(
          folder,
          "host",
          List.of(
              "-I" + folder.resolve("first"),
              "mqtt_signals.c",
              "mqtt.c",
              "table_store.c",
              "sockets.c",
              "host.c"));
    }
    Path slots = Files.createDirectories(folder.resolve("slots"));
    List<String> command =
        new ArrayList<>(
            List.of(program.toString(), "bank", "localhost", broker.port() + "", slots.toString()));
    command.addAll(List.of(more));
    Process process =
        new ProcessBuilder(command)
            .redirectErrorStream(true)
            .redirectOutput(folder.resolve("host.log").toFile())
            .start();
    processes.add(process);
    return process;
  }

  /** Another client, which waits for what boards say and counts what is published. */
  private MqttClient listener(ScratchBroker broker) throws Exception {
    MqttClient client =
        new MqttClient("tcp://" + broker.place(), "listener", new MemoryPersistence());
    client.connect(new MqttConnectOptions());
    client.subscribe("#", 1, (topic, message) -> published.add(topic + " " + message));
    return client;
  }

  private void awaitState(String words) throws InterruptedException {
    String heard = "";
    while (!(heard.startsWith("bank/state ") && heard.contains(words))) {
      heard = published.poll(20, TimeUnit.SECONDS);
      assertThat(heard).as("the board says " + words).isNotNull();
    }
  }

  private String shown(String built, String slot, String offered, String reason)
      throws IOException {
    return "  the board shows "
        + sum(built)
        + ", edition 3, "
        + slot
        + "; offered "
        + offered
        + "; "
        + reason
        + "\n";
  }

  @Test
  void a_table_is_sent_taken_and_gone_back_from() throws Exception {
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN)) {
      MqttClient listener = listener(broker);
      String table = "bank: table " + sum("second") + ", edition 3\n";

      // Nobody is there, and nothing is published.
      assertThat(send(broker)).isZero();
      assertThat(session.out())
          .isEqualTo(
              table
                  + "  no board of this name was ever at this broker\n"
                  + "  nothing sent, as nobody may be there to take it: --to bank sends it all the"
                  + " same\n");
      assertThat(published).isEmpty();

      Process board = board(broker);
      awaitState("installed " + sum("first"));
      assertThat(send(broker, "--dry-run")).isZero();
      assertThat(session.out())
          .isEqualTo(
              table
                  + shown("first", "its program's own", "none", "sound: none was kept yet")
                      .replace(
                          "sound: none was kept yet",
                          "at rest with the program's own table: none was kept yet")
                  + "  would be sent\n");
      assertThat(published).noneMatch(line -> line.startsWith("bank/table "));

      assertThat(send(broker)).isZero();
      assertThat(session.out())
          .isEqualTo(
              table
                  + shown("second", "from slot 0", sum("second"), "sound")
                  + "  sent, and shown\n");
      assertThat(published).anyMatch(line -> line.startsWith("bank/table "));
      assertThat(send(broker)).isZero();
      assertThat(session.out()).endsWith("  nothing to send\n");

      // Back to the older one, and damaged ones go nowhere.
      assertThat(send(broker, "--table", "bank=first/bank.bin")).isZero();
      assertThat(session.out())
          .isEqualTo(
              "bank: table "
                  + sum("first")
                  + ", edition 3\n"
                  + shown("first", "from slot 1", sum("first"), "sound")
                  + "  sent, and shown\n");
      byte[] damaged = Files.readAllBytes(folder.resolve("first/bank.bin"));
      damaged[60] ^= 1;
      Files.write(folder.resolve("damaged.bin"), damaged);
      Files.write(folder.resolve("short.bin"), Arrays.copyOf(damaged, 7));
      Files.write(folder.resolve("empty.bin"), new byte[0]);
      published.clear();
      for (String file : List.of("damaged.bin", "short.bin", "empty.bin", "layout.yaml")) {
        assertThat(send(broker, "--table", "bank=" + file)).as(file).isOne();
        assertThat(session.out()).isEmpty();
        assertThat(session.err()).startsWith("doublet: " + file + " is refused: ");
        assertThat(session.err()).endsWith("; nothing was sent\n");
      }
      assertThat(send(broker, "--table", "bank=none.bin")).isEqualTo(2);
      assertThat(session.err()).isEqualTo("doublet: none.bin: there is no such file\n");

      // A board that is lost gets its table when it is back.
      board.destroyForcibly().waitFor();
      awaitState("lost");
      assertThat(send(broker)).isZero();
      assertThat(session.out())
          .isEqualTo(
              table + LOST + sum("second") + "\n  sent: the broker keeps it for the board\n");
      assertThat(send(broker)).isZero();
      assertThat(session.out())
          .isEqualTo(
              table
                  + LOST
                  + sum("second")
                  + "\n  nothing to send: the broker keeps it for the board\n");
      Process back = board(broker);
      awaitState("installed " + sum("second"));

      // What is said by somebody else is taken for nothing. A board would soon say better.
      back.destroyForcibly().waitFor();
      awaitState("lost");
      listener.publish("bank/state", new byte[] {27, '[', '2', 'J'}, 1, true);
      assertThat(send(broker, "--dry-run")).isZero();
      assertThat(session.out()).contains("  its state topic says what no board says; offered ");
      listener.disconnectForcibly(0, 100);
      listener.close(true);
    }
  }

  @Test
  void a_board_without_room_is_sent_nothing_and_one_that_refuses_says_why() throws Exception {
    try (ScratchBroker broker = ScratchBroker.of(folder, OPEN)) {
      MqttClient listener = listener(broker);
      // This one is played: no table that is sound is refused by a board that has room for it.
      String said =
          "installed 00000001 edition 2 offered 00000000 slot 0 room 100 reason all is well";
      listener.publish("bank/state", said.getBytes(), 1, true);
      assertThat(send(broker)).isOne();
      int length = Files.readAllBytes(folder.resolve("second/bank.bin")).length;
      assertThat(session.out())
          .endsWith("  nothing sent: it has " + length + " bytes, and the board room for 100\n");
      listener.publish("bank/state", said.replace("100", "4096").getBytes(), 1, true);
      assertThat(send(broker, "--wait", "1")).isOne();
      assertThat(session.out())
          .endsWith(
              "  sent, but the board has said nothing of it; may this user write to bank/table?\n");
      listener.subscribe(
          "bank/table",
          1,
          (topic, message) -> {
            if (!message.isRetained()) {
              String answer = said.replace("00000000", sum("second")).replace("100", "4096");
              listener.getTopic("bank/state").publish(answer.getBytes(), 1, true);
            }
          });
      assertThat(send(broker)).isOne();
      assertThat(session.out()).contains("; all is well\n").endsWith("  sent, and refused\n");
      listener.disconnectForcibly(0, 100);
      listener.close(true);
    }
  }

  /** The access list is that of {@code mqtt.md}. */
  @Test
  void users_have_passwords_and_may_do_what_the_access_list_says() throws Exception {
    String page = Files.readString(Toolchain.ROOT.resolve("examples/firmware/mqtt.md"));
    int from = page.indexOf("user bank\n");
    Files.writeString(folder.resolve("list"), page.substring(from, page.indexOf("```", from)));
    for (String user : List.of("bank", "builder", "panel")) {
      Files.writeString(
          folder.resolve("users"),
          user + ":sesame\n",
          StandardOpenOption.CREATE,
          StandardOpenOption.APPEND);
    }
    CompiledC.run(List.of("mosquitto_passwd", "-U", folder.resolve("users").toString()), "");
    Files.writeString(folder.resolve("password"), "sesame\n");
    String settings =
        "allow_anonymous false\npassword_file "
            + folder.resolve("users")
            + "\nacl_file "
            + folder.resolve("list")
            + "\n";
    try (ScratchBroker broker = ScratchBroker.of(folder, settings)) {
      assertThat(send(broker)).isEqualTo(2);
      assertThat(session.err())
          .startsWith("doublet: broker tcp://" + broker.place() + " is not joined: ");
      board(broker, "bank", "sesame");
      String[] builder = {"--user", "builder", "--password-file", "password"};
      // The board takes a moment to come.
      for (int tries = 0; !session.out().contains("sent, and shown"); tries++) {
        assertThat(tries).isLessThan(20);
        assertThat(send(broker, builder)).as(session.out()).isZero();
      }
      assertThat(session.err()).contains("without --tls").doesNotContain("sesame");
      assertThat(session.out()).contains("from slot 0; offered " + sum("second") + "; sound");
      // One who guesses is told no more than that.
      Files.writeString(folder.resolve("guess"), "open\n");
      assertThat(send(broker, "--user", "builder", "--password-file", "guess")).isEqualTo(2);
      assertThat(session.err()).contains(" is not joined: ").doesNotContain("open\n", "\tat ");
      // A panel may look, and what it sends the broker drops.
      String[] panel = {
        "--user",
        "panel",
        "--password-file",
        "password",
        "--table",
        "bank=first/bank.bin",
        "--wait",
        "1"
      };
      assertThat(send(broker, panel)).isOne();
      assertThat(session.out()).contains("may this user write to bank/table?");
    }
  }

  @Test
  void tls_holds_the_broker_against_who_signed_it() throws Exception {
    CompiledC.assumeInstalled("openssl", "no certificate is made");
    for (String who : List.of("good", "other", "elsewhere")) {
      String host = who.equals("elsewhere") ? who + ".example" : "localhost";
      CompiledC.run(
          List.of(
              "openssl",
              "req",
              "-x509",
              "-newkey",
              "rsa:2048",
              "-nodes",
              "-subj",
              "/CN=" + host,
              "-addext",
              "subjectAltName=DNS:" + host,
              "-keyout",
              folder.resolve(who + ".key").toString(),
              "-out",
              folder.resolve(who + ".crt").toString()),
          "");
    }
    String settings =
        OPEN
            + "certfile "
            + folder.resolve("good.crt")
            + "\nkeyfile "
            + folder.resolve("good.key")
            + "\n";
    try (ScratchBroker broker = ScratchBroker.of(folder, settings)) {
      assertThat(send(broker, "--tls", "--ca", "good.crt")).isZero();
      assertThat(session.out()).contains("no board of this name");
      assertThat(session.err()).isEmpty();
      for (String[] wrong : new String[][] {{"--tls", "--ca", "other.crt"}, {"--tls"}, {}}) {
        assertThat(send(broker, wrong)).as(String.join(" ", wrong)).isEqualTo(2);
        assertThat(session.err()).contains(" is not joined: ").doesNotContain("\tat ");
      }
    }
    // Signed by who is trusted, and another's all the same.
    try (ScratchBroker broker = ScratchBroker.of(folder, settings.replace("good.", "elsewhere."))) {
      assertThat(send(broker, "--tls", "--ca", "elsewhere.crt")).isEqualTo(2);
      assertThat(session.err()).contains(" is not joined: ").doesNotContain("\tat ");
    }
  }

  /** What listens there is no broker: it says nothing, any bytes, or goes at once. */
  @Test
  void what_is_no_broker_is_not_joined() throws Exception {
    HexFormat hex = HexFormat.of();
    // Another protocol's greeting, a refusal, one that has no reason, and acceptance before noise.
    for (String bytes :
        List.of("-", "", "485454502F312E31", "20020005", "200200FF", "20020000FFFFFF")) {
      boolean silent = bytes.equals("-");
      byte[] said = silent ? new byte[0] : hex.parseHex(bytes);
      try (ServerSocket server = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
        Thread other =
            new Thread(
                () -> {
                  try (Socket client = server.accept()) {
                    client.getOutputStream().write(said);
                    client.getOutputStream().flush();
                    if (silent) {
                      client.getInputStream().readAllBytes();
                    }
                  } catch (IOException gone) {
                    // It need not stay.
                  }
                });
        other.setDaemon(true);
        other.start();
        String place = "localhost:" + server.getLocalPort();
        assertThat(session.run("send", "layout.yaml", "--broker", place)).isEqualTo(2);
        assertThat(session.err())
            .as(bytes)
            .startsWith("doublet: broker tcp://" + place + " is not joined: ")
            .hasLineCount(1);
      }
    }
  }

  @Test
  void what_cannot_be_done_is_said_before_any_broker_is_joined() throws IOException {
    assertThat(session.run("send", "layout.yaml")).isEqualTo(2);
    assertThat(session.err()).contains("send takes --broker HOST");
    String[] at = {"send", "layout.yaml", "--broker", "localhost:1"};
    assertThat(session.run(with(at, "--to", "harbour"))).isEqualTo(2);
    assertThat(session.err())
        .isEqualTo("doublet: no controller of layout.yaml is called \"harbour\"\n");
    assertThat(session.run(with(at, "--wait", "0"))).isEqualTo(2);
    assertThat(session.err())
        .contains("--wait takes a whole number of seconds from 1 to 3600, not \"0\"");
    assertThat(session.run(at)).isEqualTo(2);
    assertThat(session.err()).startsWith("doublet: broker tcp://localhost:1 is not joined: ");
    Files.writeString(folder.resolve("layout.yaml"), layout.replace("speaks: mqtt", "speaks: x"));
    assertThat(session.run(at)).isOne();
    assertThat(session.err()).isEqualTo("doublet: nothing was sent\n");
  }

  private static String[] with(String[] some, String... more) {
    List<String> all = new ArrayList<>(List.of(some));
    all.addAll(List.of(more));
    return all.toArray(String[]::new);
  }
}
